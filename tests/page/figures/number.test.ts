import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DecimalMark,
  parseNumber,
  sentenceWithMark,
  withMark,
} from '../../../src/page/figures/number.ts';

const mark = fc.constantFrom<DecimalMark>('.', ',');

describe('a number as it is typed', () => {
  it('is read back as it was written, with either mark', () => {
    fc.assert(
      fc.property(fc.nat(999_999), fc.stringMatching(/^\d{0,6}$/), mark, (whole, part, own) => {
        const text = part === '' ? String(whole) : `${whole}.${part}`;
        expect(parseNumber(withMark(text, own), own)).toEqual({ kind: 'number', value: Number(text), text });
      }),
    );
  });

  it('is never taken for another one: the foreign mark is a decimal mark, or it is asked', () => {
    fc.assert(
      fc.property(fc.nat(999_999), fc.stringMatching(/^\d{1,6}$/), mark, (whole, part, own) => {
        const foreign = own === '.' ? ',' : '.';
        const parsed = parseNumber(`${whole}${foreign}${part}`, own);
        const value = Number(`${whole}.${part}`);
        if (parsed.kind === 'number') expect(parsed.value).toBe(value);
        else {
          expect(parsed).toEqual({
            kind: 'unclear',
            whole: `${whole}${part}`,
            part: withMark(`${whole}.${part}`, own),
          });
        }
      }),
    );
  });

  it.each([
    ['1,234', '.', 'unclear'],
    ['0,234', '.', 'number'],
    ['1.234', '.', 'number'],
    ['1.234', ',', 'unclear'],
    ['1 234,5', ',', 'number'],
    ['1,234.5', '.', 'wrong'],
    ['12,5', '.', 'number'],
    ['', '.', 'empty'],
    ['.', '.', 'wrong'],
    ['abc', '.', 'wrong'],
    ['1e3', '.', 'wrong'],
    ['0x10', '.', 'wrong'],
  ] as const)('%s on a device with %s is %s', (typed, own, kind) => {
    expect(parseNumber(typed, own).kind).toBe(kind);
  });
});

describe('figures within a sentence', () => {
  it.each([
    ['at most 2.2 % of it, 546.875 ppm and 0.5 lb', 'at most 2,2 % of it, 546,875 ppm and 0,5 lb'],
    ['Baje "grasa" de 17.5 a 17.4 % de producto', 'Baje "grasa" de 17,5 a 17,4 % de producto'],
    ['9 CFR 424.21(c), 9 CFR 319.140 and 318.22; B50.1 on 2026-11-17', undefined],
  ])('%s', (sentence, withComma) => {
    expect(sentenceWithMark(sentence, ',')).toBe(withComma ?? sentence);
    expect(sentenceWithMark(sentence, '.')).toBe(sentence);
  });
});
