/** Instants are kept in UTC; people read and write what the clock of the plant shows. */

/** An instant as the plant's clock showed it: '2026-11-25 08:05'. */
export function shownAt(timeZone: string, at: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' }).format(
    new Date(at),
  );
}

export function timeAt(timeZone: string, at: string): { at: string; shown: string } {
  return { at, shown: shownAt(timeZone, at) };
}

/**
 * The instant at which the plant's clock shows a time; the first of two, when the clock was set back.
 * @param local such as '2026-11-25T08:05'.
 * @returns ISO 8601 in UTC; undefined for a time that the clock skipped.
 */
export function instantAt(timeZone: string, local: string): string | undefined {
  const wanted = local.slice(0, 16).replace('T', ' ');
  const asUtc = Date.parse(`${wanted.replace(' ', 'T')}:00Z`);
  const tries = [-1, 0, 1].map((days) => {
    const near = asUtc + days * DAY_MS;
    return (
      asUtc - (Date.parse(`${shownAt(timeZone, new Date(near).toISOString()).replace(' ', 'T')}:00Z`) - near)
    );
  });
  const fits = tries.filter((time) => shownAt(timeZone, new Date(time).toISOString()) === wanted);
  return fits.length === 0 ? undefined : new Date(Math.min(...fits)).toISOString();
}

const DAY_MS = 86_400_000;

/** A calendar day so many days later. */
export function dayLater(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
}
