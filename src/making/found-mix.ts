import type { Supply } from '../batch/lot.ts';
import { type MixLine, testedMix } from '../correct/tested-mix.ts';
import { type Step, type StepOf, stepsOf } from './batch.ts';
import { exactKg, type LoadMix, mixOf } from './standing.ts';
import {
  type Floor,
  loadsOf,
  missingMix,
  mixOfWeighings,
  placesOf,
  type Supplies,
  standingWeighings,
  supplyOf,
} from './weighing.ts';

/**
 * What is in each load by the best that is known. A fat test tells of what was in when it was taken, of its load or of
 * the whole batch; what was weighed in later counts as its lots say, and what is still missing as it is planned. A test
 * of a mix that something was taken out of again tells nothing.
 */
export function foundLoads(steps: readonly Step[], floor: Floor): LoadMix[] {
  const places = placesOf(steps, floor);
  return loadsOf(steps)
    .map((load) => ({
      load,
      lines: [...weighedAndTested(steps, load, floor.supplies), ...missingMix(places, load, floor.supplies)],
    }))
    .filter(({ lines }) => lines.length > 0);
}

/** What was weighed in so far, by the best that is known of it. */
export function foundSoFar(steps: readonly Step[], supplies: Supplies): LoadMix[] {
  return loadsOf(steps)
    .map((load) => ({ load, lines: weighedAndTested(steps, load, supplies) }))
    .filter(({ lines }) => lines.length > 0);
}

function weighedAndTested(steps: readonly Step[], load: number, supplies: Supplies): MixLine[] {
  const all = standingWeighings(steps);
  const weighings = all.filter(({ body }) => body.load === load);
  const test = testsOf(steps, load).at(-1);
  if (!test) return mixOfWeighings(weighings, supplies);
  const tested = all.filter(
    ({ number, body }) =>
      number < test.number && (test.body.load === undefined || body.load === test.body.load),
  );
  const found = testedMix(mixOfWeighings(tested, supplies), test.body.fatFraction) ?? [];
  const known = new Map<string, Supply>(found.map(({ supply }) => [supply.id, supply]));
  const before = weighings.filter(({ number }) => number < test.number);
  const later = weighings.filter(({ number }) => number > test.number);
  return [
    ...mixOf(
      before.map(({ body }) => {
        const supply = supplyOf(body, supplies);
        return { supply: known.get(supply.id) ?? supply, massKg: exactKg(body.weight) };
      }),
    ),
    ...mixOfWeighings(later, supplies),
  ];
}

/** Tests that tell of a load, of it alone or of the whole batch, whose mix is still all there. */
export function testsOf(steps: readonly Step[], load: number): StepOf<'tested'>[] {
  const loads = new Map(stepsOf(steps, 'weighing').map(({ number, body }) => [number, body.load]));
  const takenOut = stepsOf(steps, 'taken back');
  return stepsOf(steps, 'tested').filter(({ number, body }) => {
    const isAbout = (other: number | undefined) => body.load === undefined || other === body.load;
    return (
      isAbout(load) &&
      !takenOut.some(
        (step) => step.number > number && step.body.step < number && isAbout(loads.get(step.body.step)),
      )
    );
  });
}

/** The test of a load as it is now: nothing was weighed into it since. */
export function testOf(steps: readonly Step[], load: number): StepOf<'tested'> | undefined {
  const last = standingWeighings(steps)
    .filter(({ body }) => body.load === load)
    .at(-1);
  return testsOf(steps, load)
    .filter(({ number }) => number > (last?.number ?? 0))
    .at(-1);
}
