import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DrillAnswer, WhereaboutsAnswer } from '../../../src/api/records/contract.ts';
import type { CostAnswer } from '../../../src/api/reports/contract.ts';
import { apart, chartLayout } from '../../../src/page/records/chart-layout.ts';
import { correctionBody, equipmentOf, NO_CORRECTION } from '../../../src/page/records/correction.ts';
import { costRows } from '../../../src/page/records/cost-bars.ts';
import {
  countedLots,
  finishBody,
  NOTHING_FOUND,
  unreadable,
} from '../../../src/page/records/drill-answers.ts';
import { clockText, countedNow, partsOf } from '../../../src/page/records/drill-count.ts';
import { nameOfKey, plainOf } from '../../../src/page/records/readable.ts';
import { startAsked, startInQuery, startOfQuery } from '../../../src/page/records/start.ts';

const mass = (kg: number) => ({ kg, lb: kg / 0.45359237 });

const WHERE: WhereaboutsAnswer = {
  affected: mass(100),
  onHand: { material: mass(40), bulk: mass(10), packs: mass(0) },
  inProcess: mass(0),
  shipped: [{ to: 'Grocery', mass: mass(30) }],
  sold: [],
  soldAtCounter: mass(10),
  discarded: mass(5),
  samples: mass(0),
  lossInProcess: mass(5),
  countedShort: mass(0),
  accounted: mass(90),
  percentAccounted: 90,
};

describe('where a trace starts', () => {
  it.each([
    [{ by: 'lot', id: ' B73-1120 ', supplier: 'x' } as const, { lotId: 'B73-1120' }],
    [{ by: 'batch', id: '7', supplier: '' } as const, { batchId: '7' }],
    [
      { by: 'supplierLot', id: 'A-1', supplier: '00001' } as const,
      { supplierLot: 'A-1', supplierEstablishment: '00001' },
    ],
    [{ by: 'supplierLot', id: 'A-1', supplier: ' ' } as const, { supplierLot: 'A-1' }],
  ])('%o is asked as %o and comes back out of the address', (start, asked) => {
    expect(startAsked(start)).toEqual(asked);
    const back = startOfQuery(new URLSearchParams(startInQuery(start)));
    expect(back && startAsked(back)).toEqual(asked);
  });

  it('is nothing where the address names none', () => {
    expect(startOfQuery(new URLSearchParams('lot= &direction=back'))).toBeUndefined();
  });
});

describe('what became of a lot', () => {
  it('leaves out what is nothing, and says what is not accounted for', () => {
    expect(
      partsOf(WHERE).map(({ name, to, massKg, isAccounted }) => [name, to, massKg, isAccounted]),
    ).toEqual([
      ['onHand', undefined, 50, true],
      ['shipped', 'Grocery', 30, true],
      ['gone', undefined, 5, true],
      ['loss', undefined, 5, true],
      ['counter', undefined, 10, false],
    ]);
  });

  it.each([
    [[40, 10], 50, 90],
    [[39.99, 10], 49.99, 89.9],
    [[undefined, 10], 10, 50],
    // What is found beyond the books makes up for nothing.
    [[45, 5], 45, 85],
  ] as const)('with %o found counts %f kg and %f %%', (found, foundKg, percent) => {
    const now = countedNow(WHERE, [
      { onHandKg: 40, foundKg: found[0] },
      { onHandKg: 10, foundKg: found[1] },
    ]);
    expect(now.foundKg).toBeCloseTo(foundKg, 9);
    expect(now.percent).toBe(percent);
  });

  it('is all of it only when all was found', () => {
    const all = { ...WHERE, soldAtCounter: mass(0), affected: mass(90) };
    expect(countedNow(all, [{ onHandKg: 50, foundKg: 50 }]).percent).toBe(100);
    expect(countedNow(all, [{ onHandKg: 50, foundKg: 49.999 }]).percent).toBe(99.9);
  });

  it('shows the clock', () => {
    expect([0, 61_500, 3_849_000].map(clockText)).toEqual(['0:00', '1:01', '1:04:09']);
  });
});

const DRILL = {
  lots: [
    { lotId: 'A', kind: 'material', of: 'Trim', onHand: mass(40.123456789), held: false, share: 1 },
    { lotId: 'B', kind: 'bulk', of: 'Beef', onHand: mass(10), held: false, share: 1 },
  ],
  consignees: [
    { to: 'Grocery', lotId: 'P', mass: mass(1), document: 'D-1' },
    { to: 'Grocery', lotId: 'P', mass: mass(2), document: 'D-1' },
    { lotId: 'P', mass: mass(3) },
  ],
} as unknown as DrillAnswer;

describe('what is sent at the end of a drill', () => {
  it('is the exact weight of the books where it was found as booked', () => {
    const typed = {
      ...NOTHING_FOUND,
      lots: {
        A: { isFound: true, note: ' back ' },
        B: { isFound: true, mass: { text: '20,5', unit: 'lb' as const } },
      },
      contacted: { Grocery: { isOn: true }, Stranger: { isOn: true } },
    };
    expect(finishBody(DRILL, typed, ',')).toEqual({
      found: [
        { lotId: 'A', mass: { value: 40.123456789, unit: 'kg' }, note: 'back' },
        { lotId: 'B', mass: { value: 20.5, unit: 'lb' } },
      ],
      contacted: [{ to: 'Grocery' }],
    });
    expect(countedLots(DRILL.lots, typed, ',')[1]?.foundKg).toBeCloseTo(20.5 * 0.45359237, 10);
  });

  it('waits for a weight that cannot be read', () => {
    const typed = {
      ...NOTHING_FOUND,
      lots: { B: { isFound: true, mass: { text: 'two', unit: 'lb' as const } } },
    };
    expect(unreadable(DRILL.lots, typed, '.').map(({ lotId }) => lotId)).toEqual(['B']);
    expect(unreadable(DRILL.lots, NOTHING_FOUND, '.')).toEqual([]);
  });
});

describe('a correction', () => {
  const says = (wrong: string, right: string) => `${wrong} -> ${right}`;

  it('is sent once both what was wrong and what is right are said', () => {
    expect(correctionBody({ ...NO_CORRECTION, wrong: 'x' }, false, says)).toBeUndefined();
    const typed = { ...NO_CORRECTION, reason: ' r ', wrong: ' 8:30 ', right: '8:45', at: '2026-11-25T08:45' };
    expect(correctionBody(typed, false, says)).toEqual({ reason: 'r', corrects: '8:30 -> 8:45' });
    expect(correctionBody(typed, true, says)).toMatchObject({ fields: { at: '2026-11-25T08:45' } });
  });

  it('names equipment one by one', () => {
    expect(equipmentOf(' grinder,, mixer ; ')).toEqual(['grinder', 'mixer']);
  });
});

describe('what a record says', () => {
  const words = {
    mass: (kg: number) => `${kg} kg!`,
    instant: () => 'then',
    yes: 'yes',
    no: 'no',
    none: 'none',
  };

  it.each([
    [mass(2), '2 kg!'],
    [{ value: '1.5', unit: 'lb' }, '1.5 lb'],
    ['2026-11-25T14:30:00.000Z', 'then'],
    ['2026-11-25', '2026-11-25'],
    [false, 'no'],
    [[], 'none'],
    [['a', 'b'], 'a, b'],
    [{ at: 'x', shown: '8:30' }, '8:30'],
    [[{ a: 1 }], undefined],
    [{ a: 1, b: 2 }, undefined],
  ])('%o is read as %s', (value, text) => {
    expect(plainOf(value, words)).toBe(text);
  });

  it('names fields in words', () => {
    expect(nameOfKey('yieldFraction')).toBe('yield fraction');
  });
});

describe('costs', () => {
  const batch = (date: string, product: string, cost: number, lost = 0) => ({
    date,
    product,
    currency: 'USD',
    planned: { cost },
    weighed: { cost: cost + 1 },
    finished: { discarded: { cost: 0 }, lossBeyondYield: { cost: lost } },
    givenAway: { cost: 2 },
  });
  const report = {
    batches: [batch('2026-11-25', 'A', 10, 3), batch('2026-11-24', 'B', 90, -5), batch('2026-11-25', 'B', 1)],
  } as unknown as CostAnswer;

  it('add up by day in order, and by product with the dearest first', () => {
    expect(costRows(report, 'day').map(({ name, weighed }) => [name, weighed])).toEqual([
      ['2026-11-24', 91],
      ['2026-11-25', 13],
    ]);
    expect(costRows(report, 'product').map(({ name, batches }) => [name, batches])).toEqual([
      ['B', 2],
      ['A', 1],
    ]);
  });

  it('do not set off what one batch gained against what another lost', () => {
    expect(costRows(report, 'product').map(({ lost }) => lost)).toEqual([0, 3]);
  });
});

describe('the drawing of a chart', () => {
  const frame = { width: 600, height: 300, left: 40, right: 100, top: 20, bottom: 30 };

  it('keeps everything within its frame, and its words apart', () => {
    const values = fc.array(fc.double({ min: 1, max: 60, noNaN: true }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(values, (fats) => {
        const { lines, points, ticks } = chartLayout(fats, { class: 50, learned: 49.5 }, frame);
        for (const { y } of [...lines, ...points, ...ticks]) {
          expect(y).toBeGreaterThanOrEqual(frame.top);
          expect(y).toBeLessThanOrEqual(frame.height - frame.bottom);
        }
        const labels = lines.map(({ labelY }) => labelY).sort((one, other) => one - other);
        labels.slice(1).forEach((y, at) => {
          expect(y - (labels[at] ?? 0)).toBeGreaterThan(16.99);
        });
        expect(ticks.length).toBeGreaterThan(1);
      }),
    );
  });

  it('moves words no further than they must', () => {
    expect(apart([100, 20, 104], 10, 0, 200)).toEqual([100, 20, 110]);
    expect(apart([195, 198], 10, 0, 200)).toEqual([190, 200]);
  });
});
