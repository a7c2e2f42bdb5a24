import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { micrograms } from '../../src/ledger/micrograms.ts';
import {
  after,
  type Balance,
  drawnUg,
  EMPTY,
  freeUg,
  MOVEMENT_KINDS,
  type Movement,
  type MovementKind,
  movementFault,
  takesBack,
} from '../../src/ledger/movement.ts';
import { MASS_UNITS } from '../../src/units.ts';

/** What each kind may do, as signs of weight and promise. */
const ALLOWED: Readonly<Record<MovementKind, readonly string[]>> = {
  received: ['+ 0', '0 0'],
  tested: ['- 0', '0 0'],
  adjusted: ['+ 0', '- 0'],
  reserved: ['0 +'],
  released: ['0 -'],
  weighed: ['- 0', '- -'],
  produced: ['+ 0'],
  packed: ['+ 0', '- 0'],
  'set aside': ['+ 0', '- 0'],
  sold: ['- 0'],
  shipped: ['- 0'],
  discarded: ['- 0'],
};
const SIGNS = { '-': -5, '0': 0, '+': 5 } as const;
const MOVES = (['-', '0', '+'] as const).flatMap((mass) =>
  (['-', '0', '+'] as const).map((reserved) => ({
    name: `${mass} ${reserved}`,
    massUg: SIGNS[mass],
    reservedUg: SIGNS[reserved],
  })),
);
const base = { lotId: 'A', batchId: 'one', reason: 'spilled' };

describe.each(MOVEMENT_KINDS)('%s', (kind) => {
  it('moves weight and promise its own way only', () => {
    const without = MOVES.filter((move) => movementFault({ ...base, ...move, kind }) === undefined);
    expect(without.map(({ name }) => name).sort()).toEqual([...ALLOWED[kind]].sort());
  });

  it('is taken back the other way only, with a reason', () => {
    const back = MOVES.map(({ name, massUg, reservedUg }) => ({
      name,
      movement: { ...base, kind, massUg: -massUg, reservedUg: -reservedUg, reverses: 1 },
    }));
    const without = back.filter(({ movement }) => movementFault(movement) === undefined);
    expect(without.map(({ name }) => name).sort()).toEqual([...ALLOWED[kind]].sort());
    for (const { movement } of without) {
      const { reason: _, ...silent } = movement;
      expect(movementFault(silent)).toBe(`${kind} needs a reason`);
      expect(movementFault({ ...movement, reason: '' })).toBe(`${kind} needs a reason`);
    }
  });
});

describe('what is wrong with a movement', () => {
  const adjusted: Movement = { ...base, kind: 'adjusted', massUg: -5, reservedUg: 0 };

  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])(
    '%d is no whole count of micrograms',
    (count) => {
      expect(movementFault({ ...adjusted, massUg: count })).toBe('must be whole micrograms');
      expect(movementFault({ ...adjusted, kind: 'reserved', massUg: 0, reservedUg: count })).toBe(
        'must be whole micrograms',
      );
    },
  );

  it('is a missing reason, where people must give one', () => {
    const needy = MOVEMENT_KINDS.filter((kind) => {
      const [signs = ''] = ALLOWED[kind];
      const move = MOVES.find(({ name }) => name === signs);
      return (
        move && movementFault({ ...move, kind, lotId: 'A', batchId: 'one' }) === `${kind} needs a reason`
      );
    });
    expect(needy).toEqual(['adjusted', 'discarded']);
  });

  it('is a promise to nobody', () => {
    const nobody = { lotId: 'A', kind: 'reserved', massUg: 0, reservedUg: 5 } as const;
    expect(movementFault(nobody)).toBe('reserved needs the batch that it is promised to');
    expect(movementFault({ lotId: 'A', kind: 'weighed', massUg: -5, reservedUg: -5 })).toMatch(
      /needs the batch/,
    );
    expect(movementFault({ lotId: 'A', kind: 'weighed', massUg: -5, reservedUg: 0 })).toBeUndefined();
  });

  it('is to release more than is taken', () => {
    const weighed = { ...base, kind: 'weighed', massUg: -5 } as const;
    expect(movementFault({ ...weighed, reservedUg: -6 })).toBe('weighed cannot release more than it takes');
    expect(movementFault({ ...weighed, reservedUg: -4 })).toBeUndefined();
  });
});

describe('a movement that takes back another', () => {
  const first: Movement = { lotId: 'A', kind: 'weighed', batchId: 'one', massUg: -5, reservedUg: -3 };
  const back: Movement = { ...first, massUg: 5, reservedUg: 3, reverses: 7, reason: 'wrong lot' };

  it('takes it back whole', () => {
    expect(takesBack(back, first)).toBe(true);
    expect(takesBack({ ...back, reservedUg: 0 }, { ...first, reservedUg: 0 })).toBe(true);
  });

  it.each<Partial<Movement>>([
    { lotId: 'B' },
    { kind: 'sold' },
    { batchId: 'two' },
    { massUg: 4 },
    { massUg: -5 },
    { reservedUg: 0 },
  ])('but not with %o', (other) => {
    expect(takesBack({ ...back, ...other }, first)).toBe(false);
  });
});

describe('the balance after a movement', () => {
  const balance: Balance = { onHandUg: 10, reservedUg: 4 };

  it.each([
    [
      { massUg: -6, reservedUg: 0 },
      { onHandUg: 4, reservedUg: 4 },
    ],
    [{ massUg: -7, reservedUg: 0 }, undefined],
    [{ massUg: -10, reservedUg: -4 }, EMPTY],
    [{ massUg: -11, reservedUg: -4 }, undefined],
    [
      { massUg: 0, reservedUg: 6 },
      { onHandUg: 10, reservedUg: 10 },
    ],
    [{ massUg: 0, reservedUg: 7 }, undefined],
    [
      { massUg: 0, reservedUg: -4 },
      { onHandUg: 10, reservedUg: 0 },
    ],
    [{ massUg: 0, reservedUg: -5 }, undefined],
    // Beyond this a sum of whole numbers would lose micrograms in silence.
    [
      { massUg: Number.MAX_SAFE_INTEGER - 10, reservedUg: 0 },
      { onHandUg: Number.MAX_SAFE_INTEGER, reservedUg: 4 },
    ],
    [{ massUg: Number.MAX_SAFE_INTEGER - 9, reservedUg: 0 }, undefined],
  ])('%o gives %o', (movement, next) => {
    expect(after(balance, movement)).toEqual(next);
  });

  it('leaves free what is not promised', () => expect(freeUg(balance)).toBe(6));
});

describe('what is taken', () => {
  it.each([
    ['what is wanted', 5_000_000, 9_000_000, 5_000_000],
    ['all, when a milligram is missing', 9_001_000, 9_000_000, 9_000_000],
    ['all, when a milligram would be left', 8_999_000, 9_000_000, 9_000_000],
    ['what is wanted, when more is missing', 9_001_001, 9_000_000, 9_001_001],
    ['what is wanted, when more would be left', 8_998_999, 9_000_000, 8_998_999],
    ['what is wanted, when nothing is there', 500, 0, 500],
    ['nothing, when nothing is wanted', 0, 500, 0],
  ])('is %s', (_, wantedUg, thereUg, takenUg) => {
    expect(drawnUg(wantedUg, thereUg)).toBe(takenUg);
  });
});

describe('mass balance', () => {
  const weight = fc.record({
    hundredths: fc.integer({ min: 1, max: 100_000 }),
    unit: fc.constantFrom(...MASS_UNITS),
    kind: fc.constantFrom('received', 'produced', 'weighed', 'shipped', 'discarded'),
  });

  it('what came in is what went out and what is on hand, to the microgram', () => {
    fc.assert(
      fc.property(fc.array(weight, { maxLength: 60 }), (weights) => {
        let balance = EMPTY;
        let broughtUg = 0n;
        let takenUg = 0n;
        for (const { hundredths, unit, kind } of weights) {
          const wantedUg = micrograms(`${hundredths}e-2`, unit);
          const comes = kind === 'received' || kind === 'produced';
          const massUg = comes ? wantedUg : -drawnUg(wantedUg, balance.onHandUg);
          expect(movementFault({ lotId: 'A', kind, massUg, reservedUg: 0, reason: 'r' })).toBeUndefined();
          const next = after(balance, { massUg, reservedUg: 0 });
          if (!next) {
            expect(wantedUg).toBeGreaterThan(balance.onHandUg);
            continue;
          }
          balance = next;
          if (comes) broughtUg += BigInt(massUg);
          else takenUg -= BigInt(massUg);
        }
        expect(broughtUg).toBe(takenUg + BigInt(balance.onHandUg));
      }),
    );
  });
});
