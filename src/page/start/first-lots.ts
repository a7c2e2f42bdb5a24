import type { z } from 'zod';
import type { materialsAnswer } from '../../api/contract/resources.ts';
import { fractionOfPercent } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber } from '../figures/number.ts';
import type { TypedLot } from './typed-start.ts';

/** The first lots of trim: which to offer, and the receipts that they become. */

export type Materials = z.output<typeof materialsAnswer>;
export type Material = Materials['items'][number];

/** What is looked at of a product. */
export interface Recipe {
  readonly id: string;
  readonly name: string;
  readonly standard: { readonly jurisdiction: string; readonly productClass: string };
  readonly process: { readonly cooking: string };
  readonly meatBlock: readonly {
    readonly species?: readonly string[];
    readonly materialIds?: readonly string[];
  }[];
}

/** Trim that the recipes take, fat ones last; of every species where they name none. */
export function trimFor(materials: readonly Material[], recipes: readonly Recipe[]): Material[] {
  const parts = recipes.flatMap(({ meatBlock }) => meatBlock);
  const species = new Set(parts.flatMap((part) => part.species ?? []));
  const ids = new Set(parts.flatMap((part) => part.materialIds ?? []));
  const isTaken = ({ id, species: its }: Material) =>
    ids.has(id) || (species.size === 0 && ids.size === 0) || (its !== undefined && species.has(its));
  return materials
    .filter((material) => material.kind === 'skeletal meat' && isTaken(material))
    .toSorted((a, b) => (a.species ?? '').localeCompare(b.species ?? '') || fatOf(a) - fatOf(b));
}

const fatOf = ({ composition }: Material): number => composition.fatFraction;

/** Fat of a fat and of a lean trim between which most blends lie. */
const FAT_AND_LEAN = [0.5, 0.1];

/** Two kinds of trim to begin with: one fat, one lean, of the species that comes first in the recipes. */
export function pairToBegin(trim: readonly Material[], recipes: readonly Recipe[]): string[] {
  const first = recipes.flatMap(({ meatBlock }) => meatBlock).flatMap(({ species = [] }) => species)[0];
  const own = trim.filter(({ species, id }) => species === first && id.includes('-trim-'));
  return FAT_AND_LEAN.flatMap((wanted) => {
    const [nearest] = own.toSorted((a, b) => Math.abs(fatOf(a) - wanted) - Math.abs(fatOf(b) - wanted));
    return nearest ? [nearest.id] : [];
  });
}

export const isEmptyLot = ({ mass, price, lean }: TypedLot): boolean =>
  mass.text.trim() === '' && price.text.trim() === '' && lean.trim() === '';

/** The receipt; what cannot be read goes as it was typed, and the service says what is wrong with it. */
export function receiptBody(lot: TypedLot, materialId: string, mark: DecimalMark): object {
  const mass = parseMass(lot.mass.text, lot.mass.unit, mark);
  const price = parseMass(lot.price.text, lot.price.unit, mark);
  const lean = parseNumber(lot.lean, mark);
  return {
    materialId,
    mass:
      mass.kind === 'mass'
        ? { value: mass.value, unit: mass.unit }
        : { value: lot.mass.text || undefined, unit: lot.mass.unit },
    cost:
      price.kind === 'mass'
        ? { amount: price.value, per: price.unit }
        : { amount: lot.price.text || undefined, per: lot.price.unit },
    ...(lean.kind !== 'empty' && {
      measuredFat: {
        fatFraction: lean.kind === 'number' ? fractionOfPercent((100 - lean.value).toFixed(4)) : lot.lean,
        method: 'supplier',
      },
    }),
  };
}
