import { describe, expect, it } from 'vitest';
import type { Desk } from '../../src/api/blending.ts';
import { usePlanAnswerSchema } from '../../src/api/contract/use-plan.ts';
import { doJob } from '../../src/api/jobs.ts';
import { Problem } from '../../src/api/problem.ts';
import { usePlan } from '../../src/api/use-planning.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder } from '../../src/tables/plant-folder.ts';
import { ENGINES } from '../helpers/engines.ts';

const DATA = loadPlantFolder('demo-data', 'ingredient-tables');
const DESK: Desk = {
  data: DATA,
  ruleSets: RULE_SETS,
  today: () => '2026-11-25',
  // As through the border of a thread: a task and a plan are plain data.
  work: async (name, of) => structuredClone(doJob(name, structuredClone(of), ENGINES)),
};

const perLb = (amount: number) => ({ amount, per: 'lb' });
const lb = (value: number) => ({ value, unit: 'lb' });
const PRODUCTS = [
  { product: 'ground-beef-80-20', price: perLb(4.2), most: lb(800) },
  { product: 'bratwurst', price: perLb(3.4), least: lb(200), most: lb(600) },
];

async function errorsOf(body: unknown) {
  try {
    await usePlan(DESK, body);
  } catch (error) {
    if (error instanceof Problem) return error.errors;
    throw error;
  }
  throw new Error('no problem');
}

describe('the plan as the service answers it', () => {
  it('keeps its contract and carries each batch as a blend', async () => {
    const answer = await usePlan(DESK, { products: PRODUCTS });
    expect(usePlanAnswerSchema.parse(answer)).toEqual(answer);
    if (answer.outcome !== 'plan') throw new Error('no plan');
    expect(answer).toMatchObject({ date: '2026-11-25', aim: 'margin', lotsAreSunk: false, units: 'lb' });
    expect(answer.products.map(({ product }) => product).sort()).toEqual(['bratwurst', 'ground-beef-80-20']);
    for (const { weighed } of answer.products) expect(weighed?.blend.outcome).toBe('blend');
    const sum = answer.products.reduce((total, { weighed }) => total + (weighed?.margin ?? 0), 0);
    expect(answer.margin.weighed).toBeCloseTo(sum, 9);
    expect(answer.leftOut.find(({ supplyId }) => supplyId === 'P72-1110')?.because).toBe(
      'past its use-by date 2026-11-22',
    );
  });

  it('says the share it may give up where the request does not', async () => {
    const answer = await usePlan(DESK, { products: PRODUCTS, aim: 'oldest lots first' });
    expect(answer).toMatchObject({ outcome: 'plan', withinFraction: 0.05 });
    if (answer.outcome !== 'plan') throw new Error('no plan');
    expect(answer.margin.planned).toBeGreaterThanOrEqual(0.95 * answer.margin.best - 1e-3);
  });

  it('says why there is nothing to make', async () => {
    const cheap = [{ product: 'ground-beef-80-20', price: perLb(0.5) }];
    const answer = await usePlan(DESK, { products: cheap });
    expect(answer.outcome).toBe('nothing to make');
    expect(answer.notMade[0]?.because[0]).toContain('sells at 0.50 USD per lb');
  });

  it.each<[string, unknown, string]>([
    ['no products', {}, '/products'],
    ['an empty list of products', { products: [] }, '/products'],
    ['no price', { products: [{ product: 'bratwurst' }] }, '/products/0/price'],
    [
      'a price of nothing',
      { products: [{ product: 'bratwurst', price: perLb(0) }] },
      '/products/0/price/amount',
    ],
    ['an unknown product', { products: [{ product: 'pie', price: perLb(1) }] }, '/products/0/product'],
    ['a product twice', { products: [PRODUCTS[0], PRODUCTS[0]] }, '/products/1/product'],
    ['a lot that is not there', { products: PRODUCTS, excludeLots: ['none'] }, '/excludeLots/0'],
    ['a share without its aim', { products: PRODUCTS, withinFraction: 0.1 }, '/withinFraction'],
    ['a least above the most', { products: [{ ...PRODUCTS[1], least: lb(700) }] }, '/products/0/least'],
  ])('refuses %s once, at its place', async (_, body, pointer) => {
    expect((await errorsOf(body)).map((error) => error.pointer)).toEqual([pointer]);
  });
});
