import type { BatchAnswer } from '../../api/batches/contract.ts';

/** A batch as the page has it, and what follows from it. */

export type Batch = BatchAnswer;
export type Line = Batch['lines'][number];
export type LineInLoad = Line['loads'][number];
export type Limit = Batch['limits'][number];
export type BatchState = Batch['state'];

/** The stages of a batch that its picture shows, in turn. */
export const STAGES = ['planned', 'weighing', 'weighed', 'finished', 'packed', 'closed'] as const;

/** How many stages are behind it; a cancelled batch has none. */
export function stageOf(state: BatchState): number {
  return (STAGES as readonly BatchState[]).indexOf(state);
}

/** Where the one next step of a batch is taken. */
export type NextStep = 'weigh' | 'all in' | 'correct' | 'finish' | 'pack' | 'record';

/** What is to be done next; undefined when there is nothing. */
export function nextStepOf({ state, lines, limitsAre, open }: Batch): NextStep | undefined {
  if (state === 'planned') return 'weigh';
  if (state === 'weighing') {
    return lines.some(({ loads }) => loads.some(({ rest }) => rest.kg > 0)) ? 'weigh' : 'all in';
  }
  if (state === 'weighed') {
    const isOff = limitsAre === 'with the test' && open.some(({ limitId, reason }) => limitId && !reason);
    return isOff ? 'correct' : 'finish';
  }
  if (state === 'finished' || state === 'packed') return 'pack';
  return state === 'closed' ? 'record' : undefined;
}

export function loadsOf({ lines }: Pick<Batch, 'lines'>): number[] {
  return [...new Set(lines.flatMap(({ loads }) => loads.map(({ load }) => load)))].sort((a, b) => a - b);
}

/** Things of one day together, the latest day first; within a day as they come. */
export function byDay<Of extends { readonly date: string }>(items: readonly Of[]): [string, Of[]][] {
  const days = new Map<string, Of[]>();
  for (const item of items) days.set(item.date, [...(days.get(item.date) ?? []), item]);
  return [...days].sort(([a], [b]) => (a < b ? 1 : -1));
}

/** Limits with those that are missed first, then the nearest to their bounds; those that nothing can move are last. */
export function byRoom<Of extends Pick<Limit, 'holds' | 'bound' | 'value'>>(limits: readonly Of[]): Of[] {
  return [...limits].sort((a, b) => Number(a.holds) - Number(b.holds) || roomShare(a) - roomShare(b));
}

/** Distance from its bound as a share of the bound. */
function roomShare({ bound, value }: Pick<Limit, 'bound' | 'value'>): number {
  return bound === 0 ? Number.POSITIVE_INFINITY : Math.abs((bound - value) / bound);
}

/** Whether it only says that nothing of something may be in, or little of it, and none is. */
export function isIdle({ holds, sense, bound, value }: Limit): boolean {
  return holds && (bound === 0 || (sense === 'max' && value <= 0));
}

/** Where on a gauge the bound stands. */
export const BOUND_AT = 0.75;

/** How far a gauge is filled, from 0 to 1. */
export function gaugeFill({ bound, value }: Pick<Limit, 'bound' | 'value'>): number {
  if (bound <= 0) return value > bound ? 1 : 0;
  return Math.min(1, Math.max(0, (value / bound) * BOUND_AT));
}
