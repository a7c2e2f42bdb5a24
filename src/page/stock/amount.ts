import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';

/** How much of a lot: a weight, a number of packs, or all of it that no batch was promised. */
export interface TypedAmount {
  readonly how: 'mass' | 'packs' | 'all';
  readonly mass: TypedMass;
  readonly packs: string;
}

export type Amount = { readonly mass: object | 'all' } | { readonly packs: number };

/** @returns undefined while it is empty or cannot be read. */
export function amountOf({ how, mass, packs }: TypedAmount, mark: DecimalMark): Amount | undefined {
  if (how === 'all') return { mass: 'all' };
  if (how === 'packs') {
    const parsed = parseNumber(packs, mark);
    return parsed.kind === 'number' ? { packs: parsed.value } : undefined;
  }
  const parsed = parseMass(mass.text, mass.unit, mark);
  return parsed.kind === 'mass' ? { mass: { value: parsed.value, unit: parsed.unit } } : undefined;
}
