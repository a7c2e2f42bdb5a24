import { expect, it } from 'vitest';
import type { BlendTask } from '../../src/api/blend-task.ts';
import { blend, type Desk, sheetAndLabel } from '../../src/api/blending.ts';
import { doJob } from '../../src/api/jobs.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { DEMO, pounds } from '../helpers/demo-requests.ts';
import { ENGINES } from '../helpers/engines.ts';

const BODY = { product: 'ground-beef-80-20', batchSize: { total: pounds(500) } };

/** A desk that notes which blends were worked out with prices. */
function deskNoting(asked: (boolean | undefined)[]): Desk {
  return {
    data: DEMO,
    ruleSets: RULE_SETS,
    today: () => '2026-11-25',
    work: async (name, of) => {
      if (name === 'blend') asked.push((of as BlendTask).withPrices);
      return doJob(name, of, ENGINES);
    },
  };
}

it('what lots are worth is worked out for whoever reads it, not for paper', async () => {
  const asked: (boolean | undefined)[] = [];
  const desk = deskNoting(asked);
  const answer = await blend(desk, BODY);
  const plain = await blend(desk, { ...BODY, worth: 'none' });
  const paper = await sheetAndLabel(desk, { ...BODY, worth: 'all' });
  expect(asked).toEqual([true, false, false]);
  expect(answer.outcome === 'blend' && answer.worth).toBeTruthy();
  expect(plain).not.toHaveProperty('worth');
  expect(paper.sheet).toBeDefined();
});
