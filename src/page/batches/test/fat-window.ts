import type { CorrectionAnswer } from '../../../api/contract/correction.ts';

/** Where the fat of a mix lies to what is allowed, in percent. */

type Checks = CorrectionAnswer['before']['checks'];

export interface FatWindow {
  readonly now: number;
  readonly after?: number;
  readonly least?: number;
  readonly most?: number;
}

/** Undefined where no limit is about fat; that a process loses no more fat than there is says nothing of what is allowed. */
export function fatWindow(before: Checks, after?: Checks): FatWindow | undefined {
  const about = (checks: Checks | undefined) =>
    checks?.filter(
      ({ limit: { id, numerator, unit } }) =>
        numerator === 'fat' && unit === 'percent' && !id.startsWith('mass-balance'),
    ) ?? [];
  const now = about(before);
  const [first] = now;
  if (!first) return undefined;
  const bounds = (sense: string) =>
    now.flatMap(({ limit }) =>
      limit.sense === sense && limit.basis === first.limit.basis ? [limit.bound] : [],
    );
  const [then] = about(after).filter(({ limit }) => limit.id === first.limit.id);
  const [mins, maxes] = [bounds('min'), bounds('max')];
  return {
    now: first.value,
    ...(then && { after: then.value }),
    ...(mins.length > 0 && { least: Math.max(...mins) }),
    ...(maxes.length > 0 && { most: Math.min(...maxes) }),
  };
}

/** Percent at the left and the right end of the picture: everything shown, with room around it. */
export function endsOf({ now, after, least, most }: FatWindow): readonly [number, number] {
  const shown = [now, after, least, most].filter((each) => each !== undefined);
  const [low, high] = [Math.min(...shown), Math.max(...shown)];
  const room = Math.max(1, (high - low) * 0.25);
  return [Math.max(0, low - room), high + room];
}
