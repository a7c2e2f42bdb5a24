import type { z } from 'zod';
import { listMovements } from '../../store/lots.ts';
import type { Books } from '../books.ts';
import { reasonedSchema } from '../contract/lots.ts';
import {
  bookedAnswer,
  movementAnswer,
  movementSchema,
  movementsAnswer,
  movementsQuery,
  shipmentAnswer,
  shipmentSchema,
} from '../contract/movements.ts';
import { pageAfter } from '../contract/pages.ts';
import type { Endpoint } from '../endpoint.ts';
import { moveLot, movementOrRefuse, reverseMovement } from './move.ts';
import { movementAnswers } from './movement-view.ts';
import { ship } from './ship.ts';

/** The ledger: what came to each lot and what left it. */
export function movementEndpoints(books: Books): Endpoint[] {
  const tag = 'Movements';
  return [
    {
      method: 'GET',
      path: '/movements',
      tag,
      says: 'Movements of lots, in the order in which they were booked',
      may: 'read',
      query: movementsQuery,
      gives: movementsAnswer,
      handle: async ({ query }) => ({
        body: await findMovements(books, query as z.output<typeof movementsQuery>),
      }),
    },
    {
      method: 'GET',
      path: '/movements/:seq',
      tag,
      says: 'One movement',
      may: 'read',
      gives: movementAnswer,
      handle: async ({ params }) => ({
        body: await books.store.read(async (db) => {
          const row = await movementOrRefuse(db, params.seq ?? '');
          return (await movementAnswers(db, [row]))[0];
        }),
      }),
    },
    {
      method: 'POST',
      path: '/lots/:id/movements',
      tag,
      says: 'Count a lot, or book what was discarded, sold or shipped of it',
      may: 'work',
      takes: movementSchema,
      example: {
        kind: 'adjusted',
        counted: { value: 712.5, unit: 'lb' },
        reason: 'monthly count',
      },
      gives: bookedAnswer,
      status: 201,
      handle: (call) => moveLot(books, call),
    },
    {
      method: 'POST',
      path: '/movements/:seq/reversal',
      tag,
      says: 'Take back what was booked by hand',
      may: 'work',
      takes: reasonedSchema,
      example: { reason: 'booked on the wrong lot' },
      gives: bookedAnswer,
      status: 201,
      handle: (call) => reverseMovement(books, call),
    },
    {
      method: 'POST',
      path: '/shipments',
      tag,
      says: 'Ship several lots together: all of them or none',
      may: 'work',
      takes: shipmentSchema,
      example: {
        to: 'Corner grocery',
        document: 'D-1042',
        lines: [{ lotId: 'B73-1120', mass: { value: 60, unit: 'lb' } }],
      },
      gives: shipmentAnswer,
      status: 201,
      handle: (call) => ship(books, call),
    },
  ];
}

async function findMovements(books: Books, wanted: z.output<typeof movementsQuery>) {
  const { lotId, batchId, kind, fromDay, toDay, after, limit } = wanted;
  return books.store.read(async (db) => {
    const rows = await listMovements(db, {
      ...(lotId !== undefined && { lotId }),
      ...(batchId !== undefined && { batchId }),
      ...(kind !== undefined && { kinds: [kind] }),
      ...(fromDay !== undefined && { fromDay }),
      ...(toDay !== undefined && { toDay }),
      ...(after !== undefined && { afterSeq: after }),
      limit: limit + 1,
    });
    const { items, ...next } = pageAfter(rows, limit);
    return { items: await movementAnswers(db, items), ...next };
  });
}
