import { Refused } from '../ledger/refused.ts';
import type { Deviation, LimitStanding } from './batch.ts';
import { boundText, foundText } from './limit-text.ts';
import { isMissed } from './standing.ts';

/** What departs from the plan and the reasons that were given for it. */

/** A departure that needs a reason, with the one that it has already. */
export interface Open extends Omit<Deviation, 'reason'> {
  readonly reason?: string;
}

/** A reason as it is given: for a line (in one load or in all), for all lines of a load, for a limit, or about the yield. */
export interface Reason {
  readonly line?: number | undefined;
  readonly load?: number | undefined;
  readonly limitId?: string | undefined;
  readonly about?: 'yield' | undefined;
  readonly reason: string;
}

/** Limits that are missed, as departures. */
export function notMet(limits: readonly LimitStanding[]): Open[] {
  return limits.filter(isMissed).map((limit) => ({
    limitId: limit.limitId,
    ...(limit.load !== undefined && { load: limit.load }),
    what: limit.load === undefined ? limit.what : `${limit.what} in load ${limit.load}`,
    planned: boundText(limit),
    found: foundText(limit),
  }));
}

/**
 * Departures with the best reason for each: given now, said with it, given before for the very same finding, or given
 * now for all lines of its load.
 * @param before departures that were settled at an earlier step.
 */
export function withReasons(
  open: readonly Open[],
  given: readonly Reason[],
  before: readonly Deviation[],
): Open[] {
  return open.map((one) => {
    const reason =
      given.find((reasonGiven) => isAbout(reasonGiven, one))?.reason ??
      one.reason ??
      before.find((settled) => isSame(settled, one))?.reason ??
      given.find((reasonGiven) => isAboutItsLoad(reasonGiven, one))?.reason;
    return reason === undefined ? one : { ...one, reason };
  });
}

/** @throws Refused 'needs a reason' naming every departure that has none. */
export function settled(open: readonly Open[]): Deviation[] {
  const bare = open.filter(({ reason }) => reason === undefined);
  if (bare.length > 0) throw unexplained(bare);
  return open.map(({ reason = '', ...one }) => ({ ...one, reason }));
}

function isAbout(given: Reason, one: Open): boolean {
  if (given.about !== one.about || given.limitId !== one.limitId || given.line !== one.line) return false;
  return given.load === undefined || given.load === one.load;
}

function isAboutItsLoad({ about, limitId, line, load }: Reason, one: Open): boolean {
  if (about !== undefined || limitId !== undefined || line !== undefined) return false;
  return one.line !== undefined && load === one.load;
}

function isSame(a: Deviation, b: Open): boolean {
  return a.what === b.what && a.found === b.found && a.limitId === b.limitId && a.about === b.about;
}

function unexplained(bare: readonly Open[]): Refused {
  const list = bare.map((one) => `${one.what}: ${one.planned}, found ${one.found} (${keyOf(one)})`);
  const count =
    bare.length === 1 ? 'One departure needs its reason' : `${bare.length} departures need a reason`;
  return new Refused('needs a reason', `${count} in reasons: ${list.join('; ')}`, ['reasons']);
}

/** What a reason for it has to name. */
function keyOf({ about, limitId, line, load }: Open): string {
  if (about !== undefined) return `about "${about}"`;
  return limitId === undefined ? `line ${line}, load ${load}` : `limitId ${limitId}`;
}
