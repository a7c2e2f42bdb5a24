import type { z } from 'zod';
import { trimKnowledge } from '../batch/trim-learning.ts';
import type { Desk } from './blending.ts';
import type { trimAnswer } from './contract/resources.ts';

/** What past fat tests say of each supplier's trim, as of today; a lot without a supplier teaches nothing of one. */
export function listTrim({ data, today }: Desk): z.output<typeof trimAnswer> {
  const ofSuppliers = data.fatTests.filter(({ supplierEstablishment }) => supplierEstablishment !== '');
  return { items: trimKnowledge(ofSuppliers, data.materials, today()).map((known) => ({ ...known })) };
}

/** One page of a list that is counted as a whole. */
export function pageOf<Item, Shown>(
  items: readonly Item[],
  { limit, offset }: { readonly limit: number; readonly offset: number },
  show: (item: Item) => Shown,
) {
  return { total: items.length, limit, offset, items: items.slice(offset, offset + limit).map(show) };
}
