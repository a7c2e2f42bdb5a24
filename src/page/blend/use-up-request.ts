import type { z } from 'zod';
import type { usePlanRequestSchema } from '../../api/contract/use-plan.ts';
import { parseMass } from '../figures/mass.ts';
import type { DecimalMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';

/** What a shop could make of its trim, as typed. */
export interface UseUpAsking {
  /** By product: what it sells for, and how much of it can be sold; empty texts where nothing is typed. */
  readonly products: Readonly<Record<string, UseUpProduct>>;
  readonly aim: 'margin' | 'oldest lots first';
  readonly isSunk: boolean;
}

export interface UseUpProduct {
  readonly isOn: boolean;
  readonly price: TypedMass;
  readonly most: TypedMass;
}

export const productAtFirst = (unit: 'lb' | 'kg'): UseUpProduct => ({
  isOn: false,
  price: { text: '', unit },
  most: { text: '', unit },
});

/** The request; undefined while no product that is ticked has a price. */
export function useUpBody(
  { products, aim, isSunk }: UseUpAsking,
  mark: DecimalMark,
  units: 'lb' | 'kg',
): z.input<typeof usePlanRequestSchema> | undefined {
  const candidates = Object.entries(products).flatMap(([product, { isOn, price, most }]) => {
    const sells = parseMass(price.text, price.unit, mark);
    if (!isOn || sells.kind !== 'mass' || sells.value <= 0) return [];
    const limit = parseMass(most.text, most.unit, mark);
    return [
      {
        product,
        price: { amount: sells.value, per: sells.unit },
        ...(limit.kind === 'mass' && limit.value > 0 && { most: { value: limit.value, unit: limit.unit } }),
      },
    ];
  });
  if (candidates.length === 0) return undefined;
  return { products: candidates, aim, lotsAreSunk: isSunk, units };
}
