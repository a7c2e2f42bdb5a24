import fc from 'fast-check';
import { expect, it } from 'vitest';
import { daysBetween } from '../../src/plan/days.ts';

/** The opponent is the calendar of the language: ECMA-262, "Time Values and Time Range". */
it('days between two dates are those of the calendar', () => {
  const day = fc
    .date({ min: new Date('1990-01-01'), max: new Date('2199-12-31'), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10));
  fc.assert(
    fc.property(day, day, (from, to) => {
      expect(daysBetween(from, to)).toBe((Date.parse(to) - Date.parse(from)) / 86_400_000);
    }),
  );
});

it('a leap day counts', () => {
  expect(daysBetween('2028-02-28', '2028-03-01')).toBe(2);
  expect(daysBetween('2100-02-28', '2100-03-01')).toBe(1);
});
