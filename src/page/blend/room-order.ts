import type { Blend } from './asking.ts';

export type Check = Blend['checks'][number];

/** What nothing of may go in: a limit of zero at most. These are many and all alike, so they stand together. */
export const isBan = ({ limit: { sense, bound } }: Check): boolean => sense === 'max' && bound === 0;

/** Balances of nature hold by themselves; nobody at a plant asks about them. */
export const isNature = ({ limit }: Check): boolean => limit.citation === 'mass balance';

/**
 * How far a limit is used, 0 to 1: the value as a share of a most, a least as a share of the value. A target is used
 * whole when it is a full tolerance away.
 */
export function usedShare({ limit, value }: Check): number {
  const { sense, bound, within } = limit;
  if (sense === 'max') return bound > 0 ? clamp(value / bound) : value > 0 ? 1 : 0;
  if (sense === 'min' || sense === 'present') return value > 0 ? clamp(bound / value) : 1;
  const reach = (within ?? 0) * bound;
  return reach > 0 ? clamp(Math.abs(value - bound) / reach) : 0;
}

const clamp = (share: number): number => Math.min(1, Math.max(0, share));

/** A most that nothing in this blend counts toward. */
export const isUntouched = ({ limit, value, holds }: Check): boolean =>
  limit.sense === 'max' && value === 0 && holds;

/** Limits that are told one by one, the tightest first; those of the law before those of the house where they are alike. */
export function toShow(checks: readonly Check[]): Check[] {
  return checks
    .filter((check) => !isBan(check) && !isNature(check))
    .sort(
      (a, b) =>
        Number(a.holds) - Number(b.holds) ||
        usedShare(b) - usedShare(a) ||
        Number(b.limit.authority === 'law') - Number(a.limit.authority === 'law'),
    );
}
