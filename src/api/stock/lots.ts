import type { z } from 'zod';
import type { Db } from '../../store/open.ts';
import { type Books, momentOf } from '../books.ts';
import {
  lotChangeSchema,
  lotsAnswer,
  lotsQuery,
  reasonedSchema,
  receiveSchema,
  wholeLotAnswer,
} from '../contract/lots.ts';
import type { Answer, Endpoint } from '../endpoint.ts';
import { changeLot, holdLot, releaseLot } from './change-lot.ts';
import { lotViews, wholeLot } from './lot-view.ts';
import { receiveLot } from './receive.ts';

/** Lots: what there is, what comes in, and what is known of it. */
export function lotEndpoints(books: Books): Endpoint[] {
  const tag = 'Lots';
  const gives = wholeLotAnswer;
  return [
    {
      method: 'GET',
      path: '/lots',
      tag,
      says: 'Lots on hand, or others',
      may: 'read',
      query: lotsQuery,
      gives: lotsAnswer,
      handle: async ({ query }) => ({ body: await findLots(books, query as LotsQuery) }),
    },
    {
      method: 'GET',
      path: '/lots/:id',
      tag,
      says: 'One lot with its tests',
      may: 'read',
      gives,
      handle: async ({ params }) => readLot(books, params.id ?? ''),
    },
    {
      method: 'POST',
      path: '/lots',
      tag,
      says: 'Receive a lot',
      may: 'work',
      takes: receiveSchema,
      example: {
        materialId: 'beef-trim-73',
        boxes: { count: 12, mass: { value: 60, unit: 'lb' } },
        cost: { amount: 2.05, per: 'lb' },
        useByDate: '2026-12-05',
        supplierEstablishment: '00001',
        location: 'Cooler 1 row B',
      },
      gives,
      status: 201,
      handle: (call) => receiveLot(books, call),
    },
    {
      method: 'PATCH',
      path: '/lots/:id',
      tag,
      says: 'Change what is known of a lot; null takes a field away',
      may: 'work',
      takes: lotChangeSchema,
      example: { state: 'frozen', note: 'into the blast freezer', useByDate: '2027-11-20' },
      gives,
      needsVersion: true,
      handle: (call) => changeLot(books, call),
    },
    {
      method: 'POST',
      path: '/lots/:id/hold',
      tag,
      says: 'Put a lot on hold: it goes into no batch and leaves the plant no way but as discarded',
      may: 'work',
      takes: reasonedSchema,
      example: { reason: 'torn bag, waits for quality control' },
      gives,
      handle: (call) => holdLot(books, call),
    },
    {
      method: 'POST',
      path: '/lots/:id/release',
      tag,
      says: 'Release a lot from its hold',
      may: 'plan',
      takes: reasonedSchema,
      example: { reason: 'inspected, rewrapped' },
      gives,
      handle: (call) => releaseLot(books, call),
    },
  ];
}

type LotsQuery = z.output<typeof lotsQuery>;

async function readLot(books: Books, id: string): Promise<Answer> {
  const { day } = momentOf(await books.plant(), books.now());
  const lot = await books.store.read((db) => wholeLot(db, id, day));
  return { body: lot, version: lot.version };
}

async function findLots(books: Books, query: LotsQuery): Promise<z.output<typeof lotsAnswer>> {
  const { day } = momentOf(await books.plant(), books.now());
  const { limit, offset, after } = query;
  return books.store.read(async (db) => {
    const counted = await lotsWanted(db, query)
      .select(({ fn }) => fn.countAll<number>().as('total'))
      .executeTakeFirstOrThrow();
    let wanted = lotsWanted(db, query).selectAll().orderBy('id').offset(offset);
    if (after !== undefined) wanted = wanted.where('id', '>', after);
    const rows = await wanted.limit(limit + 1).execute();
    const items = await lotViews(db, rows.slice(0, limit), day);
    const last = items.at(-1);
    return {
      total: Number(counted.total),
      limit,
      offset,
      items,
      ...(rows.length > limit && last && { next: last.id }),
    };
  });
}

function lotsWanted(db: Db, wanted: LotsQuery) {
  const { kind, materialId, productId, batchId, onHand, held, usableOn } = wanted;
  let query = db.selectFrom('lots').where('kind', '=', kind);
  for (const ofId of [materialId, productId]) if (ofId !== undefined) query = query.where('ofId', '=', ofId);
  if (batchId !== undefined) query = query.where('batchId', '=', batchId);
  if (onHand !== 'any') query = query.where('onHandUg', onHand === 'true' ? '>' : '=', 0);
  if (held !== undefined) query = query.where('held', '=', held === 'true' ? 1 : 0);
  if (usableOn === undefined) return query;
  return query
    .where('receivedDay', '<=', usableOn)
    .where(({ or, eb }) => or([eb('useByDay', 'is', null), eb('useByDay', '>=', usableOn)]));
}
