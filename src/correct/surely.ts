import { toNumber, ZERO } from '../exact.ts';
import type { Engine } from '../solver/model.ts';
import { type Attempt, attempt } from './attempt.ts';
import { type Job, type MixProblem, mixProblem } from './model.ts';
import { type MixLine, mixKg } from './tested-mix.ts';

/** Rounds of counting in what the additions are uncertain by; a few are usual. */
const MOST_ROUNDS = 40;
/** A hair more each round, so that the rounds end. */
const MORE = 1.001;

/** An attempt at one mix, with the problem that it was made on. */
export interface SureAttempt {
  readonly problem: MixProblem;
  readonly found: Attempt;
}

/**
 * Brings a mix back so that it holds with the confidence asked, though both the test and the fat of what is added are
 * uncertain: sd² of the whole = (sd of the test × mix)² + Σ (sd of the lot × its weight)². What the additions bring
 * is not known before they are, so the mix is taken as that much less certain and tried again. Undefined where the
 * meat cannot have the fat that was found.
 */
export function attemptSurely(
  job: Job,
  inMixer: readonly MixLine[],
  engines: readonly Engine[],
): SureAttempt | undefined {
  const inKg = toNumber(mixKg(inMixer));
  let { sdFraction } = job.test;
  for (let round = 1; ; round++) {
    const problem = mixProblem(job, inMixer, sdFraction);
    if (!problem) return undefined;
    const found = attempt(problem, engines);
    if (job.z === undefined || found.kind !== 'additions') return { problem, found };
    const added = problem.additions.reduce((sum, { fat }, index) => {
      const massKg = toNumber(found.masses[problem.mix.length + index] ?? ZERO);
      return sum + ((fat?.sdFraction ?? 0) * massKg) ** 2;
    }, 0);
    const neededFraction = Math.sqrt((job.test.sdFraction * inKg) ** 2 + added) / inKg;
    if (neededFraction <= sdFraction) return { problem, found };
    if (round === MOST_ROUNDS) return { problem, found: { kind: 'none' } };
    sdFraction = neededFraction * MORE;
  }
}
