import { massKgOf, parseMass } from '../../figures/mass.ts';
import { type DecimalMark, parseNumber } from '../../figures/number.ts';
import type { TypedMass } from '../../parts/number-field.tsx';
import type { Part } from './yield.ts';

/** What came out, as it is typed, and the request that it becomes. */

export interface TypedPart {
  readonly weight: TypedMass;
  readonly stage: Part['stage'];
  readonly reason: string;
}

export interface TypedTemperature {
  readonly what: string;
  readonly value: string;
  readonly unit: 'F' | 'C';
  readonly time: string;
}

export interface TypedFinish {
  readonly weight: TypedMass;
  readonly useBy: string;
  readonly state: string;
  readonly location: string;
  readonly rework: readonly TypedPart[];
  readonly discarded: readonly TypedPart[];
  readonly temperatures: readonly TypedTemperature[];
  readonly reasons: Readonly<Record<string, string>>;
}

/** A weight as the API takes it; undefined while it cannot be read. */
export function scaleWeight({ text, unit }: TypedMass, mark: DecimalMark) {
  const parsed = parseMass(text, unit, mark);
  return parsed.kind === 'mass' ? { value: parsed.text, unit: parsed.unit } : undefined;
}

export function kgOfTyped(typed: TypedMass, mark: DecimalMark): number {
  const weight = scaleWeight(typed, mark);
  return weight ? massKgOf(Number(weight.value), weight.unit) : 0;
}

/** The request without its reasons; rows that were left empty are left out. Undefined while the product has no weight. */
export function finishRequest(typed: TypedFinish, mark: DecimalMark) {
  const weight = scaleWeight(typed.weight, mark);
  if (!weight) return undefined;
  const parts = (all: readonly TypedPart[]) =>
    all.flatMap(({ weight: one, stage, reason }) => {
      const read = scaleWeight(one, mark);
      return read ? [{ weight: read, stage, reason }] : [];
    });
  return {
    output: {
      weight,
      state: typed.state,
      ...(typed.useBy !== '' && { useByDate: typed.useBy }),
      ...(typed.location.trim() !== '' && { location: typed.location.trim() }),
    },
    rework: parts(typed.rework).map(({ reason: _, ...part }) => part),
    discarded: parts(typed.discarded),
    temperatures: typed.temperatures.flatMap(({ what, value, unit, time }) => {
      const read = parseNumber(value, mark);
      if (read.kind !== 'number') return [];
      return [{ what, value: read.value, unit, ...(time !== '' && { time }) }];
    }),
  };
}
