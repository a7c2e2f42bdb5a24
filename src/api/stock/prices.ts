import { Refused } from '../../ledger/refused.ts';
import { presentOf } from '../../store/revisions.ts';
import { perKilogram } from '../../units.ts';
import type { Books } from '../books.ts';
import { priceAnswer, priceRequestSchema, pricesAnswer } from '../contract/prices.ts';
import { withdrawnAnswer } from '../contract/resources.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { materialsOf } from '../plant-of-store.ts';
import { costs } from './lot-view.ts';
import { refuseAbsent, withdrawn, writeState } from './revised.ts';

/** Prices of materials that are bought without lots: water, spices, casings. */
export function priceEndpoints(books: Books): Endpoint[] {
  const tag = 'Products and materials';
  return [
    {
      method: 'GET',
      path: '/prices',
      tag,
      says: 'Prices of materials that are bought without lots',
      may: 'read',
      gives: pricesAnswer,
      handle: async () => ({ body: await listPrices(books) }),
    },
    {
      method: 'PUT',
      path: '/prices/:materialId',
      tag,
      says: 'What a material costs from now on',
      may: 'plan',
      takes: priceRequestSchema,
      example: { cost: { amount: 7.4, per: 'lb' } },
      gives: priceAnswer,
      handle: (call) => writePrice(books, call),
    },
    {
      method: 'DELETE',
      path: '/prices/:materialId',
      tag,
      says: 'Withdraw a price: the material is then used from its lots alone',
      may: 'plan',
      gives: withdrawnAnswer,
      handle: (call) => withdrawPrice(books, call),
    },
  ];
}

async function listPrices(books: Books) {
  const { tables } = await books.plant();
  return books.store.read(async (db) => {
    const materials = await materialsOf(db, tables);
    const rows = await presentOf(db, 'price');
    return {
      items: rows.map(({ id, body, revision }) => {
        const { costPerKg } = JSON.parse(body) as { readonly costPerKg: number };
        return shownPrice(id, materials.get(id)?.name ?? id, costPerKg, revision);
      }),
    };
  });
}

function shownPrice(materialId: string, material: string, costPerKg: number, version: number) {
  return { materialId, material, ...costs(costPerKg), version };
}

async function writePrice(books: Books, call: Call): Promise<Answer> {
  const { cost } = parseOrProblem(priceRequestSchema, call.body);
  const { materialId = '' } = call.params;
  const what = { action: 'price written', subject: { kind: 'price', id: materialId } };
  return writeState(books, call, what, async ({ db }, _state, { tables, plant }) => {
    const material = (await materialsOf(db, tables)).get(materialId);
    if (!material) throw new Refused('unknown', `No material has the id "${materialId}"`);
    const costPerKg = perKilogram(cost.amount, cost.per);
    return {
      body: { costPerKg },
      says: `${material.name} costs ${cost.amount} ${plant.currency} per ${cost.per}`,
      answer: (version) => ({
        body: shownPrice(materialId, material.name, costPerKg, version),
        version,
      }),
    };
  });
}

async function withdrawPrice(books: Books, call: Call): Promise<Answer> {
  const { materialId = '' } = call.params;
  const what = { action: 'price withdrawn', subject: { kind: 'price', id: materialId } };
  return writeState(books, call, what, async (_writing, state) =>
    withdrawn(
      refuseAbsent(state, `No price is known of "${materialId}"`),
      `the price of ${materialId} was withdrawn`,
    ),
  );
}
