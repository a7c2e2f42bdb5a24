import { divisionKg, printedWeight } from '../batch/scale.ts';
import { exact, multiply, toNumber } from '../exact.ts';
import { chooseScale } from '../formulate/scales.ts';
import type { Engine } from '../solver/model.ts';
import type { Attempt } from './attempt.ts';
import type { TakeOut } from './correction.ts';
import type { Job, MixProblem } from './model.ts';
import { attemptSurely } from './surely.ts';
import { type MixLine, mixKg } from './tested-mix.ts';
import { largestShare } from './why.ts';

/** A rest smaller than this share of the mix is no rest worth bringing back. */
const LEAST_REST = 0.05;
/** Divisions more that are taken out where the rest cannot be weighed right at once. */
const EXTRA = [0, 1, 2, 4, 8, 16, 32, 64] as const;
/** What stays in is reckoned to the microgram: no scale shows less. */
const DIGITS = 9;

export interface TakenOut extends Omit<TakeOut, 'afterwards'> {
  readonly problem: MixProblem;
  readonly done: Exclude<Attempt, { kind: 'none' | 'not weighable' }>;
}

/**
 * The least that has to come out of the mixer, on a scale of the plant, so that the rest can be brought back within
 * the mixer and the lots. It is offered only where the rest was worked out to the end.
 */
export function takeOut(
  job: Job,
  problem: MixProblem,
  inMixer: readonly MixLine[],
  engines: readonly Engine[],
): TakenOut | undefined {
  const share = largestShare(problem, engines);
  if (share < LEAST_REST) return undefined;
  const totalKg = toNumber(mixKg(inMixer));
  const scale = chooseScale(totalKg * (1 - share), job.plant.scales);
  const division = divisionKg(scale);
  const least = Math.max(1, Math.ceil((totalKg * (1 - share)) / toNumber(division) - 1e-6));
  for (const extra of EXTRA) {
    const divisions = least + extra;
    const massKg = toNumber(multiply(division, exact(divisions)));
    if (massKg > totalKg * (1 - LEAST_REST)) return undefined;
    const rest = restOf(inMixer, 1 - massKg / totalKg);
    const tried = attemptSurely(job, rest, engines);
    if (!tried || tried.found.kind === 'none' || tried.found.kind === 'not weighable') continue;
    const { problem: smaller, found: done } = tried;
    return { weight: printedWeight(scale, divisions), massKg, rest, problem: smaller, done };
  }
  return undefined;
}

function restOf(inMixer: readonly MixLine[], share: number): MixLine[] {
  return inMixer.map(({ supply, massKg }) => ({
    supply,
    massKg: exact(Number((toNumber(massKg) * share).toFixed(DIGITS))),
  }));
}
