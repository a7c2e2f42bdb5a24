import type { z } from 'zod';
import type { Lot } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import { trimKnowledge } from '../batch/trim-learning.ts';
import { inUnit, pricePerUnit } from '../units.ts';
import type { Desk } from './blending.ts';
import type {
  LotAnswer,
  lotsQuery,
  MaterialAnswer,
  materialsQuery,
  productsQuery,
  trimAnswer,
} from './contract/resources.ts';
import { Problem } from './problem.ts';

/** What the plant has, for reading. */

/** Materials of the tables, filtered and paged. */
export function listMaterials({ data }: Desk, query: z.output<typeof materialsQuery>) {
  const { kind, species, search = '', ...page } = query;
  const wanted = search.toLowerCase();
  const found = [...data.materials.values()].filter(
    (material) =>
      (!kind || material.kind === kind) &&
      (!species || material.species === species) &&
      (material.name.toLowerCase().includes(wanted) || material.id.includes(wanted)),
  );
  return pageOf(found, page, materialAnswer);
}

/** Lots on hand, filtered and paged. */
export function listLots({ data }: Desk, query: z.output<typeof lotsQuery>) {
  const { materialId, usableOn, ...page } = query;
  const found = data.lots.filter(
    (lot) =>
      (!materialId || lot.materialId === materialId) &&
      (!usableOn || ((lot.useByDate ?? '9999-12-31') >= usableOn && lot.receivedDate <= usableOn)),
  );
  return pageOf(found, page, lotAnswer);
}

/** What past fat tests say of each supplier's trim, as of today. */
export function listTrim({ data, today }: Desk): z.output<typeof trimAnswer> {
  return { items: trimKnowledge(data.fatTests, data.materials, today()).map((known) => ({ ...known })) };
}

/** Products of the plant in the form that a request takes. */
export function listProducts({ data }: Desk, page: z.output<typeof productsQuery>) {
  return pageOf([...data.products.values()], page, ({ json }) => json);
}

/** @throws Problem 'not-found'. */
export function readProduct({ data }: Desk, id: string): unknown {
  const stored = data.products.get(id);
  if (stored) return stored.json;
  throw new Problem(
    'not-found',
    `No product has the id "${id}". The products are ${[...data.products.keys()].join(', ')}.`,
  );
}

/** The plant, its scales and its day. */
export function readPlant({ data, today }: Desk) {
  const { name, establishment, jurisdiction, currency, units, timeZone, mixerCapacityKg, scales } =
    data.plant;
  return {
    name,
    establishment,
    jurisdiction,
    currency,
    units,
    timeZone,
    today: today(),
    mixerCapacityKg,
    scales,
  };
}

function pageOf<Item, Answer>(
  items: readonly Item[],
  { limit, offset }: { limit: number; offset: number },
  answer: (item: Item) => Answer,
) {
  return { total: items.length, limit, offset, items: items.slice(offset, offset + limit).map(answer) };
}

function materialAnswer({ trimLine: _, ...material }: Material): MaterialAnswer {
  return {
    ...material,
    substances: { ...material.substances },
    allergens: [...material.allergens],
    subIngredients: [...material.subIngredients],
  };
}

function lotAnswer({ onHandKg, costPerKg, ...lot }: Lot): LotAnswer {
  return {
    ...lot,
    onHand: { kg: onHandKg, lb: inUnit(onHandKg, 'lb') },
    costPerKg,
    costPerLb: pricePerUnit(costPerKg, 'lb'),
  };
}
