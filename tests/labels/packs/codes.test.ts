import bwipjs from 'bwip-js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gs1CheckDigit, gtinFault, isVariableMeasure } from '../../../src/batch/gtin.ts';
import {
  elementStrings,
  elementText,
  pricedNumber,
  priceVerifierDigit,
} from '../../../src/labels/packs/codes.ts';
import { LabelRefused } from '../../../src/labels/packs/label-refused.ts';

const digits = (length: number) =>
  fc
    .array(fc.integer({ min: 0, max: 9 }), { minLength: length, maxLength: length })
    .map((all) => all.join(''));

/** Whether the encoder takes a number with this check digit. */
function isTaken(bcid: string, text: string): boolean {
  try {
    bwipjs.raw({ bcid, text });
    return true;
  } catch {
    return false;
  }
}

describe('check digits', () => {
  // GS1, "How to calculate a check digit manually": 629104150021 gives 3 (from memory, verify); 03600029145 gives 2 in
  // the article on the UPC of a free encyclopedia (secondary).
  test.each([
    ['629104150021', '3'],
    ['03600029145', '2'],
  ])('%s ends with %s', (body, digit) => {
    expect(gs1CheckDigit(body)).toBe(digit);
  });

  test.each([
    ['upca', 11],
    ['ean13', 12],
    ['ean8', 7],
  ])('%s: the encoder takes this digit and no other', (bcid, length) => {
    fc.assert(
      fc.property(digits(length), fc.integer({ min: 1, max: 9 }), (body, off) => {
        const digit = gs1CheckDigit(body);
        expect(isTaken(bcid, body + digit)).toBe(true);
        expect(isTaken(bcid, `${body}${(Number(digit) + off) % 10}`)).toBe(false);
      }),
      { numRuns: 60 },
    );
  });

  test('a wrong digit is named with the right one', () => {
    expect(gtinFault('400001000015')).toContain('its last digit must be 4');
    expect(gtinFault('400001000014')).toBeUndefined();
    expect(gtinFault('40000100001')).toContain('8, 12, 13 or 14 digits');
    expect(gtinFault('4000010000I4')).toContain('8, 12, 13 or 14 digits');
  });

  test('only 14 digits that start with 9 are of packs that differ in weight', () => {
    expect(['99521000000011', '19521000000015', '9521000000018'].map(isVariableMeasure)).toEqual([
      true,
      false,
      false,
    ]);
  });

  // Worked example of the GS1 General Specifications, 7.9 (secondary: quoted in open code); the other two are codes of
  // packs at 5.99 and 4.12 in a public test collection.
  test.each([
    ['2875', '9'],
    ['0599', '1'],
    ['0412', '0'],
  ])('the price %s is verified by %s', (price, digit) => {
    expect(priceVerifierDigit(price)).toBe(digit);
  });
});

describe('a number that carries a price', () => {
  const plain = { numberSystem: '2', priceVerifier: false } as const;
  const verified = { numberSystem: '2', priceVerifier: true } as const;

  test('has five digits of price, or a verifier and four', () => {
    expect(pricedNumber('01234', 675n, plain)).toBe('201234006756');
    expect(pricedNumber('01234', 599n, verified)).toBe('201234105992');
  });

  test('is never for a price that its digits cannot hold', () => {
    expect(pricedNumber('01234', 99_999n, plain)).toMatch(/^20123499999\d$/);
    expect(() => pricedNumber('01234', 100_000n, plain)).toThrow(/above 999\.99/);
    expect(() => pricedNumber('01234', 10_000n, verified)).toThrow(/above 99\.99/);
  });

  test('says item and price, and the encoder takes it', () => {
    fc.assert(
      fc.property(
        digits(5),
        fc.bigInt({ min: 1n, max: 9999n }),
        fc.boolean(),
        (item, cents, priceVerifier) => {
          const number = pricedNumber(item, cents, { numberSystem: '2', priceVerifier });
          expect(isTaken('upca', number)).toBe(true);
          expect(number.slice(1, 6)).toBe(item);
          expect(BigInt(number.slice(priceVerifier ? 7 : 6, 11))).toBe(cents);
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('element strings', () => {
  const pack = { gtin: '99521000000011', lotId: '261125-001-P1', packedDate: '2026-11-25' };

  test('stand with fixed lengths first and the lot last', () => {
    const elements = elementStrings({
      ...pack,
      net: { value: '1.23', unit: 'lb' },
      useByDate: '2026-12-09',
      cents: 675n,
    });
    expect(elementText(elements)).toBe(
      '(01)99521000000011(3202)000123(13)261125(17)261209(3922)675(10)261125-001-P1',
    );
  });

  test('kilograms have their own identifier, best before too, and a short number is filled up', () => {
    const elements = elementStrings({
      ...pack,
      gtin: '9521000000018',
      net: { value: '0.558', unit: 'kg' },
      bestBeforeDate: '2027-02-28',
    });
    expect(elementText(elements)).toBe('(01)09521000000018(3103)000558(13)261125(15)270228(10)261125-001-P1');
  });

  test.each([
    ['too long', { lotId: 'A'.repeat(21) }, /has 21 signs; a code holds 20/],
    ['an accent', { lotId: 'Würste-1' }, /signs that a code cannot hold/],
    ['a bracket', { lotId: 'A(10)B' }, /signs that a code cannot hold/],
    ['a space', { lotId: 'A 1' }, /signs that a code cannot hold/],
    ['too heavy', { net: { value: '12345.67', unit: 'lb' } as const }, /more than the six digits/],
  ])('%s is refused', (_, part, message) => {
    expect(() => elementStrings({ ...pack, ...part })).toThrow(message);
    expect(() => elementStrings({ ...pack, ...part })).toThrow(LabelRefused);
  });

  test('any lot that is taken is taken by the encoder as well', () => {
    const signs = [...'ABCxyz0189-./_:;<=>?!"%&\'*+,'];
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...signs), { minLength: 1, maxLength: 20 }),
        fc.integer({ min: 1, max: 999_999 }),
        (lot, hundredths) => {
          const value = (hundredths / 100).toFixed(2);
          const elements = elementStrings({ ...pack, lotId: lot.join(''), net: { value, unit: 'lb' } });
          expect(isTaken('gs1datamatrix', elementText(elements))).toBe(true);
          expect(elements.find(({ ai }) => ai === '3202')?.value).toBe(String(hundredths).padStart(6, '0'));
        },
      ),
      { numRuns: 60 },
    );
  });
});
