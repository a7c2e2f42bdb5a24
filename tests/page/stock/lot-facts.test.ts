import { describe, expect, test } from 'vitest';
import { factsOf, isPast, isSoon } from '../../../src/page/stock/lot-facts.ts';
import type { TrimItem } from '../../../src/page/stock/stock-types.ts';
import { lotOf, materialOf } from './lots.ts';

const TRIM: TrimItem = {
  materialId: 'beef-trim-73',
  supplierEstablishment: '00001',
  tests: 4,
  lots: 4,
  classMeanFraction: 0.27,
  testedMeanFraction: 0.29,
  meanFraction: 0.28,
  shrinkage: 0.5,
  sdFraction: 0.02,
  latestDate: '2026-11-18',
};
const known = {
  materials: new Map([
    ['beef-trim-73', materialOf({ id: 'beef-trim-73', name: 'Beef trim 73' })],
    ['sage', materialOf({ id: 'sage', kind: 'spice' })],
  ]),
  trim: [TRIM],
  today: '2026-11-25',
};

describe('what is known of the fat of a lot', () => {
  test('is its own test before all else', () => {
    const lot = lotOf({
      id: 'A',
      supplierEstablishment: '00001',
      measuredFat: { fatFraction: 0.25, method: 'NIR' },
    });
    expect(factsOf(lot, known)).toMatchObject({ fatFraction: 0.25, fatFrom: 'test' });
  });

  test("is what its supplier's lots taught, and of another supplier that of its class", () => {
    expect(factsOf(lotOf({ id: 'A', supplierEstablishment: '00001' }), known)).toMatchObject({
      fatFraction: 0.28,
      fatFrom: 'supplier',
    });
    expect(factsOf(lotOf({ id: 'A', supplierEstablishment: '00002' }), known)).toMatchObject({
      fatFraction: 0.27,
      fatFrom: 'class',
    });
  });

  test('is nothing for what is no meat, and for what nobody knows', () => {
    expect(factsOf(lotOf({ id: 'A', materialId: 'sage' }), known).fatFraction).toBeUndefined();
    expect(factsOf(lotOf({ id: 'A', materialId: 'gone' }), known)).toMatchObject({ name: 'gone' });
  });
});

describe('the days of a lot', () => {
  const daysOf = (useByDate?: string) =>
    factsOf(lotOf({ id: 'A', ...(useByDate !== undefined && { useByDate }) }), known);

  test('are counted from packing, or from receipt where packing is not known', () => {
    expect(daysOf().ageDays).toBe(5);
    expect(factsOf(lotOf({ id: 'A', packedDate: '2026-11-17' }), known).ageDays).toBe(8);
  });

  test.each([
    ['2026-11-24', true, false],
    ['2026-11-25', false, true],
    ['2026-11-28', false, true],
    ['2026-11-29', false, false],
    [undefined, false, false],
  ])('of use-by %s: past %s, soon %s', (useByDate, past, soon) => {
    const facts = daysOf(useByDate);
    expect([isPast(facts), isSoon(facts)]).toEqual([past, soon]);
  });
});
