import { isMeat } from '../batch/material.ts';
import { printedWeight } from '../batch/scale.ts';
import { sum, toNumber } from '../exact.ts';
import type { BlendLine, LeftOut } from '../formulate/blend.ts';
import { lineKg, type WeighedLine } from '../formulate/round.ts';
import type { Applied } from '../rules/house-rules.ts';
import type { Attempt } from './attempt.ts';
import { additionCautions, farTest, waitingCautions } from './cautions.ts';
import { mixMasses, standing } from './check.ts';
import type { Additions, Right, TakeOut } from './correction.ts';
import type { MixProblem } from './model.ts';
import type { TakenOut } from './take-out.ts';
import type { MixLine } from './tested-mix.ts';

/** The mix as its test says it is, and how it stands. */
export function right(problem: MixProblem, inMixer: readonly MixLine[], applied: Applied): Right {
  return {
    mix: problem.mix.map((line, index) => ({
      ...line,
      saidFatFraction: inMixer[index]?.supply.composition.fatFraction ?? 0,
    })),
    before: standing(problem, mixMasses(problem)),
    cautions: [...farTest(inMixer, problem), ...waitingCautions(inMixer, applied)],
  };
}

/** What goes in, and how the whole stands then. */
export function additions(
  problem: MixProblem,
  inMixer: readonly MixLine[],
  applied: Applied,
  leftOut: readonly LeftOut[],
  { lines, masses, unroundedCost }: Extract<Attempt, { kind: 'additions' }>,
): Additions {
  const described = additionLines(lines);
  const before = right(problem, inMixer, applied);
  return {
    ...before,
    after: standing(problem, masses),
    lines: described,
    roomLeftKg: problem.capacityKg - toNumber(sum(masses)),
    cost: described.reduce((total, { cost }) => total + cost, 0),
    unroundedCost,
    leftOut,
    cautions: [...before.cautions, ...additionCautions(inMixer, described)],
  };
}

/** Lines as they are printed: meat first, each from heavy to light. */
export function additionLines(lines: readonly WeighedLine[]): BlendLine[] {
  return lines.map(additionLine).sort(meatFirst);
}

function additionLine(line: WeighedLine): BlendLine {
  const exactMassKg = lineKg(line);
  const massKg = toNumber(exactMassKg);
  return {
    supply: line.supply,
    weight: printedWeight(line.scale, line.divisions),
    massKg,
    exactMassKg,
    cost: massKg * line.supply.costPerKg,
  };
}

function meatFirst(a: BlendLine, b: BlendLine): number {
  const place = ({ supply }: BlendLine) => (isMeat(supply.material) ? 0 : 1);
  return place(a) - place(b) || b.massKg - a.massKg || (a.supply.id < b.supply.id ? -1 : 1);
}

/** What comes out, and what is then to be done. */
export function takenOut(
  { weight, massKg, rest, problem, done }: TakenOut,
  applied: Applied,
  leftOut: readonly LeftOut[],
): TakeOut {
  const afterwards =
    done.kind === 'right'
      ? ({ outcome: 'right as it is', ...right(problem, rest, applied) } as const)
      : ({ outcome: 'additions', ...additions(problem, rest, applied, leftOut, done) } as const);
  return { weight, massKg, rest, afterwards };
}
