import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { rowOf } from '../rules/row.ts';
import { isRoundedDown, lineKg, type WeighedLine } from './round.ts';

/** Most moves tried before giving up. */
const MOST_MOVES = 400;
const STEPS = [1, 2, 4, 8, 16];

/**
 * Moves whole divisions between lines, each time the move that helps most, until no limit is missed. Used
 * only where the blend had no room to spare for rounding. Seasonings move by one division at most, counted
 * substances only down. The result still has to pass the exact check.
 */
export function mend(
  lines: readonly WeighedLine[],
  coefficients: Coefficients,
  limits: readonly Limit[],
): WeighedLine[] {
  const rows = limits.flatMap((limit) => {
    const row = rowOf(limit, coefficients);
    if (!row || row.terms.length === 0) return [];
    const perKg = new Map(row.terms.map(({ column, coefficient }) => [column, coefficient]));
    const sign = limit.sense === 'max' ? 1 : -1;
    const largest = Math.max(...row.terms.map(({ coefficient }) => Math.abs(coefficient)));
    return [lines.map(({ column }) => (sign * (perKg.get(column) ?? 0)) / largest)];
  });
  const steps = lines.map(({ divisionKg }) => toNumber(divisionKg));
  const start = lines.map((line) => line.divisions);
  const wantedSum = lines.reduce((total, line) => total + toNumber(lineKg(line)), 0);
  const coarsest = Math.max(...steps);

  const badness = (counts: readonly number[]): number => {
    const masses = counts.map((count, index) => count * (steps[index] ?? 0));
    const drift = Math.abs(masses.reduce((total, massKg) => total + massKg, 0) - wantedSum);
    const missed = rows.reduce(
      (total, row) =>
        total +
        Math.max(
          0,
          row.reduce((activity, a, index) => activity + a * (masses[index] ?? 0), 1e-12),
        ),
      0,
    );
    return missed <= rows.length * 2e-12 ? 0 : missed + 1e-4 * Math.max(0, drift - coarsest);
  };
  const allowed = (index: number, count: number): boolean => {
    const line = lines[index] as WeighedLine;
    if (count < line.leastDivisions || count > line.mostDivisions) return false;
    if (line.free) return true;
    const moved = count - (start[index] as number);
    return moved === -1 || moved === 0 || (moved === 1 && !isRoundedDown(materialOf(line, coefficients)));
  };

  let counts: readonly number[] = start;
  let bad = badness(counts);
  for (let move = 0; bad > 0 && move < MOST_MOVES; move++) {
    let best: readonly number[] | undefined;
    for (const candidate of neighbours(counts, allowed)) {
      const candidateBad = badness(candidate);
      if (candidateBad < bad) {
        bad = candidateBad;
        best = candidate;
      }
    }
    if (!best) break;
    counts = best;
  }
  return lines.map((line, index) => ({ ...line, divisions: counts[index] as number }));
}

function* neighbours(
  counts: readonly number[],
  allowed: (index: number, count: number) => boolean,
): Generator<readonly number[]> {
  for (const step of STEPS) {
    for (let up = -1; up < counts.length; up++) {
      for (let down = -1; down < counts.length; down++) {
        if (up === down) continue;
        const next = [...counts];
        if (up >= 0) next[up] = (counts[up] as number) + step;
        if (down >= 0) next[down] = (counts[down] as number) - step;
        if (up >= 0 && !allowed(up, next[up] as number)) continue;
        if (down >= 0 && !allowed(down, next[down] as number)) continue;
        yield next;
      }
    }
  }
}

function materialOf(line: WeighedLine, { supplies }: Coefficients) {
  const supply = supplies[line.column];
  if (!supply) throw new RangeError(`line ${line.column} has no supply`);
  return supply.material;
}
