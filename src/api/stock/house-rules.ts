import { NO_HOUSE_RULES } from '../../batch/house-rules.ts';
import { houseRuleProblems } from '../../rules/house-rules.ts';
import { houseRulesSchema } from '../../tables/house-rules.ts';
import type { Books } from '../books.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { changedFields } from './changed-fields.ts';
import { refuseIssues } from './issues.ts';
import { presentState, writeState } from './revised.ts';

/** What the plant asks of itself beyond the law, and what it has set aside with a reason. */
export function houseRuleEndpoints(books: Books): Endpoint[] {
  const tag = 'Plant and rules';
  return [
    {
      method: 'GET',
      path: '/house-rules',
      tag,
      says: "The plant's own rules",
      may: 'read',
      gives: houseRulesSchema,
      handle: () => readRules(books),
    },
    {
      method: 'PUT',
      path: '/house-rules',
      tag,
      says: "Write the plant's own rules anew, all of them",
      may: 'plan',
      takes: houseRulesSchema,
      gives: houseRulesSchema,
      needsVersion: true,
      handle: (call) => replaceRules(books, call),
    },
  ];
}

/** A plant that never wrote any has version 0 of them. */
async function readRules(books: Books): Promise<Answer> {
  const row = await books.store.read((db) => presentState(db, 'house rules', 'house rules'));
  const rules = houseRulesSchema.parse(row ? JSON.parse(row.body) : NO_HOUSE_RULES);
  return { body: rules, version: row?.revision ?? 0 };
}

async function replaceRules(books: Books, call: Call): Promise<Answer> {
  const rules = parseOrProblem(houseRulesSchema, call.body);
  refuseIssues(houseRuleProblems(rules, books.ruleSets));
  const what = { action: 'house rules changed', subject: { kind: 'house rules', id: 'house rules' } };
  return writeState(books, call, what, async (_writing, state) => {
    const before = houseRulesSchema.parse(state ? JSON.parse(state.body) : NO_HOUSE_RULES);
    return {
      body: rules,
      says: `house rules changed: ${changedFields(before, rules)}`,
      answer: (version) => ({ body: rules, version }),
    };
  });
}
