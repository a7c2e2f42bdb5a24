import { describe, expect, it } from 'vitest';
import { finishRequest, scaleWeight, type TypedFinish } from '../../../src/page/batches/finish/form.ts';
import { endsOf, fatWindow } from '../../../src/page/batches/test/fat-window.ts';

const TYPED: TypedFinish = {
  weight: { text: '298,5', unit: 'lb' },
  useBy: '',
  state: 'chilled',
  location: '  ',
  rework: [],
  discarded: [],
  temperatures: [],
  reasons: {},
};

describe('what came out, as it is typed', () => {
  it('is sent with the digits of the scale, by comma or point, in pounds and ounces too', () => {
    expect(scaleWeight({ text: '298.50', unit: 'lb' }, '.')).toEqual({ value: '298.50', unit: 'lb' });
    expect(scaleWeight({ text: '298,50', unit: 'kg' }, ',')).toEqual({ value: '298.50', unit: 'kg' });
    expect(scaleWeight({ text: '3 lb 4 oz', unit: 'kg' }, '.')).toEqual({ value: '3.25', unit: 'lb' });
    expect(scaleWeight({ text: 'much', unit: 'kg' }, '.')).toBeUndefined();
  });

  it('leaves out what was left empty', () => {
    expect(finishRequest(TYPED, ',')).toEqual({
      output: { weight: { value: '298.5', unit: 'lb' }, state: 'chilled' },
      rework: [],
      discarded: [],
      temperatures: [],
    });
    expect(finishRequest({ ...TYPED, weight: { text: '', unit: 'lb' } }, ',')).toBeUndefined();
  });

  it('has its rework, what was thrown away and why, and temperatures with their times', () => {
    const part = {
      weight: { text: '2', unit: 'lb' as const },
      stage: 'raw' as const,
      reason: 'on the floor',
    };
    const empty = { ...part, weight: { text: '', unit: 'lb' as const } };
    const typed: TypedFinish = {
      ...TYPED,
      useBy: '2026-12-10',
      location: ' Cooler 3 ',
      rework: [part, empty],
      discarded: [part],
      temperatures: [
        { what: 'after mixing', value: '38,5', unit: 'F', time: '10:20' },
        { what: 'after cooling', value: '-2', unit: 'C', time: '' },
        { what: 'not read', value: '', unit: 'F', time: '' },
      ],
    };
    const weight = { value: '2', unit: 'lb' };
    expect(finishRequest(typed, ',')).toMatchObject({
      output: { useByDate: '2026-12-10', location: 'Cooler 3' },
      rework: [{ weight, stage: 'raw' }],
      discarded: [{ weight, stage: 'raw', reason: 'on the floor' }],
      temperatures: [
        { what: 'after mixing', value: 38.5, unit: 'F', time: '10:20' },
        { what: 'after cooling', value: -2, unit: 'C' },
      ],
    });
  });
});

describe('where the fat lies', () => {
  const check = (id: string, sense: string, bound: number, value: number, numerator = 'fat') =>
    ({
      limit: { id, sense, bound, numerator, unit: 'percent', basis: 'finished product' },
      value,
    }) as never;

  it('is between the tightest bounds that are about fat', () => {
    const before = [
      check('law', 'max', 30, 22.6),
      check('house', 'max', 20, 22.6),
      check('least', 'min', 18, 22.6),
      check('salt', 'max', 2, 1.8, 'salt'),
    ];
    const after = [check('house', 'max', 20, 19.9), check('law', 'max', 30, 19.9)];
    const window = fatWindow(before, after);
    expect(window).toEqual({ now: 22.6, after: 19.9, least: 18, most: 20 });
    const [left, right] = endsOf(window ?? { now: 0 });
    expect(left).toBeLessThan(18);
    expect(right).toBeGreaterThan(22.6);
  });

  it('is not told where no limit is about fat, and has no ends that are missing', () => {
    expect(fatWindow([check('salt', 'max', 2, 1.8, 'salt')])).toBeUndefined();
    expect(fatWindow([check('law', 'max', 30, 22)])).toEqual({ now: 22, most: 30 });
    // That the process loses no more fat than there is bounds nothing, though it comes first and is of another basis.
    const balance = check('mass-balance-fat', 'min', 0, 30);
    expect(fatWindow([balance])).toBeUndefined();
    expect(fatWindow([balance, check('house', 'max', 28, 33.3)])).toEqual({ now: 33.3, most: 28 });
    expect(endsOf({ now: 0.2 })[0]).toBe(0);
  });
});
