import { describe, expect, it } from 'vitest';
import { blend, type Desk } from '../../src/api/blending.ts';
import type { BlendAnswer } from '../../src/api/contract/blend-answer.ts';
import { correctionAnswerSchema } from '../../src/api/contract/correction.ts';
import { correction } from '../../src/api/correcting.ts';
import { doJob } from '../../src/api/jobs.ts';
import { Problem } from '../../src/api/problem.ts';
import { correctionText } from '../../src/documents/correction-text.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder } from '../../src/tables/plant-folder.ts';
import { ENGINES } from '../helpers/engines.ts';

const desk: Desk = {
  data: loadPlantFolder('demo-data', 'ingredient-tables'),
  ruleSets: RULE_SETS,
  today: () => '2026-11-25',
  work: async (name, of) => doJob(name, of, ENGINES),
};

const lb = (value: number) => ({ value, unit: 'lb' });
const load = (fatFraction: number, more: object = {}) => ({
  product: 'ground-beef-80-20',
  inMixer: [
    { lotId: 'B73-1120', mass: lb(180) },
    { lotId: 'B85-1119', mass: lb(120) },
  ],
  testedFat: { fatFraction, method: 'NIR' },
  ...more,
});
const answer = (body: object) => correction(desk, body);

describe('the sheet of a correction', () => {
  it('lists the mix, what to add with a box to tick, and the limits before and after', async () => {
    const found = await answer(load(0.235));
    expect(correctionAnswerSchema.parse(found)).toEqual(found);
    if (found.outcome !== 'additions') throw new Error(found.outcome);
    const text = correctionText(found);
    expect(text).toContain('CORRECTION OF A LOAD  Ground beef 80/20');
    expect(text).toMatch(/B73-1120 +Beef.* 180\.000 +27\.80 +\d\d\.\d\d/);
    expect(text).toMatch(/Fat test {2}23\.50 % by NIR; the lots said 23\.16 %/);
    for (const { weight, material } of found.lines)
      expect(text).toMatch(new RegExp(`\\[ \\] +${material}.* ${weight.text} +lb`));
    expect(text).toMatch(/NO +23\.500 % +ok +(19\.9\d\d|20\.000) % +fat +max 20 %/);
    expect(text).toMatch(/! Keep the mix cold.*HACCP/);
    expect(text).toContain('Fat test after mixing (result, method): ___');
  });

  it('says what to take out first where the mixer is too small, and what else can be made of the mix', async () => {
    const found = await answer(load(0.235, { capacity: lb(310) }));
    if (found.outcome !== 'cannot be brought back') throw new Error(found.outcome);
    const text = correctionText(found);
    expect(text).toContain('CANNOT BE BROUGHT BACK AS IT IS');
    expect(text).toMatch(/TAKE OUT OF THE MIXER FIRST\n {2}\[ \] \d+\.\d+ lb on .* scale/);
    expect(text).toContain('OR MAKE IT INTO Hamburger patties, third of a pound');
    expect(text).not.toContain('sausage');
  });

  it('says that a load is right', async () => {
    const text = correctionText(await answer(load(0.19)));
    expect(text).toContain('RIGHT AS IT IS');
    expect(text).not.toContain('Added (lots');
  });

  it('says how sure it is where that was asked', async () => {
    const text = correctionText(await answer(load(0.195, { confidence: 0.95 })));
    expect(text).toContain('Sure to   95.0 %, the test uncertain by 0.6 points (one sd)');
    expect(text).toMatch(/not sure +19\.500 % +ok/);
  });
});

describe('a correction asked of the desk', () => {
  it('takes what was weighed off the inventory, and adds nothing of an excluded lot', async () => {
    const emptied = {
      ...load(0.235),
      inMixer: [
        { lotId: 'B73-1120', mass: lb(180) },
        { lotId: 'B95-1121', mass: lb(480) },
      ],
      capacity: lb(1000),
      testedFat: { fatFraction: 0.235, method: 'NIR' },
      excludeLots: ['B90-0914'],
    };
    const found = await answer(emptied);
    if (found.outcome !== 'additions') throw new Error(found.outcome);
    expect(found.leftOut).toContainEqual(
      expect.objectContaining({ supplyId: 'B95-1121', because: 'nothing on hand' }),
    );
    expect(found.lines.map(({ supplyId }) => supplyId)).not.toContain('B90-0914');
  });

  it.each([
    ['/inMixer/0/lotId', { inMixer: [{ lotId: 'nothing', mass: lb(10) }] }],
    ['/inMixer/0/materialId', { inMixer: [{ materialId: 'curing-salt-6.25', mass: lb(10) }] }],
    ['/inMixer/0', { inMixer: [{ mass: lb(10) }] }],
    ['/excludeLots/0', { excludeLots: ['nothing'] }],
    ['/testedFat/fatFraction', { testedFat: { fatFraction: 23, method: 'NIR' } }],
    ['/confidence', { confidence: 0.5 }],
    ['/product', { product: 'nothing' }],
  ])('names the field that is wrong: %s', async (pointer, wrong) => {
    const fault = await answer(load(0.235, wrong)).catch((error: unknown) => error);
    if (!(fault instanceof Problem)) throw fault;
    expect(fault.errors.map((error) => error.pointer)).toEqual([pointer]);
  });
});

describe('a correction of the demo plant', () => {
  it('finds a load right that was weighed as its own sheet says, wherever its fat tests inside its window', async () => {
    const request = { product: 'smoked-sausage', batchSize: { total: lb(330) } };
    const { outcome, lines, loads } = (await blend(desk, request)) as Extract<
      BlendAnswer,
      { outcome: 'blend' }
    >;
    expect([outcome, loads]).toEqual(['blend', 1]);
    const inMixer = lines.map(({ lotId, materialId, weight }) => ({
      ...(lotId ? { lotId } : { materialId }),
      mass: { value: Number(weight.text), unit: weight.unit },
    }));
    for (const fatFraction of [0.245, 0.25, 0.255]) {
      const found = await answer({
        product: 'smoked-sausage',
        inMixer,
        testedFat: { fatFraction, method: 'NIR' },
      });
      expect([fatFraction, found.outcome]).toEqual([fatFraction, 'right as it is']);
    }
  });

  it('is as sure as the house asks, where the request says nothing or less', async () => {
    const certainty = [{ limitId: 'house-fat-max', confidence: 0.95 }];
    const houseRules = { tighter: [], own: [], switchedOff: [], certainty };
    for (const asked of [{}, { confidence: 0.6 }]) {
      const found = await answer(load(0.235, { houseRules, ...asked }));
      expect(correctionText(found)).toMatch(/Sure to {3}95\.0 %/);
    }
  });

  it('refuses more of a lot than there was', async () => {
    const body = { ...load(0.235), inMixer: [{ lotId: 'B85-1119', mass: lb(900) }] };
    await expect(answer(body)).rejects.toMatchObject({
      errors: [{ pointer: '/inMixer/0/mass', message: expect.stringMatching(/more than the lot had, 840/) }],
    });
  });
});
