import type { z } from 'zod';
import { costCsv, costPage, costReport } from '../../documents/cost-report.ts';
import { type Books, momentOf } from '../books.ts';
import type { Endpoint, Form } from '../endpoint.ts';
import { PDF, reportOnPaper } from '../paper.ts';
import { daysOf } from '../records/days.ts';
import { PRINTED_HEADERS } from '../records/printed.ts';
import {
  type CostAnswer,
  type CostQuery,
  costAnswer,
  costQuery,
  trimSeriesAnswer,
  trimSeriesQuery,
} from './contract.ts';
import { costsOf } from './costs.ts';
import { trimSeries } from './trim-series.ts';

/** Reports on what was made. */
export function reportEndpoints(books: Books): Endpoint[] {
  return [
    {
      method: 'GET',
      path: '/reports/costs',
      tag: 'Reports',
      says: 'What the batches of some days cost: planned, weighed, finished, lost and given away',
      may: 'read',
      query: costQuery,
      gives: costAnswer,
      forms: {
        'text/csv': costCsv as Form,
        'text/html': costPage as Form,
        [PDF]: ((report: CostAnswer, query: CostQuery) =>
          reportOnPaper(books, costReport(report), query, { isLandscape: true, day: report.toDay })) as Form,
      },
      handle: async ({ query }) => {
        const data = await books.plant();
        const days = daysOf(query as CostQuery, momentOf(data, books.now()).day);
        return {
          body: await books.store.read((db) => costsOf(db, data, days)),
          headers: PRINTED_HEADERS,
        };
      },
    },
    {
      method: 'GET',
      path: '/reports/trim',
      tag: 'Reports',
      says: "The fat of each supplier's trim lot by lot, with what its class says and what the lots have taught",
      may: 'read',
      query: trimSeriesQuery,
      gives: trimSeriesAnswer,
      handle: async ({ query }) => {
        const data = await books.plant();
        const { limit } = query as z.output<typeof trimSeriesQuery>;
        return { body: trimSeries(data, momentOf(data, books.now()).day, limit) };
      },
    },
  ];
}
