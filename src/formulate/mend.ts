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
  const rows = limitRows(lines, coefficients, limits, planes);
  const counted = lines.map((line) => toNumber(size.perKg(line)));
  const startMissing = missingKg(lines, size);
  const tolerance = sizeTolerance(lines, size);

  /** Kilograms by which limits and size are missed, zero when the load is right. */
  const badness = (counts: readonly number[]): number => {
    let bad = 0;
    for (const row of rows) {
      const activity = row.reduce(
        (total, a, index) => total + a * at(counts, index) * at(steps, index),
        SPARE_KG,
      );
      if (activity > 0) bad += activity;
    }
    const moved = counted.reduce<number>(
      (total, perKg, index) => total + perKg * (at(counts, index) - at(start, index)) * at(steps, index),
      0,
    );
    const missing = startMissing - moved;
    const short = size.isLeast ? Math.max(0, missing - SPARE_KG) : 0;
    return bad + short + Math.max(0, Math.abs(missing) - tolerance);
  };

  let counts: readonly number[] = start;
  let bad = badness(counts);
  for (let move = 0; bad > 0 && move < MOST_MOVES; move++) {
    let best: readonly number[] | undefined;
    for (const candidate of neighbours(counts, (index, count) => mayBe(lines, start, index, count))) {
      const candidateBad = badness(candidate);
      if (candidateBad < bad) {
        bad = candidateBad;
        best = candidate;
      }
    }
    if (!best) break;
    counts = best;
  }
  return lines.map((line, index) => ({ ...line, divisions: at(counts, index) }));
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
    const largest = Math.max(...terms.map(({ coefficient }) => Math.abs(coefficient)));
    return lines.map(({ column }) => (sign * (perKg.get(column) ?? 0)) / largest);
  });
}

function mayBe(
  lines: readonly WeighedLine[],
  start: readonly number[],
  index: number,
  count: number,
): boolean {
  const line = lines[index];
  if (!line || count < line.leastDivisions || count > line.mostDivisions) return false;
  const rounding = roundingOf(line.supply.material);
  const moved = count - at(start, index);
  return rounding === 'free' || moved === 0 || moved === -1 || (moved === 1 && rounding === 'nearest');
}

/** Every count of divisions that one line up, one line down, or both at once lead to. */
function* neighbours(
  counts: readonly number[],
  mayHave: (index: number, count: number) => boolean,
): Generator<readonly number[]> {
  const none = -1;
  for (const step of STEPS) {
    for (let up = none; up < counts.length; up++) {
      if (up !== none && !mayHave(up, at(counts, up) + step)) continue;
      for (let down = none; down < counts.length; down++) {
        if (up === down) continue;
        if (down !== none && !mayHave(down, at(counts, down) - step)) continue;
        const next = [...counts];
        if (up !== none) next[up] = at(counts, up) + step;
        if (down !== none) next[down] = at(counts, down) - step;
        yield next;
      }
    }
  }
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? 0;
}
