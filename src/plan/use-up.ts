import { availableKg, type Supply } from '../batch/lot.ts';
import { MOST_BATCH_KG } from '../formulate/batch-model.ts';
import type { Blend, Formulation } from '../formulate/blend.ts';
import type { Issue } from '../formulate/request.ts';
import { massText } from '../units.ts';
import { countedCostPerKg, type JointModel, jointModel, massesOf } from './joint-model.ts';
import { canTake, lotsLeftOut, lotUses } from './lots-of-plan.ts';
import { type ClosedCandidate, type OpenCandidate, openCandidate } from './open-candidate.ts';
import { requestIssues } from './request-issues.ts';
import { bestPlan, oldestFirst, worthOfLots } from './solve-plan.ts';
import {
  type LotUse,
  type PlanIssue,
  type PlannedProduct,
  USUAL_WITHIN,
  type UsePlan,
  type UsePlanRequest,
  type Weighed,
} from './use-plan.ts';
import { type Share, weighPlan } from './weigh-plan.ts';
import { CRUMB_KG, whyNotMade } from './why-not-made.ts';

/**
 * What to make of the lots on hand: which of the products, how much of each and from which lots, for the best margin
 * or with the oldest lots first; every batch then really formulated, rounded to the plant's scales and checked.
 * Margin is what the finished product sells for less what goes in, lots at their cost unless they count as sunk.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function planUse(request: UsePlanRequest): UsePlan {
  const wrong = requestIssues(request);
  if (wrong.length > 0) return { outcome: 'refused', issues: wrong };
  const candidates = request.candidates.map((candidate) => openCandidate(candidate, request));
  const open = candidates.flatMap((candidate) => ('issues' in candidate ? [] : [candidate]));
  if (open.length === 0) return { outcome: 'refused', issues: candidates.flatMap(issuesAt) };
  return planOf(candidates, open, request);
}

function planOf(
  candidates: readonly (OpenCandidate | ClosedCandidate)[],
  open: readonly OpenCandidate[],
  request: UsePlanRequest,
): UsePlan {
  const { supplies, engines, aim, withinFraction = USUAL_WITHIN, lotsAreSunk = false } = request;
  const joint = jointModel(open, supplies, lotsAreSunk);
  const best = bestPlan(joint, engines);
  const plan = aim === 'margin' ? best : oldestFirst(joint, best, withinFraction, supplies, engines);
  const shares = sharesOf(joint, plan.values);
  const notMade = candidates
    .filter(({ product }) => !shares.some(({ candidate }) => candidate.product === product))
    .map((candidate) => whyNotMade(candidate, request));
  const leftOut = lotsLeftOut(supplies, candidates);
  if (shares.length === 0) return { outcome: 'nothing to make', notMade, leftOut };
  const formulations = weighPlan(shares, request);
  const products = shares.map((share, index) =>
    plannedProduct(share, formulations[index] as Formulation, lotsAreSunk),
  );
  const blends = products.flatMap(({ weighed }) => weighed.blend ?? []);
  const lots = lotUses(
    supplies.filter(({ id, lot }) => lot && candidates.some((candidate) => canTake(candidate, id))),
    (id) => (joint.columnsOf.get(id) ?? []).reduce((sum, column) => sum + (plan.values[column] ?? 0), 0),
    blends,
    worthOfLots(joint, best, engines),
    request.date,
  );
  return {
    outcome: 'plan',
    products,
    notMade,
    lots,
    leftOut,
    bestMargin: best.margin,
    plannedMargin: plan.margin,
    printedMargin: products.reduce((sum, { weighed }) => sum + (weighed.blend ? weighed.margin : 0), 0),
    cautions: cautionsOf(products, lots, request),
  };
}

/** What is planned of each product, crumbs left out. */
function sharesOf(joint: JointModel, values: readonly number[]): Share[] {
  return joint.products.flatMap((product): Share[] => {
    const { candidate, first } = product;
    const masses = massesOf(product, values);
    const rawKg = masses.reduce((sum, massKg) => sum + massKg, 0);
    if (rawKg <= CRUMB_KG) return [];
    const finishedKg = masses.reduce(
      (sum, massKg, index) => sum + massKg * (candidate.finishedPerKg[index] ?? 0),
      0,
    );
    const margin = -masses.reduce(
      (sum, massKg, index) => sum + massKg * (joint.columns[first + index]?.cost ?? 0),
      0,
    );
    const massesKg = new Map(
      candidate.coefficients.supplies.map(({ id }, index) => [id, masses[index] ?? 0]),
    );
    return [{ candidate, amount: { rawKg, finishedKg, margin }, massesKg }];
  });
}

function plannedProduct(
  { candidate: { product, standard, pricePerKg }, amount }: Share,
  formulation: Formulation,
  lotsAreSunk: boolean,
): PlannedProduct {
  return {
    product,
    standard,
    pricePerKg,
    planned: amount,
    weighed: weighedOf(formulation, pricePerKg, lotsAreSunk),
  };
}

function weighedOf(formulation: Formulation, pricePerKg: number, lotsAreSunk: boolean): Weighed {
  if (formulation.outcome === 'blend') {
    const { blend } = formulation;
    return { blend, margin: pricePerKg * blend.finishedKg - countedCost(blend, lotsAreSunk) };
  }
  const why = formulation.outcome === 'refused' ? formulation.issues : formulation.because;
  return { because: why.map(({ message }) => message) };
}

function countedCost({ lines }: Blend, lotsAreSunk: boolean): number {
  return lines.reduce((sum, { supply, massKg }) => sum + massKg * countedCostPerKg(supply, lotsAreSunk), 0);
}

/** Every reason why nothing can be made, at its place in the request. */
function issuesAt(candidate: OpenCandidate | ClosedCandidate, index: number): PlanIssue[] {
  if (!('issues' in candidate)) return [];
  return candidate.issues.map((issue: Issue) => ({
    ...issue,
    path: issue.path[0] === 'product' ? ['products', index, ...issue.path] : ['products', index, 'product'],
  }));
}

/** A lot of which something is left this many days before its use-by date or later is worth a word. Own judgement. */
const LAST_DAYS = 1;

function cautionsOf(
  products: readonly PlannedProduct[],
  lots: readonly LotUse[],
  { lotsAreSunk, plant: { units } }: UsePlanRequest,
): string[] {
  const endless = products
    .filter(({ planned }) => planned.rawKg >= MOST_BATCH_KG * (1 - 1e-6))
    .map(
      ({ product }) =>
        `${product.name}: nothing on hand ends how much of it is made; say how much can be sold.`,
    );
  const unweighed = products.flatMap(({ product, planned, weighed }) =>
    weighed.because
      ? [
          `${product.name}: ${massText(planned.rawKg, units)} are planned but cannot be weighed as planned: ${weighed.because.join(' ')}`,
        ]
      : [],
  );
  const expiring = lots
    .filter(({ daysToUseBy, leftKg, supply }) => isNearItsEnd(daysToUseBy) && isWorthAWord(leftKg, supply))
    .map(
      ({ supply: { id, lot }, leftKg }) =>
        `Of lot ${id} ${massText(leftKg, units)} are left, to be used by ${lot?.useByDate}: sell them as they are, or give a product that takes them.`,
    );
  const sunk = lotsAreSunk
    ? [
        'The lots count as costing nothing: the margin is not what the batches earn over what was paid for them.',
      ]
    : [];
  return [...unweighed, ...endless, ...expiring, ...sunk];
}

function isNearItsEnd(daysToUseBy: number | undefined): boolean {
  return daysToUseBy !== undefined && daysToUseBy <= LAST_DAYS;
}

/** Less of a lot than this share is what scales leave. */
const REST_SHARE = 0.01;

function isWorthAWord(leftKg: number, supply: Supply): boolean {
  return leftKg > REST_SHARE * availableKg(supply);
}
