import { type MixLine, testedMix } from '../correct/tested-mix.ts';
import { type Step, type StepOf, stepsOf } from './batch.ts';
import { linesOf, type Supplies, standingWeighings, weighedMix } from './weighing.ts';

/**
 * What is in the batch by the best that is known: the whole by a test of the whole; without one, each load by its own
 * test, or as its lots say. A test counts until something is weighed in after it.
 */
export function foundMix(steps: readonly Step[], supplies: Supplies): readonly MixLine[] {
  const whole = weighedMix(steps, supplies);
  const tested = testOf(steps, undefined);
  if (tested) return testedMix(whole, tested.body.fatFraction) ?? whole;
  return loadsOf(steps).flatMap((load): readonly MixLine[] => {
    const lines = weighedMix(steps, supplies, load);
    const test = testOf(steps, load);
    return (test && testedMix(lines, test.body.fatFraction)) ?? lines;
  });
}

/** The test that counts, of one load or of the whole batch. */
export function testOf(steps: readonly Step[], load: number | undefined): StepOf<'tested'> | undefined {
  const changed = standingWeighings(steps)
    .filter(({ body }) => load === undefined || body.load === load)
    .at(-1);
  return stepsOf(steps, 'tested')
    .filter(({ number, body }) => body.load === load && number > (changed?.number ?? 0))
    .at(-1);
}

function loadsOf(steps: readonly Step[]): number[] {
  return [...new Set(linesOf(steps).flatMap(({ loads }) => loads))].sort((a, b) => a - b);
}
