import { describe, expect, it } from 'vitest';
import { type ReadPlan, usePlanText } from '../../src/documents/use-plan-text.ts';

const both = (kg: number) => ({ kg, lb: kg * 2 });
const prices = (perKg: number) => ({ perKg, perLb: perKg / 2 });

const PLAN: ReadPlan = {
  outcome: 'plan',
  plant: { name: 'Demo Plant', establishment: '00000' },
  date: '2031-05-14',
  units: 'kg',
  currency: 'USD',
  aim: 'oldest lots first',
  lotsAreSunk: false,
  products: [
    {
      name: 'Bratwurst',
      price: prices(7.5),
      planned: { raw: both(101), finished: both(91), margin: 303 },
      weighed: { raw: both(100), finished: both(90), margin: 300 },
    },
    {
      name: 'Patties',
      price: prices(8),
      planned: { raw: both(4), finished: both(4), margin: 12 },
    },
  ],
  notMade: [{ name: 'Links', because: ['Too dear.', 'Raise its price.'] }],
  lots: [
    { lotId: 'L-2', material: 'Trim', used: both(40), left: both(5), oneMoreAdds: prices(0) },
    {
      lotId: 'L-1',
      material: 'Trim',
      used: both(60),
      left: both(0),
      useByDate: '2031-05-16',
      daysToUseBy: 2,
      oneMoreAdds: prices(3.456),
    },
  ],
  leftOut: [{ supplyId: 'L-0', material: 'Trim', because: 'past its use-by date 2031-05-01' }],
  margin: { best: 400, planned: 390, weighed: 300 },
  cautions: ['Count the stock.'],
};

describe('the plan as text', () => {
  const lines = usePlanText(PLAN).split('\n');
  const lineOf = (start: string) => lines.find((line) => line.trimStart().startsWith(start)) ?? '';

  it('says what to make, as weighed, and what cannot be weighed', () => {
    expect(lineOf('Bratwurst')).toMatch(/100\.00 +90\.00 +7\.50 +300\.00$/);
    expect(lineOf('Patties')).toMatch(/4\.00 +4\.00 +8\.00 +planned, cannot be weighed$/);
  });

  it('names the lot that must be used first before the others, with what is left of each', () => {
    expect(lineOf('L-1')).toMatch(/60\.00 +0\.00 +2031-05-16 +2 +3\.46$/);
    expect(lineOf('L-2')).toMatch(/40\.00 +5\.00$/);
    expect(lines.indexOf(lineOf('L-1'))).toBeLessThan(lines.indexOf(lineOf('L-2')));
  });

  it('says what the oldest lots cost, what is not made, left out and to be heeded', () => {
    expect(lineOf('Best of any plan')).toContain('400.00 USD (2.5 % given up)');
    expect(lineOf('Links')).toContain('Too dear. Raise its price.');
    expect(lineOf('L-0')).toContain('past its use-by date 2031-05-01');
    expect(lineOf('!')).toContain('Count the stock.');
  });

  it('shows pounds to a plant that weighs in them', () => {
    expect(usePlanText({ ...PLAN, units: 'lb' })).toMatch(/Bratwurst +200\.00 +180\.00 +3\.75/);
  });

  it('of nothing is the reasons alone', () => {
    const text = usePlanText({ outcome: 'nothing to make', notMade: PLAN.notMade, leftOut: PLAN.leftOut });
    expect(text.split('\n')[0]).toBe('NOTHING TO MAKE');
    expect(text).toContain('Links: Too dear.');
    expect(text).not.toContain('MARGIN');
  });
});
