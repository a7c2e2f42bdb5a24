import { describe, expect, it } from 'vitest';
import { blend, type Desk, sheet } from '../../src/api/blending.ts';
import { doJob } from '../../src/api/jobs.ts';
import { listRules } from '../../src/api/rules.ts';
import { batchSheetText } from '../../src/documents/batch-sheet-text.ts';
import { explanationText } from '../../src/documents/explanation-text.ts';
import { limitsText } from '../../src/documents/limits-text.ts';
import { FORMS } from '../../src/rules/forms.ts';
import type { Limit } from '../../src/rules/limit.ts';
import type { RuleSet } from '../../src/rules/standard.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder } from '../../src/tables/plant-folder.ts';
import { ENGINES } from '../helpers/engines.ts';

/** A limit that exists nowhere: at least 30 % of the meat of a cooked sausage is beef. */
const INVENTED: Limit = {
  id: 'us-1.1-beef',
  says: 'Beef is at least 30 % of the meat of this invented standard.',
  numerator: { id: 'beef', says: 'beef', terms: [{ of: 'mass', times: 1, from: { species: ['beef'] } }] },
  basis: FORMS.greenWeight,
  sense: 'min',
  bound: 0.3,
  unit: 'percent',
  authority: 'law',
  citation: 'invented for a test',
  read: 'from memory',
  inForce: { from: '2026-11-01' },
};

/** The rule sets with the invented limit in one of their classes: data, and nothing else, is added. */
const withInvented: readonly RuleSet[] = RULE_SETS.map((ruleSet) => ({
  ...ruleSet,
  standards: ruleSet.standards.map((standard) =>
    ruleSet.jurisdiction === 'us' && standard.productClass === 'cooked-sausage'
      ? { ...standard, limits: [...standard.limits, INVENTED] }
      : standard,
  ),
}));

const DATA = loadPlantFolder('demo-data', 'ingredient-tables');
const deskOf = (ruleSets: readonly RuleSet[]): Desk => ({
  data: DATA,
  ruleSets,
  today: () => '2026-11-25',
  work: async (name, of) => doJob(name, of, ENGINES),
});

/** The smoked sausage without its own share of beef, which would hide the limit. */
const { meatBlock: _, ...smoked } = structuredClone(DATA.products.get('smoked-sausage')?.json) as Record<
  string,
  unknown
>;
const REQUEST = {
  product: { ...smoked, meatBlock: [{ name: 'meat', species: ['pork', 'beef'] }] },
  batchSize: { total: { value: 300, unit: 'lb' } },
};

async function beefShare(desk: Desk, date: string): Promise<number> {
  const answer = await blend(desk, { ...REQUEST, date });
  if (answer.outcome !== 'blend') throw new Error(JSON.stringify(answer));
  const beefKg = answer.lines
    .filter(({ materialId }) => materialId.startsWith('beef'))
    .reduce((sum, { mass }) => sum + mass.kg, 0);
  return beefKg / answer.greenWeight.kg;
}

describe('a limit added by data alone', () => {
  const desk = deskOf(withInvented);

  it('changes the blend from the day it is in force', async () => {
    expect(await beefShare(deskOf(RULE_SETS), '2026-11-25')).toBeLessThan(0.3);
    expect(await beefShare(desk, '2026-11-25')).toBeGreaterThanOrEqual(0.3);
    // Lots of that day only: most were not yet there.
    expect(
      listRules(desk, { productClass: 'cooked-sausage', date: '2026-10-31' }).standards[0]?.limits,
    ).not.toContainEqual(expect.objectContaining({ id: INVENTED.id }));
  });

  it('is checked on the printed weights, on the sheet and in the explanation', async () => {
    const answer = await blend(desk, REQUEST);
    if (answer.outcome !== 'blend') throw new Error(JSON.stringify(answer));
    const check = answer.checks.find(({ limit }) => limit.id === INVENTED.id);
    expect(check).toMatchObject({ holds: true, limit: { bound: 30, unit: 'percent', read: 'from memory' } });
    expect(check?.value).toBeGreaterThanOrEqual(30);
    const beef = answer.lines.filter(({ materialId }) => materialId.startsWith('beef'));
    expect(check?.contributions.map(({ supplyId }) => supplyId).sort()).toEqual(
      beef.map(({ supplyId }) => supplyId).sort(),
    );
    expect(batchSheetText(await sheet(desk, REQUEST))).toMatch(
      /ok +beef +3\d\.\d{3} % +min 30 % +green weight.*invented for a test \[from memory\]/,
    );
    const explained = explanationText(answer);
    expect(explained).toMatch(/ok {2}beef 3\d\.\d{3} % of green weight.*at least 30 %, room/);
    expect(explained).toContain(`${INVENTED.says} (invented for a test [from memory])`);
  });

  it('is listed with its source, its day and how it was read', () => {
    const rules = listRules(desk, { productClass: 'cooked-sausage' });
    expect(rules.standards[0]?.limits).toContainEqual(
      expect.objectContaining({ id: INVENTED.id, bound: 30, inForce: { from: '2026-11-01' } }),
    );
    expect(limitsText(rules)).toContain(
      `${INVENTED.says} invented for a test, from 2026-11-01 [from memory]`,
    );
  });

  it('refuses by its own words where it cannot hold', async () => {
    const answer = await blend(desk, {
      ...REQUEST,
      product: { ...REQUEST.product, meatBlock: [{ name: 'meat', species: ['pork'] }] },
    });
    expect(answer.outcome).toBe('no blend');
    if (answer.outcome !== 'no blend') return;
    expect(answer.because[0]).toMatchObject({ limitId: INVENTED.id });
    expect(answer.because[0]?.message).toMatch(
      /The nearest blend has 0 percent of beef where at least 30 is asked/,
    );
  });
});
