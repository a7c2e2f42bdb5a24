/** Calendar days as texts, YYYY-MM-DD. */

const DAY_MS = 86_400_000;

const ms = (isoDay: string): number => Date.parse(`${isoDay}T00:00:00Z`);

/** Days from one day to another; negative when the other is earlier. */
export const daysBetween = (from: string, to: string): number => Math.round((ms(to) - ms(from)) / DAY_MS);

export const addDays = (isoDay: string, days: number): string =>
  new Date(ms(isoDay) + days * DAY_MS).toISOString().slice(0, 10);
