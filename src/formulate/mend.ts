import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { rowsOf } from '../rules/row.ts';
import { toRow } from '../solver/exact-model.ts';
import type { Row } from '../solver/model.ts';
import { type LoadSize, missingKg, sizeTolerance } from './load-size.ts';
import { roundingOf, type WeighedLine } from './round.ts';

/** Most moves tried before giving up. */
const MOST_MOVES = 400;
const STEPS = [1, 2, 4, 8, 16];
/** Limits are aimed at with this much to spare, in kilograms, so that the exact check agrees. */
const SPARE_KG = 1e-12;

/**
 * Moves whole divisions between lines, each time the move that helps most, until no limit is missed and the
 * load has its size. Used only where the blend had no room to spare for rounding. Seasonings move by one
 * division at most, what the law counts only down. The result still has to pass the exact check.
 */
export function mend(
  lines: readonly WeighedLine[],
  size: LoadSize,
  coefficients: Coefficients,
  limits: readonly Limit[],
  planes: readonly Row[] = [],
): WeighedLine[] {
  const steps = lines.map(({ divisionKg }) => toNumber(divisionKg));
  const start = lines.map(({ divisions }) => divisions);
  // What one division more of each line adds to a row, in kilograms.
  const rows = limitRows(lines, coefficients, limits, planes).map((row) =>
    row.map((perKg, index) => perKg * at(steps, index)),
  );
  const counted = lines.map((line, index) => toNumber(size.perKg(line)) * at(steps, index));
  const ranges = lines.map(mayRange);
  const startMissing = missingKg(lines, size);
  const tolerance = sizeTolerance(lines, size);

  /** Kilograms by which limits and size are missed, zero when the load is right. */
  const badness = (activities: readonly number[], missing: number): number => {
    const bad = activities.reduce((total, activity) => total + Math.max(0, activity), 0);
    const short = size.isLeast ? Math.max(0, missing - SPARE_KG) : 0;
    return bad + short + Math.max(0, Math.abs(missing) - tolerance);
  };

  const counts = [...start];
  for (let move = 0; move < MOST_MOVES; move++) {
    const all = rows.map((row) => row.reduce((total, a, index) => total + a * at(counts, index), SPARE_KG));
    const moved = counted.reduce((total, a, index) => total + a * (at(counts, index) - at(start, index)), 0);
    const missing = startMissing - moved;
    const bad = badness(all, missing);
    if (bad === 0) break;
    // Of hundreds of lines only what a move can bring over its limit is looked at.
    const near = rows.flatMap((row, index) => (at(all, index) + furthest(row) > 0 ? [index] : []));
    const activities = near.map((row) => at(all, row));
    const adds = lines.map((_, line) => near.map((row) => at(rows[row] as number[], line)));
    const best = bestMove(counts, ranges, bad, (up, down, step) => {
      const risen = activities.map(
        (activity, row) => activity + step * (at(adds[up] ?? NONE, row) - at(adds[down] ?? NONE, row)),
      );
      return badness(risen, missing - step * (at(counted, up) - at(counted, down)));
    });
    if (!best) break;
    const { up, down, step } = best;
    if (up >= 0) counts[up] = at(counts, up) + step;
    if (down >= 0) counts[down] = at(counts, down) - step;
  }
  return lines.map((line, index) => ({ ...line, divisions: at(counts, index) }));
}

const NONE: readonly number[] = [];

/** The most that any move can add to a row. */
function furthest(row: readonly number[]): number {
  const most = row.reduce((max, each) => Math.max(max, each), 0);
  const least = row.reduce((min, each) => Math.min(min, each), 0);
  return Math.max(...STEPS) * (most - least);
}

/** Each limit as coefficients over the lines that must not add up to more than zero, the largest of them 1. */
function limitRows(
  lines: readonly WeighedLine[],
  coefficients: Coefficients,
  limits: readonly Limit[],
  planes: readonly Row[],
): number[][] {
  const ofLimits = limits.flatMap((limit) => rowsOf(limit, coefficients).map(toRow));
  const rows = [...ofLimits, ...planes].filter(({ terms }) => terms.length > 0);
  return rows.map(({ terms, upper }) => {
    const perKg = new Map(terms.map(({ column, coefficient }) => [column, coefficient]));
    const sign = upper === 0 ? 1 : -1;
    const largest = terms.reduce((max, { coefficient }) => Math.max(max, Math.abs(coefficient)), 0);
    return lines.map(({ column }) => (sign * (perKg.get(column) ?? 0)) / largest);
  });
}

/** The fewest and the most divisions that mending may give a line. */
function mayRange({ supply, divisions, leastDivisions, mostDivisions }: WeighedLine): [number, number] {
  const rounding = roundingOf(supply.material);
  if (rounding === 'free') return [leastDivisions, mostDivisions];
  const most = rounding === 'nearest' ? divisions + 1 : divisions;
  return [Math.max(leastDivisions, divisions - 1), Math.min(mostDivisions, most)];
}

interface Move {
  /** Lines that so many divisions are added to and taken from; -1 for none. */
  readonly up: number;
  readonly down: number;
  readonly step: number;
}

/** The move that leaves least, of one line up, one line down, or both at once; undefined when none leaves less. */
function bestMove(
  counts: readonly number[],
  ranges: readonly (readonly [number, number])[],
  bad: number,
  badnessAfter: (up: number, down: number, step: number) => number,
): Move | undefined {
  let best: Move | undefined;
  let least = bad;
  const mayHave = (index: number, count: number) => {
    const [low, high] = ranges[index] as readonly [number, number];
    return count >= low && count <= high;
  };
  const places = [-1, ...counts.keys()];
  for (const step of STEPS) {
    const downs = places.filter((index) => index < 0 || mayHave(index, at(counts, index) - step));
    for (const up of places) {
      if (up >= 0 && !mayHave(up, at(counts, up) + step)) continue;
      for (const down of downs) {
        if (up === down) continue;
        const left = badnessAfter(up, down, step);
        if (left >= least) continue;
        least = left;
        best = { up, down, step };
        if (left === 0) return best;
      }
    }
  }
  return best;
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? 0;
}
