import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pictureRows } from '../../../src/page/stock/age-picture.ts';
import { arranged, firstOf, found, ORDERS } from '../../../src/page/stock/arrange.ts';
import type { LotFacts } from '../../../src/page/stock/lot-facts.ts';
import { lotOf } from './lots.ts';

const facts = (id: string, given: Partial<LotFacts> = {}, onHandKg = 100): LotFacts => ({
  lot: lotOf({ id, onHandKg }),
  name: 'Beef trim 73',
  value: 500,
  ageDays: 5,
  ...given,
});

const someFacts = fc
  .uniqueArray(
    fc.record({
      id: fc.integer({ min: 1, max: 9999 }),
      onHandKg: fc.double({ min: 0.001, max: 5000, noNaN: true }),
      ageDays: fc.integer({ min: 0, max: 900 }),
      daysLeft: fc.option(fc.integer({ min: -30, max: 900 }), { nil: undefined }),
      fatFraction: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 60, selector: ({ id }) => id },
  )
  .map((all) =>
    all.map(({ id, onHandKg, ageDays, daysLeft, fatFraction }) =>
      facts(
        `L${id}`,
        {
          ageDays,
          value: onHandKg * 5,
          ...(daysLeft !== undefined && { daysLeft }),
          ...(fatFraction !== undefined && { fatFraction }),
        },
        onHandKg,
      ),
    ),
  );

describe('lots in an order', () => {
  test('every lot stands in one group of every order, and the groups weigh what the lots weigh', () => {
    fc.assert(
      fc.property(someFacts, fc.constantFrom(...ORDERS), (lots, order) => {
        const groups = arranged(lots, order);
        const ids = groups.flatMap((group) => group.lots.map(({ lot }) => lot.id));
        expect(ids.toSorted()).toEqual(lots.map(({ lot }) => lot.id).toSorted());
        const sum = lots.reduce((all, { lot }) => all + lot.onHand.kg, 0);
        expect(groups.reduce((all, { massKg }) => all + massKg, 0)).toBeCloseTo(sum, 6);
        expect(new Set(groups.map(({ name }) => name)).size).toBe(groups.length);
      }),
    );
  });

  test('by use-by date: what is past, what is soon, and at last what has none', () => {
    const lots = [facts('none'), facts('late', { daysLeft: 30 }), facts('past', { daysLeft: -1 })];
    const soon = facts('soon', { daysLeft: 3 });
    expect(arranged([...lots, soon], 'left').map(({ name }) => name)).toEqual([
      'past',
      'soon',
      'later',
      'undated',
    ]);
  });

  test('by leanness: trim is named in whole percents', () => {
    const lots = [facts('a', { fatFraction: 0.1004 }), facts('b', { fatFraction: 0.106 })];
    expect(arranged(lots, 'lean').map(({ name }) => name)).toEqual(['lean90', 'lean80']);
  });

  test('by value and by age: the most and the oldest first', () => {
    const lots = [facts('a', { value: 1, ageDays: 9 }), facts('b', { value: 2, ageDays: 3 })];
    const order = (by: 'value' | 'age') =>
      arranged(lots, by).flatMap((group) => group.lots.map(({ lot }) => lot.id));
    expect(order('value')).toEqual(['b', 'a']);
    expect(order('age')).toEqual(['a', 'b']);
  });

  test('the first of them keep the totals of their groups', () => {
    const groups = arranged([facts('a', { daysLeft: 9 }), facts('b', { daysLeft: 10 }), facts('c')], 'left');
    expect(firstOf(groups, 1)).toMatchObject([{ name: 'later', massKg: 200, lots: [{ lot: { id: 'a' } }] }]);
    expect(firstOf(groups, 99)).toEqual(groups);
  });

  test('are found by every word in whatever names them', () => {
    const lots = [facts('B73-1120'), { ...facts('P72-1121'), name: 'Pork trim 72' }];
    expect(found(lots, 'trim PORK').map(({ lot }) => lot.id)).toEqual(['P72-1121']);
    expect(found(lots, ' ')).toBe(lots);
    expect(found(lots, 'veal')).toEqual([]);
  });
});

describe('the picture of the stock', () => {
  test('shows every lot once, as wide as it weighs, and no row is wider than the picture', () => {
    fc.assert(
      fc.property(someFacts, fc.constantFrom('left' as const, 'age' as const), (lots, by) => {
        const rows = pictureRows(lots, by, 500);
        const segments = rows.flatMap((row) => row.segments);
        expect(segments.map((each) => each.facts.lot.id).toSorted()).toEqual(
          lots.map(({ lot }) => lot.id).toSorted(),
        );
        const ends = rows.map(({ segments: of }) => Math.max(...of.map(({ x, width }) => x + width)));
        expect(Math.max(...ends)).toBeCloseTo(500, 6);
        const perKg = segments.map(({ width, facts: { lot } }) => width / lot.onHand.kg);
        expect(Math.max(...perKg) / Math.min(...perKg)).toBeCloseTo(1, 6);
      }),
    );
  });

  test('has what is past on top, then single days, then spans of days, and what has no date below', () => {
    const lots = [undefined, 400, 20, 1, -3, 0].map((daysLeft, index) =>
      facts(`L${index}`, daysLeft === undefined ? {} : { daysLeft }),
    );
    const rows = pictureRows(lots, 'left', 100).map(({ from, to, kind }) => [from, to, kind]);
    expect(rows).toEqual([
      [undefined, -1, 'past'],
      [0, 0, 'soon'],
      [1, 1, 'soon'],
      [14, 30, 'plain'],
      [92, undefined, 'plain'],
      [undefined, undefined, 'plain'],
    ]);
  });

  test('by age has the oldest on top', () => {
    const lots = [facts('a', { ageDays: 2 }), facts('b', { ageDays: 40 })];
    expect(pictureRows(lots, 'age', 100).map(({ from }) => from)).toEqual([31, 2]);
  });
});
