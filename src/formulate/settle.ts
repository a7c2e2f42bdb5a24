import type { Scale } from '../batch/plant.ts';
import { compare, type Exact } from '../exact.ts';
import { type Check, checkLimits } from '../rules/check.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import type { Row } from '../solver/model.ts';
import { fillUp, hasSize, type LoadSize, missingKg } from './load-size.ts';
import { mend } from './mend.ts';
import { batchMasses, roundToScale, type WeighedLine } from './round.ts';

/** Weights that scales can show, with what the exact check says of them. */
export interface SettledLoad {
  readonly lines: readonly WeighedLine[];
  /** Exact kilograms in the whole batch, one for each supply. */
  readonly masses: readonly Exact[];
  readonly checks: readonly Check[];
  /** What a load misses of its size, to the milligram. */
  readonly missedKg: number;
  /** Whether that is no more than rounding explains. */
  readonly hasSize: boolean;
  /** Whether every margin that was asked for is kept, exactly. */
  readonly isSure: boolean;
}

/** What settling works with. */
export interface Floor {
  readonly loads: number;
  readonly size: LoadSize;
  readonly scales: readonly Scale[];
  readonly coefficients: Coefficients;
  readonly limits: readonly Limit[];
  /** Planes that keep the margins asked for, in rows over the supplies. */
  readonly planes?: readonly Row[];
  /** Whether exact masses keep the margins; all do when absent. */
  readonly keepsMargins?: (masses: readonly Exact[]) => boolean;
}

/**
 * Brings blends onto the plant's scales so that every limit holds exactly and every load keeps its size.
 * @param optimum the least-cost blend: cheapest if its own rounding happens to keep the limits.
 * @param heldBack the blend that has room for rounding. Both one mass for each supply, in the whole batch.
 * @returns of the loads that are right the nearest to its size, then the cheapest; else the nearest to right.
 */
export function settle(optimum: readonly number[], heldBack: readonly number[], floor: Floor): SettledLoad {
  const { size, coefficients, limits, planes = [] } = floor;
  const [direct, roomy] = [optimum, heldBack].map((massesKg) =>
    withoutLeftovers(roundToScale(coefficients.supplies, massesKg, floor.loads, floor.scales)),
  ) as [WeighedLine[], WeighedLine[]];
  const candidates = [fillUp(direct, size, false), fillUp(roomy, size, false), fillUp(roomy, size, true)];
  const right = candidates.map((lines) => judge(lines, floor)).filter(isRight);
  const best = right.sort((a, b) => a.missedKg - b.missedKg || compare(costOf(a), costOf(b)))[0];
  return best ?? judge(mend(fillUp(roomy, size, false), size, coefficients, limits, planes), floor);

  function costOf({ masses }: SettledLoad): Exact {
    return coefficients.total(FORMS.cost, masses);
  }
}

/** Whether a load can be printed: it has its size, every limit holds and every margin is kept. */
export function isRight({ checks, hasSize, isSure }: SettledLoad): boolean {
  return hasSize && isSure && checks.every(({ holds }) => holds);
}

function judge(lines: readonly WeighedLine[], floor: Floor): SettledLoad {
  const { loads, size, coefficients, limits, keepsMargins } = floor;
  const masses = batchMasses(lines, loads, coefficients.supplies.length);
  const missedKg = Number(Math.abs(missingKg(lines, size)).toFixed(6));
  return {
    lines,
    masses,
    checks: checkLimits(limits, coefficients, masses),
    missedKg,
    hasSize: hasSize(lines, size),
    isSure: keepsMargins?.(masses) ?? true,
  };
}

/** A lot with less than one division left is no line when another lot carries the material. */
function withoutLeftovers(lines: readonly WeighedLine[]): WeighedLine[] {
  return lines.filter(
    (line) =>
      line.mostDivisions > 0 ||
      !lines.some(
        (other) =>
          other !== line && other.divisions > 0 && other.supply.material.id === line.supply.material.id,
      ),
  );
}
