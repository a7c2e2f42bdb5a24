import type { z } from 'zod';
import { type Books, deskOf } from './books.ts';
import { healthAnswer, ruleSetsAnswer, rulesAnswer, rulesQuery, trimAnswer } from './contract/resources.ts';
import type { Endpoint } from './endpoint.ts';
import { listTrim } from './resources.ts';
import { listRuleSets, listRules } from './rules.ts';

/** Which rules hold, what tests have taught, and whether the service answers. */
export function plantEndpoints(books: Books, version: string): Endpoint[] {
  const tag = 'Plant and rules';
  return [
    {
      method: 'GET',
      path: '/rules',
      tag,
      says: 'Limits with their citations',
      may: 'read',
      query: rulesQuery,
      gives: rulesAnswer,
      handle: async ({ query }) => ({
        body: listRules(await deskOf(books), query as z.output<typeof rulesQuery>),
      }),
    },
    {
      method: 'GET',
      path: '/rule-sets',
      tag,
      says: 'Markets whose rules are known, with their product classes',
      may: 'read',
      gives: ruleSetsAnswer,
      handle: async () => ({ body: listRuleSets(books.ruleSets) }),
    },
    {
      method: 'GET',
      path: '/trim',
      tag,
      says: "What past fat tests say of each supplier's trim",
      may: 'read',
      gives: trimAnswer,
      handle: async () => ({ body: listTrim(await deskOf(books)) }),
    },
    {
      method: 'GET',
      path: '/health',
      tag,
      says: 'Whether the service answers',
      may: 'anyone',
      gives: healthAnswer,
      handle: async () => ({ body: { status: 'ok', version, doubtedAnswers: books.doubts() } }),
    },
  ];
}
