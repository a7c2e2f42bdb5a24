import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/page/batches/batch.ts';
import { KEYS, pressed } from '../../../src/page/batches/weigh/keys.ts';
import { betweenSteps } from '../../../src/page/batches/weigh/scale-steps.ts';
import {
  nextLoad,
  nextSpot,
  notArrived,
  type PutOut,
  spotsOf,
} from '../../../src/page/batches/weigh/spots.ts';
import { parseNumber } from '../../../src/page/figures/number.ts';
import { kilograms } from '../../../src/units.ts';

const lb = (value: number) => ({ kg: kilograms({ value, unit: 'lb' }), lb: value });

interface Given {
  readonly planned: number;
  readonly weighed?: readonly string[];
}

/** A batch of two loads; each line is given as its pounds per load and what was weighed into load 1. */
function batchOf(...lines: readonly Given[]): Batch {
  let step = 1;
  const loadOf = (load: number, planned: number, weighed: readonly string[]) => {
    const inLb = weighed.reduce((sum, text) => sum + Number(text), 0);
    const rest = planned - inLb;
    return {
      load,
      planned: lb(planned),
      weighed: lb(inLb),
      rest: lb(weighed.length > 0 && rest <= planned * 0.01 ? 0 : rest),
      tolerance: { under: lb(planned * 0.01), over: lb(planned * 0.01) },
      weighings: weighed.map((value) => ({
        step: ++step,
        weight: { value, unit: 'lb' as const },
        by: 'Demo',
        at: '',
      })),
    };
  };
  return {
    lines: lines.map(({ planned, weighed = [] }, index) => ({
      number: index + 1,
      perLoad: { value: planned.toFixed(1), unit: 'lb' as const },
      loads: [loadOf(1, planned, weighed), loadOf(2, planned, [])],
    })),
  } as unknown as Batch;
}

const put = (line: number, value: string, seenAt = 1, load = 1): PutOut => ({
  key: `${line}-${value}-${seenAt}`,
  body: { line, load, weight: { value, unit: 'lb' } },
  seenAt,
  by: 'Demo',
});

describe('what is to weigh next', () => {
  it('is the first line that waits, and after one that was skipped the one behind it', () => {
    const spots = spotsOf(batchOf({ planned: 100, weighed: ['100.0'] }, { planned: 50 }, { planned: 5 }), []);
    expect(nextSpot(spots, 1)?.line.number).toBe(2);
    expect(nextSpot(spots, 1, 2)?.line.number).toBe(3);
    expect(nextSpot(spots, 1, 3)?.line.number).toBe(2);
  });

  it('counts what is not sent yet', () => {
    const batch = batchOf({ planned: 100 }, { planned: 50 });
    const spots = spotsOf(batch, [put(1, '99.5'), put(2, '20.0')]);
    expect(spots[0]).toMatchObject({ restKg: 0, isUnsent: true, isBegun: true });
    expect(nextSpot(spots, 1)).toMatchObject({ restText: '30.0', line: { number: 2 } });
    expect(nextLoad(spots)).toBe(1);
  });

  it('is nothing once a load is full, and then the next load', () => {
    const spots = spotsOf(batchOf({ planned: 100, weighed: ['60.0', '40.0'] }), []);
    expect(nextSpot(spots, 1)).toBeUndefined();
    expect(nextLoad(spots)).toBe(2);
  });

  it('shows the digits of the sheet while nothing is in', () => {
    const [spot] = spotsOf(batchOf({ planned: 86.4 }), []);
    expect(spot?.restText).toBe('86.4');
  });
});

describe('a weighing that was sent', () => {
  it('is counted once, whether the answer or the next reading comes first', () => {
    const waiting = [put(1, '60.0')];
    expect(notArrived(batchOf({ planned: 100 }), waiting)).toEqual(waiting);
    expect(notArrived(batchOf({ planned: 100, weighed: ['60.0'] }), waiting)).toEqual([]);
  });

  it('is not taken for one of the same weight that was there before, nor two for one', () => {
    const batch = batchOf({ planned: 200, weighed: ['60.0', '60.0'] });
    expect(notArrived(batch, [put(1, '60.0', 3)])).toHaveLength(1);
    expect(notArrived(batch, [put(1, '60.0', 2), put(1, '60.0', 2)])).toHaveLength(1);
    expect(notArrived(batch, [put(1, '60.0', 1, 2)])).toHaveLength(1);
    expect(notArrived(batch, [{ ...put(1, '60.0', 1), by: 'Ana' }])).toHaveLength(1);
  });
});

describe('steps of a scale', () => {
  it.each([
    ['186.45', '0.1', '186.4', '186.5'],
    ['5.275', '0.01', '5.27', '5.28'],
    ['465.5', '1', '465', '466'],
    ['12.3', '0.2', '12.2', '12.4'],
    ['7', '5', '5', '10'],
    ['0.05', '0.1', '0.0', '0.1'],
  ])('%s lies between two steps of %s', (text, division, lower, upper) => {
    expect(betweenSteps(text, division)).toEqual({ lower, upper });
  });

  it('are met by every whole number of divisions, and by nothing else', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 99_999 }),
        fc.constantFrom('0.1', '0.01', '0.2', '0.5', '1', '2', '5'),
        fc.integer({ min: 0, max: 4 }),
        (count, division, tenths) => {
          const decimals = (division.split('.')[1]?.length ?? 0) + 1;
          const text = (count * Number(division) + (tenths * Number(division)) / 10).toFixed(decimals + 1);
          expect(betweenSteps(text, division) === undefined).toBe(tenths === 0);
        },
      ),
    );
  });
});

describe('our own keys', () => {
  const typed = (keys: readonly (typeof KEYS)[number][], mark: '.' | ',' = '.') =>
    keys.reduce((text, key) => pressed(text, key, mark), '');

  it('write a figure with one mark, and take it back', () => {
    expect(typed(['1', '8', 'mark', '4', 'mark', '5'])).toBe('18.45');
    expect(typed(['mark', '5'], ',')).toBe('0,5');
    expect(typed(['0', '7', 'back'])).toBe('');
  });

  it('never write what cannot be read as a number', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...KEYS)),
        fc.constantFrom('.' as const, ',' as const),
        (keys, mark) => {
          const text = typed(keys, mark);
          expect(['empty', 'number']).toContain(parseNumber(text, mark).kind);
          expect(text.length).toBeLessThanOrEqual(10);
        },
      ),
    );
  });
});
