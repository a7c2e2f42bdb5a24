import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dayLater, instantAt, shownAt } from '../../../src/api/records/times.ts';

const CHICAGO = 'America/Chicago';

describe("the plant's clock", () => {
  test.each([
    ['2026-11-25T08:05', '2026-11-25T14:05:00.000Z'],
    ['2026-07-01T00:00', '2026-07-01T05:00:00.000Z'],
    // 15 U.S.C. 260a: daylight saving time ends on the first Sunday of November; 1:30 is shown twice.
    ['2026-11-01T01:30', '2026-11-01T06:30:00.000Z'],
    // It begins on the second Sunday of March; 2:30 is never shown.
    ['2026-03-08T02:30', undefined],
  ])('showed %s at %s', (local, instant) => {
    expect(instantAt(CHICAGO, local)).toBe(instant);
  });

  test('is read as it was shown, in any zone', () => {
    const zones = fc.constantFrom(CHICAGO, 'UTC', 'Asia/Kolkata', 'Pacific/Auckland', 'America/St_Johns');
    const minutes = fc.integer({ min: 0, max: 20 * 366 * 24 * 60 });
    fc.assert(
      fc.property(zones, minutes, (zone, minute) => {
        const at = new Date(Date.UTC(2015, 0, 1) + minute * 60_000).toISOString();
        const shown = shownAt(zone, at);
        const found = instantAt(zone, shown.replace(' ', 'T'));
        expect(found !== undefined && found <= at).toBe(true);
        expect(shownAt(zone, found ?? '')).toBe(shown);
      }),
      { numRuns: 300 },
    );
  });

  test('days follow one another over months and years', () => {
    expect(dayLater('2026-12-31', 1)).toBe('2027-01-01');
    expect(dayLater('2028-03-01', -1)).toBe('2028-02-29');
    expect(dayLater('2026-11-25', 0)).toBe('2026-11-25');
  });
});
