import type { Plant } from '../batch/plant.ts';
import { type Exact, exact, isZero, multiply, ONE, subtract, sum, toNumber, ZERO } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import type { SizeRow } from './batch-model.ts';
import { lineKg, roundingOf, type WeighedLine } from './round.ts';

/** Engines answer to about 1e-8 kg: less than this is nothing missing. */
const NOTHING_KG = 1e-7;

/** What one load should weigh, and how its lines count toward it. */
export interface LoadSize {
  readonly targetKg: number;
  /** Whether a load may not fall short of it. */
  readonly isLeast: boolean;
  /** What a kilogram of a line counts: all of it, nothing, or of rework the green weight that it holds. */
  readonly perKg: (line: WeighedLine) => Exact;
}

/** Mixer loads that a batch takes. */
export function loadsOf(massesKg: readonly number[], { mixerCapacityKg }: Plant): number {
  const totalKg = massesKg.reduce((sum, massKg) => sum + massKg, 0);
  return Math.max(1, Math.ceil(totalKg / mixerCapacityKg - 1e-9));
}

/** The asked size of the batch as the raw weight of one load. */
export function loadSize(
  { form, massKg, isLeast }: SizeRow,
  loads: number,
  coefficients: Coefficients,
): LoadSize {
  const rawKg = form === FORMS.finished ? massKg / coefficients.process.yieldFraction : massKg;
  return {
    targetKg: rawKg / loads,
    isLeast,
    perKg: form === FORMS.greenWeight ? ({ column }) => coefficients.of(form)[column] ?? ZERO : () => ONE,
  };
}

/** Whether a line counts toward the size. */
export function countsIn(line: WeighedLine, { perKg }: LoadSize): boolean {
  return !isZero(perKg(line));
}

/** What one division of a line counts, in kilograms. */
export function countedStepKg(line: WeighedLine, { perKg }: LoadSize): number {
  return toNumber(multiply(line.divisionKg, perKg(line)));
}

/** What a load lacks of its size; negative when it is too heavy. */
export function missingKg(lines: readonly WeighedLine[], { targetKg, perKg }: LoadSize): number {
  const countedKg = sum(lines.map((line) => multiply(lineKg(line), perKg(line))));
  return toNumber(subtract(exact(targetKg), countedKg));
}

/**
 * How far a load may be from its size: one division of its coarsest line. Where every meat line is at the end
 * of its lot, nothing can take up what their divisions leave, and that counts too.
 */
export function sizeTolerance(lines: readonly WeighedLine[], size: LoadSize): number {
  const counted = lines.filter((line) => countsIn(line, size));
  const stepKg = (line: WeighedLine) => countedStepKg(line, size);
  // A line that is fixed, such as whole boxes, takes up nothing and leaves nothing.
  const isFixed = ({ leastDivisions, mostDivisions }: WeighedLine) => leastDivisions === mostDivisions;
  const coarsest = Math.max(0, ...counted.filter((line) => !isFixed(line)).map(stepKg));
  const free = counted.filter(({ supply }) => roundingOf(supply.material) === 'free');
  const isHeld = (line: WeighedLine) => line.divisions >= line.mostDivisions;
  return free.every(isHeld) ? coarsest + free.reduce((total, line) => total + stepKg(line), 0) : coarsest;
}

/**
 * Gives the weight that rounding took away back to the meat lines, coarse scales first and those that lost
 * most before the others.
 * @param eachAtMostOnce stops at one division a line, which the blend has allowed for in its limits; without it
 * fine scales make up what is left of a coarse one.
 */
export function fillUp(
  lines: readonly WeighedLine[],
  size: LoadSize,
  eachAtMostOnce: boolean,
): WeighedLine[] {
  const filled = [...lines];
  const raised = new Set<number>();
  const open = lines.flatMap((line, index) =>
    roundingOf(line.supply.material) === 'free' && countsIn(line, size)
      ? [{ index, stepKg: countedStepKg(line, size), lostKg: lostKg(line) }]
      : [],
  );
  const isOpen = ({ index }: (typeof open)[number]) => {
    const { divisions, mostDivisions } = filled[index] as WeighedLine;
    return divisions < mostDivisions && !(eachAtMostOnce && raised.has(index));
  };
  let missing = missingKg(lines, size);
  for (;;) {
    let next: (typeof open)[number] | undefined;
    let finest: (typeof open)[number] | undefined;
    for (const each of open) {
      if (!isOpen(each)) continue;
      if (missing >= each.stepKg / 2 && (!next || comesBefore(each, next))) next = each;
      if (!finest || !comesBefore(each, finest)) finest = each;
    }
    next ??= size.isLeast && missing > NOTHING_KG ? finest : undefined;
    if (!next) return filled;
    const line = filled[next.index] as WeighedLine;
    const more = { ...line, divisions: line.divisions + 1 };
    filled[next.index] = more;
    next.lostKg = lostKg(more);
    raised.add(next.index);
    missing -= next.stepKg;
  }
}

interface Step {
  readonly stepKg: number;
  readonly lostKg: number;
}

/** Coarse scales first, then what rounding took most from. */
function comesBefore(a: Step, b: Step): boolean {
  return a.stepKg > b.stepKg || (a.stepKg === b.stepKg && a.lostKg > b.lostKg);
}

/** Whether a load weighs what it should, as nearly as its scales allow. */
export function hasSize(lines: readonly WeighedLine[], size: LoadSize): boolean {
  const missing = missingKg(lines, size);
  const tolerance = sizeTolerance(lines, size);
  if (Math.abs(missing) > tolerance + NOTHING_KG) return false;
  return !size.isLeast || missing <= NOTHING_KG || !canTakeMore(lines, size);
}

function canTakeMore(lines: readonly WeighedLine[], size: LoadSize): boolean {
  return lines.some(
    (line) =>
      countsIn(line, size) &&
      roundingOf(line.supply.material) === 'free' &&
      line.divisions < line.mostDivisions,
  );
}

function lostKg(line: WeighedLine): number {
  return line.wantedKg - toNumber(lineKg(line));
}
