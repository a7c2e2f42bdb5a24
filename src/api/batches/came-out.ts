import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { costsPerKg, type Outcome, processAsFound, yieldFraction } from '../../making/finish.ts';
import { weightUg } from '../../making/standing.ts';
import { putIn } from '../../making/weighing.ts';
import { massText } from '../../units.ts';
import type { Finish } from './contract.ts';
import type { OpenedBatch } from './opened.ts';

/** What came out, with what follows from it. */
export interface CameOut {
  readonly outcome: Outcome;
  /** Finished over raw weight. */
  readonly found: number;
  readonly process: OpenedBatch['basis']['product']['process'];
  readonly costs: ReturnType<typeof costsPerKg>;
}

/** @throws Refused when nothing went through the process. */
export function cameOut({ steps, supplies, basis }: OpenedBatch, request: Finish): CameOut {
  const { cost, massUg: weighedUg } = putIn(steps, supplies);
  const parts = (given: Finish['rework'] | Finish['discarded']) =>
    given.map(({ stage, weight }) => ({ stage, massUg: weightUg(weight) }));
  const outcome: Outcome = {
    weighedUg,
    outputUg: weightUg(request.output.weight),
    rework: parts(request.rework),
    discarded: parts(request.discarded),
  };
  const found = yieldFraction(outcome);
  if (found === undefined) {
    const all = massText(kilogramsOfMicrograms(weighedUg), basis.plant.units);
    throw new Refused(
      'unfit',
      `More is taken out raw than the ${all} that were weighed in, so nothing is left for the product. Weigh it again.`,
      ['rework'],
    );
  }
  return {
    outcome,
    found,
    process: processAsFound(basis.product.process, found),
    costs: costsPerKg(cost, outcome),
  };
}
