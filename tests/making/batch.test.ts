import { describe, expect, test } from 'vitest';
import {
  BATCH_STATES,
  type BatchState,
  type LimitStanding,
  mayTake,
  type StepKind,
  stateAfter,
} from '../../src/making/batch.ts';
import { boundText, foundText, standingText } from '../../src/making/limit-text.ts';
import { notMet, settled, withReasons } from '../../src/making/reasons.ts';
import { toleranceOf } from '../../src/making/tolerance.ts';
import { testMaterial } from '../helpers/materials.ts';

describe('states', () => {
  test('each step in its turn, and none after the end', () => {
    const life: readonly StepKind[] = [
      'weighing',
      'weighed',
      'tested',
      'corrected',
      'weighing',
      'weighed',
      'finished',
    ];
    let state: BatchState = 'planned';
    for (const kind of [...life, 'packed', 'packed', 'closed'] as const) {
      expect(mayTake(kind, state), `${kind} when ${state}`).toBe(true);
      state = stateAfter(state, kind);
    }
    expect(state).toBe('closed');
    const kinds: readonly StepKind[] = [...life, 'planned', 'taken back', 'packed', 'closed', 'cancelled'];
    for (const end of ['closed', 'cancelled'] as const) {
      expect(kinds.filter((kind) => mayTake(kind, end))).toEqual([]);
    }
    expect(BATCH_STATES.filter((one) => mayTake('finished', one))).toEqual(['weighed']);
  });
});

const LIMIT: LimitStanding = {
  limitId: 'nitrite',
  says: 'Ingoing nitrite is at most 156 ppm.',
  what: 'ingoing nitrite',
  basis: 'green weight',
  sense: 'max',
  bound: 156,
  value: 171.23456,
  unit: 'ppm',
  holds: false,
  authority: 'law',
  citation: '9 CFR 424.21(c)',
};

describe('limits in words', () => {
  test('the sense, the bound, and a figure to read', () => {
    expect(standingText(LIMIT)).toBe('ingoing nitrite: at most 156 ppm, found 171.2 ppm');
    expect(standingText({ ...LIMIT, load: 2 })).toContain('in load 2');
    expect(boundText({ sense: 'min', bound: 13, unit: 'percent' })).toBe('at least 13 %');
    expect(boundText({ sense: 'target', bound: 1.8, unit: 'percent' })).toBe('just 1.8 %');
    expect(boundText({ sense: 'present', bound: 0, unit: 'percent' })).toBe('some of it');
  });

  test('no rounding hides that a bound is missed', () => {
    expect(foundText({ ...LIMIT, value: 156.000_2 })).toBe('156.0002 ppm');
    expect(foundText({ ...LIMIT, value: 156.000_2, holds: true })).toBe('156 ppm');
  });
});

describe('reasons', () => {
  test('the law is missed by anything, a figure of the house by more than weights can move it', () => {
    const house = { ...LIMIT, authority: 'house', bound: 20, unit: 'percent' } as const;
    expect(notMet([{ ...LIMIT, value: 156.001 }])).toHaveLength(1);
    expect(notMet([{ ...house, value: 20.19 }])).toEqual([]);
    expect(notMet([{ ...house, value: 20.21 }])).toHaveLength(1);
    expect(notMet([{ ...LIMIT, holds: true }])).toEqual([]);
  });

  test('stand for the very same finding, not for a worse one', () => {
    const before = settled(withReasons(notMet([LIMIT]), [{ limitId: 'nitrite', reason: 'as said' }], []));
    expect(withReasons(notMet([LIMIT]), [], before)).toMatchObject([{ reason: 'as said' }]);
    const worse = withReasons(notMet([{ ...LIMIT, value: 190 }]), [], before);
    expect(worse[0]?.reason).toBeUndefined();
    expect(() => settled(worse)).toThrow(/at most 156 ppm, found 190 ppm \(limitId nitrite\)/);
  });

  test('for one load are not for another', () => {
    const open = [1, 2].map((load) => ({
      line: 3,
      load,
      what: `salt, load ${load}`,
      planned: '1 lb',
      found: '2 lb',
    }));
    const [one, two] = withReasons(open, [{ line: 3, load: 2, reason: 'only here' }], []);
    expect([one?.reason, two?.reason]).toEqual([undefined, 'only here']);
    const both = withReasons(open, [{ line: 3, reason: 'in both' }], []);
    expect(both.map(({ reason }) => reason)).toEqual(['in both', 'in both']);
  });
});

test('tolerances: none above for cure, a division for what the law counts, a hundredth for the rest', () => {
  const of = (id: string) => toleranceOf(testMaterial(id), 100_000, 10);
  expect(of('cure-6.25')).toEqual({ underUg: 10, overUg: 0, slipUg: 0 });
  for (const id of ['pork', 'water', 'salt'])
    expect(of(id), id).toMatchObject({ underUg: 1000, overUg: 1000, slipUg: 10_000 });
  expect(toleranceOf(testMaterial('salt'), 100, 10)).toEqual({ underUg: 10, overUg: 10, slipUg: 20 });
});
