import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, multiply } from '../../src/exact.ts';
import { kilogramsOfMicrograms, micrograms, microgramsOf } from '../../src/ledger/micrograms.ts';
import { after, type Balance, drawnUg } from '../../src/ledger/movement.ts';
import { KILOGRAMS_PER, MASS_UNITS, type MassUnit } from '../../src/units.ts';

/** Thousandths of a microgram in one unit: the pound is 0.45359237 kg by definition (NIST Handbook 44, Appendix C). */
const MILLIONTH_MG_PER: Readonly<Record<MassUnit, bigint>> = {
  kg: 1_000_000_000_000n,
  g: 1_000_000_000n,
  lb: 453_592_370_000n,
  oz: 28_349_523_125n,
};

describe('a weight in micrograms', () => {
  it.each([
    // By hand from the definition of the pound: 4 535 923.7 µg, 2 834 952.3125 µg, 28 349 523.125 µg.
    ['0.01', 'lb', 4_535_924],
    ['0.1', 'oz', 2_834_952],
    ['1', 'oz', 28_349_523],
    ['1', 'lb', 453_592_370],
    ['0.5', 'g', 500_000],
    [0.1, 'kg', 100_000_000],
    ['12.5', 'kg', 12_500_000_000],
    // Half a microgram goes up, whichever side of nothing it is on.
    ['0.0000000005', 'kg', 1],
    ['0.00000000049', 'kg', 0],
    ['-0.0000000005', 'kg', 0],
    ['-0.0000000006', 'kg', -1],
    ['-0.0000000015', 'kg', -1],
    ['-0.01', 'lb', -4_535_924],
    ['-1', 'lb', -453_592_370],
    ['1e-10', 'kg', 0],
    [0, 'lb', 0],
    ['9007199.254740991', 'kg', Number.MAX_SAFE_INTEGER],
    ['-9007199.254740991', 'kg', -Number.MAX_SAFE_INTEGER],
  ] as const)('%s %s is %d µg', (value, unit, massUg) => {
    expect(micrograms(value, unit)).toBe(massUg);
  });

  it.each(['9007199.254740992', '-9007199.254740992', '1e30', 1e300])('%s kg cannot be counted', (value) => {
    expect(() => micrograms(value, 'kg')).toThrow(/more than the ledger can count; write a smaller weight/);
  });

  it.each(['', '1/3', 'NaN', 'a lot', Number.POSITIVE_INFINITY, Number.NaN])('%s is no weight', (value) => {
    expect(() => micrograms(value, 'kg')).toThrow(RangeError);
  });

  it('is never further off than half a microgram', () => {
    const written = fc.record({
      digits: fc.bigInt({ min: -9_000_000_000_000n, max: 9_000_000_000_000n }),
      decimals: fc.nat(16),
      unit: fc.constantFrom(...MASS_UNITS),
    });
    fc.assert(
      fc.property(written, ({ digits, decimals, unit }) => {
        const step = 1000n * 10n ** BigInt(decimals);
        const exactly = digits * MILLIONTH_MG_PER[unit];
        fc.pre(
          exactly / step < BigInt(Number.MAX_SAFE_INTEGER) &&
            -exactly / step < BigInt(Number.MAX_SAFE_INTEGER),
        );
        const rounded = BigInt(micrograms(`${digits}e-${decimals}`, unit)) * step;
        const twiceOff = 2n * (rounded - exactly);
        expect(twiceOff > -step && twiceOff <= step).toBe(true);
      }),
    );
  });

  it('comes back as the same weight, up to eight thousand tonnes', () => {
    // From 2^23 kg on, doubles lie more than a microgram apart.
    const most = 2 ** 23 * 1_000_000_000;
    const massUg = fc.integer({ min: -most, max: most });
    fc.assert(
      fc.property(massUg, (count) => {
        expect(micrograms(kilogramsOfMicrograms(count), 'kg')).toBe(count);
      }),
    );
  });
});

/** Boxes of so many hundredths of a unit, and how many scale divisions of it are taken at a time. */
const weighedOut = fc
  .record({
    unit: fc.constantFrom(...MASS_UNITS),
    hundredths: fc.integer({ min: 1, max: 10_000 }),
    boxes: fc.integer({ min: 1, max: 60 }),
    cuts: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 }),
  })
  .map(({ cuts, ...lot }) => {
    const total = lot.hundredths * lot.boxes;
    const marks = [...new Set([0, ...cuts.map((cut) => Math.floor(cut * total)), total])].sort(
      (a, b) => a - b,
    );
    return { ...lot, parts: marks.slice(1).map((mark, at) => mark - (marks[at] ?? 0)) };
  });

function hundredthsUg(hundredths: number, unit: MassUnit): number {
  return microgramsOf(multiply({ digits: BigInt(hundredths), scale: 2 }, KILOGRAMS_PER[unit]));
}

function emptied(onHandUg: number, parts: readonly number[], unit: MassUnit): Balance | undefined {
  return parts.reduce<Balance | undefined>(
    (balance, part) => {
      const massUg = balance && drawnUg(hundredthsUg(part, unit), balance.onHandUg);
      return balance && massUg !== undefined ? after(balance, { massUg: -massUg, reservedUg: 0 }) : undefined;
    },
    { onHandUg, reservedUg: 0 },
  );
}

describe('a lot of whole boxes, weighed out in divisions of a scale', () => {
  it('ends empty and is never short, when it was booked as one weight', () => {
    fc.assert(
      fc.property(weighedOut, ({ unit, hundredths, boxes, parts }) => {
        const onHandUg = microgramsOf(
          multiply(multiply(exact(boxes), { digits: BigInt(hundredths), scale: 2 }), KILOGRAMS_PER[unit]),
        );
        expect(emptied(onHandUg, parts, unit)).toEqual({ onHandUg: 0, reservedUg: 0 });
      }),
    );
  });

  it('ends empty and is never short, when it was booked box by box', () => {
    fc.assert(
      fc.property(weighedOut, ({ unit, hundredths, boxes, parts }) => {
        const onHandUg = boxes * hundredthsUg(hundredths, unit);
        expect(emptied(onHandUg, parts, unit)).toEqual({ onHandUg: 0, reservedUg: 0 });
      }),
    );
  });
});
