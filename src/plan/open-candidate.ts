import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import { exact, toNumber, ZERO } from '../exact.ts';
import { type BatchModel, batchModel, MOST_BATCH_KG, withRows } from '../formulate/batch-model.ts';
import { certainLimits, chanceRows, solveSurely } from '../formulate/certainty.ts';
import { checkProcess } from '../formulate/check-process.ts';
import { type Choice, chooseSupplies, hasPlace } from '../formulate/choose-supplies.ts';
import { missingFigure, rulesOn } from '../formulate/prepare.ts';
import type { Issue } from '../formulate/request.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { missingFigures } from '../rules/eligibility.ts';
import { FORMS } from '../rules/forms.ts';
import type { ChanceRow } from '../solver/chance.ts';
import type { Engine } from '../solver/model.ts';
import type { Candidate, UsePlanRequest } from './use-plan.ts';

/** A product with what may go into it and its rows, which leave its amount free. */
export interface OpenCandidate extends Candidate {
  readonly choice: Choice;
  readonly coefficients: Coefficients;
  /** Row 0 holds the raw weight between nothing and the most a plant handles; every other row is a ratio. */
  readonly model: BatchModel;
  readonly chances: readonly ChanceRow[];
  /** Finished kilograms from a kilogram of each supply. */
  readonly finishedPerKg: readonly number[];
  /** Finished kilograms that everything on hand would make, were nothing else made. */
  readonly largestKg: number;
}

/** A product that cannot be made at all, and why. */
export interface ClosedCandidate extends Candidate {
  readonly issues: readonly Issue[];
  readonly choice?: Choice;
}

/** What may go into a product and under which limits, chosen as for one batch of it alone. */
export function openCandidate(
  candidate: Candidate,
  request: UsePlanRequest,
): OpenCandidate | ClosedCandidate {
  const { product, standard } = candidate;
  const { supplies, date, plant, engines, houseRules = NO_HOUSE_RULES } = request;
  const { limits } = rulesOn({ product, standard, date, houseRules });
  const processIssues = checkProcess(product, standard);
  if (processIssues.length > 0) return { ...candidate, issues: processIssues };
  const placed = supplies.filter((supply) => hasPlace(supply, product));
  const missing = missingFigures(limits, placed, product.process);
  if (missing.length > 0) {
    return { ...candidate, issues: missing.map(missingFigure) };
  }
  const choice = chooseSupplies(supplies, product, limits, date);
  if (choice.issues.length > 0) return { ...candidate, issues: choice.issues, choice };
  const coefficients = new Coefficients(choice.usable, product.process);
  const size = { form: FORMS.formula, massKg: MOST_BATCH_KG, isLeast: false };
  const model = withFreeSize(batchModel(coefficients, product, limits, size));
  const certain = certainLimits({
    product,
    standard,
    supplies,
    houseRules,
    date,
    plant,
    engines,
    size: { by: 'total', massKg: MOST_BATCH_KG },
  });
  const open = {
    ...candidate,
    choice,
    coefficients,
    model,
    chances: chanceRows(certain, model, coefficients),
    finishedPerKg: coefficients.of(FORMS.finished).map(toNumber),
  };
  return { ...open, largestKg: largestOf(open, engines) };
}

/** The row that fixes the size of a batch, as a row that only keeps it within what a plant handles. */
function withFreeSize(model: BatchModel): BatchModel {
  const [size, ...others] = model.rows;
  const [exactSize, ...exactOthers] = model.exact.rows;
  if (!size || !exactSize) return model;
  return {
    ...model,
    rows: [{ ...size, lower: 0 }, ...others],
    exact: { ...model.exact, rows: [{ ...exactSize, lower: ZERO }, ...exactOthers] },
  };
}

type Sized = Omit<OpenCandidate, 'largestKg'>;

function largestOf({ model, chances, finishedPerKg }: Sized, engines: readonly Engine[]): number {
  const { outcome } = solveSurely(
    withCosts(model, (column) => -(finishedPerKg[column] ?? 0)),
    chances,
    engines,
  );
  return outcome.status === 'optimal' ? Math.max(0, -outcome.cost) : 0;
}

/** What a finished kilogram costs at least when so much is made of the product alone; undefined when it cannot be. */
export function leastCostPerKg(
  { model, chances, finishedPerKg }: OpenCandidate,
  finishedKg: number,
  costOf: (column: number) => number,
  engines: readonly Engine[],
): number | undefined {
  const wanted = exact(Number(finishedKg.toPrecision(12)));
  const terms = finishedPerKg.map((perKg, column) => ({ column, coefficient: exact(perKg) }));
  const sized = withRows(withCosts(model, costOf), [
    { row: { name: 'finished', lower: wanted, upper: wanted, terms } },
  ]);
  const { outcome } = solveSurely(sized, chances, engines);
  return outcome.status === 'optimal' ? outcome.cost / finishedKg : undefined;
}

function withCosts(model: BatchModel, costOf: (column: number) => number): BatchModel {
  const costs = model.columns.map((_, column) => exact(costOf(column)));
  return {
    ...model,
    columns: model.columns.map((column, index) => ({ ...column, cost: toNumber(costs[index] ?? ZERO) })),
    exact: {
      ...model.exact,
      columns: model.exact.columns.map((column, index) => ({ ...column, cost: costs[index] ?? ZERO })),
    },
  };
}
