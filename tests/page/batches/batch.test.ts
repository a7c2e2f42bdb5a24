import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Refused } from '../../../src/ledger/refused.ts';
import { isOddYield, lossUg, yieldFraction } from '../../../src/making/finish.ts';
import { settled } from '../../../src/making/reasons.ts';
import {
  type Batch,
  BOUND_AT,
  byDay,
  byRoom,
  gaugeFill,
  nextStepOf,
} from '../../../src/page/batches/batch.ts';
import { yieldOf } from '../../../src/page/batches/finish/yield.ts';
import { askedFor, reasonsOf, together } from '../../../src/page/batches/reasons.ts';

const batch = (given: object) =>
  ({ state: 'weighing', lines: [], open: [], limitsAre: 'as planned', ...given }) as unknown as Batch;
const line = (restKg: number) => ({ loads: [{ load: 1, rest: { kg: restKg, lb: 0 } }] });

describe('the next step', () => {
  it.each([
    [{ state: 'planned', lines: [line(1)] }, 'weigh'],
    [{ lines: [line(0), line(1)] }, 'weigh'],
    [{ lines: [line(0)] }, 'all in'],
    [{ state: 'weighed' }, 'finish'],
    [{ state: 'weighed', limitsAre: 'with the test', open: [{ limitId: 'fat' }] }, 'correct'],
    [{ state: 'weighed', limitsAre: 'with the test', open: [{ limitId: 'fat', reason: 'so' }] }, 'finish'],
    [{ state: 'packed' }, 'pack'],
    [{ state: 'closed' }, 'record'],
    [{ state: 'cancelled' }, undefined],
  ])('of %j is %s', (given, next) => {
    expect(nextStepOf(batch(given))).toBe(next);
  });
});

describe('batches and limits in order', () => {
  it('have the latest day first', () => {
    const [a, b, c] = [{ date: '2026-11-24' }, { date: '2026-11-25' }, { date: '2026-11-24' }];
    expect(byDay([a, b, c])).toEqual([
      ['2026-11-25', [b]],
      ['2026-11-24', [a, c]],
    ]);
  });

  it('have what is missed first and what cannot move last', () => {
    const near = { holds: true, bound: 156, value: 150 };
    const far = { holds: true, bound: 30, value: 20 };
    const none = { holds: true, bound: 0, value: 0 };
    const missed = { holds: false, bound: 50, value: 60 };
    expect(byRoom([none, far, near, missed])).toEqual([missed, near, far, none]);
  });

  it('fill a gauge up to the bound and not beyond its end', () => {
    expect(gaugeFill({ bound: 20, value: 20 })).toBe(BOUND_AT);
    expect(gaugeFill({ bound: 20, value: 400 })).toBe(1);
    expect(gaugeFill({ bound: 10, value: -8 })).toBe(0);
    expect([0, 1].map((value) => gaugeFill({ bound: 0, value }))).toEqual([0, 1]);
  });
});

describe('reasons', () => {
  const open = [
    { line: 3, load: 1, what: 'Salt, fine (sea), line 3, load 1', planned: '5.27 lb', found: '4 lb' },
    {
      limitId: 'us-424.21c-nitrite',
      load: 2,
      what: 'nitrite in load 2',
      planned: 'at most 156 ppm',
      found: '171 ppm',
    },
    { about: 'yield' as const, what: 'yield', planned: '90.0 %', found: '80.0 %' },
  ];
  const refusal = (): string => {
    try {
      settled(open);
    } catch (error) {
      if (error instanceof Refused) return error.message;
    }
    throw new Error('it was not refused');
  };

  it('are asked for what the service names, each once', () => {
    const asked = askedFor(refusal());
    expect(asked).toEqual([
      { line: 3, load: 1, says: 'Salt, fine (sea), line 3, load 1: 5.27 lb, found 4 lb' },
      { limitId: 'us-424.21c-nitrite', says: 'nitrite in load 2: at most 156 ppm, found 171 ppm' },
      { about: 'yield', says: 'yield: 90.0 %, found 80.0 %' },
    ]);
    expect(together(asked, asked)).toEqual(asked);
  });

  it('are sent where something is written', () => {
    const asked = askedFor(refusal());
    expect(reasonsOf(asked, { '||3|1': ' ran out ', 'yield|||': '  ' })).toEqual([
      { line: 3, load: 1, reason: 'ran out' },
    ]);
  });
});

describe('the yield while it is typed', () => {
  it('is the one that the service finds', () => {
    const massUg = fc.integer({ min: 0, max: 200_000_000 });
    const part = fc.record({ stage: fc.constantFrom('raw' as const, 'finished' as const), massUg });
    fc.assert(
      fc.property(
        massUg,
        massUg,
        fc.array(part, { maxLength: 4 }),
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        (weighedUg, outputUg, aside, declared) => {
          const outcome = { weighedUg, outputUg, rework: aside.slice(0, 2), discarded: aside.slice(2) };
          const found = yieldOf(
            {
              weighedKg: weighedUg / 1e9,
              outputKg: outputUg / 1e9,
              aside: aside.map(({ stage, massUg: ug }) => ({ stage, massKg: ug / 1e9 })),
            },
            declared,
          );
          const fraction = yieldFraction(outcome);
          expect(found.lossKg).toBeCloseTo(lossUg(outcome) / 1e9, 6);
          expect(found.fraction === undefined).toBe(fraction === undefined);
          if (fraction === undefined) return;
          // Next to nothing that went in makes a yield of millions: what counts is the share.
          expect((found.fraction ?? 0) / fraction).toBeCloseTo(1, 6);
          const isAtEdge = Math.abs(Math.abs(fraction - declared) - 0.02) < 1e-9;
          if (!isAtEdge) expect(found.isOdd).toBe(isOddYield(outcome, fraction, { yieldFraction: declared }));
        },
      ),
    );
  });
});
