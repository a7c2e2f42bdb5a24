import type { z } from 'zod';
import { traceText } from '../../documents/trace-text.ts';
import { type Books, momentOf } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import { traceAnswer, traceQuery } from './contract.ts';
import { traceView } from './trace.ts';

/** Where a lot went, and what a pack was made of. */
export function traceEndpoints(books: Books): Endpoint[] {
  return [
    {
      method: 'GET',
      path: '/trace',
      tag: 'Traces and recalls',
      says: 'Forward from a lot to everything made of it and who got it, or back to the lots that it was made of',
      may: 'read',
      query: traceQuery,
      gives: traceAnswer,
      forms: { 'text/plain': traceText as (body: never) => string },
      handle: async ({ query }) => {
        const data = await books.plant();
        const { at } = momentOf(data, books.now());
        const wanted = query as z.output<typeof traceQuery>;
        return { body: await books.store.read((db) => traceView(db, books.store, data, wanted, at)) };
      },
    },
  ];
}
