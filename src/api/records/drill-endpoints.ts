import type { z } from 'zod';
import { recallDrillPage, recallDrillReport } from '../../documents/recall-drill-page.ts';
import { listRecords } from '../../store/records.ts';
import type { Books } from '../books.ts';
import { pageAfter } from '../contract/pages.ts';
import { type PaperQuery, paperQuery } from '../contract/printing.ts';
import type { Endpoint, Form } from '../endpoint.ts';
import { PDF, reportOnPaper } from '../paper.ts';
import {
  type DrillAnswer,
  drillAnswer,
  drillFinishSchema,
  drillSchema,
  drillsAnswer,
  drillsQuery,
} from './contract.ts';
import { drillsOf, finishDrill, readDrill, startDrill } from './drills.ts';
import { PRINTED_HEADERS } from './printed.ts';

/** Recall drills: how fast the plant finds all that was made of a lot, and how much of it. */
export function drillEndpoints(books: Books): Endpoint[] {
  const tag = 'Traces and recalls';
  const gives = drillAnswer;
  return [
    {
      method: 'POST',
      path: '/recall-drills',
      tag,
      says: 'Start a recall drill: everything made of a lot, where it is and who got it',
      may: 'work',
      takes: drillSchema,
      example: { lotId: 'B73-1120', reason: 'yearly recall drill' },
      gives,
      status: 201,
      handle: (call) => startDrill(books, call),
    },
    {
      method: 'POST',
      path: '/recall-drills/:id/finish',
      tag,
      says: 'End a recall drill with what was found',
      may: 'work',
      takes: drillFinishSchema,
      example: { found: [{ lotId: 'B73-1120', mass: { value: 720, unit: 'lb' } }], contacted: [] },
      gives,
      status: 201,
      handle: (call) => finishDrill(books, call),
    },
    {
      method: 'GET',
      path: '/recall-drills',
      tag,
      says: 'Recall drills, in the order in which they started or the newest first',
      may: 'read',
      query: drillsQuery,
      gives: drillsAnswer,
      handle: async ({ query }) => ({
        body: await findDrills(books, query as z.output<typeof drillsQuery>),
      }),
    },
    {
      method: 'GET',
      path: '/recall-drills/:id',
      tag,
      says: 'One recall drill, also as a page to print',
      may: 'read',
      query: paperQuery,
      gives,
      forms: {
        'text/html': recallDrillPage as Form,
        [PDF]: ((drill: DrillAnswer, query: PaperQuery) =>
          reportOnPaper(books, recallDrillReport(drill), query, {
            isLandscape: false,
            day: (drill.finished?.time ?? drill.started).shown.slice(0, 10),
          })) as Form,
      },
      handle: async ({ params }) => ({
        body: await books.store.read((db) => readDrill(db, params.id ?? '')),
        headers: PRINTED_HEADERS,
      }),
    },
  ];
}

async function findDrills(
  books: Books,
  { fromDay, toDay, order, after, limit }: z.output<typeof drillsQuery>,
) {
  return books.store.read(async (db) => {
    const rows = await listRecords(db, {
      kinds: ['recall drill'],
      ...(fromDay !== undefined && { fromDay }),
      ...(toDay !== undefined && { toDay }),
      ...(after !== undefined && { afterSeq: after }),
      isNewestFirst: order === 'newest',
      limit: limit + 1,
    });
    const { items, ...next } = pageAfter(rows, limit);
    const drills = await drillsOf(db, items);
    return {
      items: drills.map(({ id, state, reason, started, startedBy, whereabouts, finished }) => ({
        id,
        state,
        reason,
        started,
        startedBy,
        ...(finished && { minutes: finished.minutes }),
        percentAccounted: finished?.percentAccounted ?? whereabouts.percentAccounted,
      })),
      ...next,
    };
  });
}
