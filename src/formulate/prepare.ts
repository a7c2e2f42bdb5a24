import { type CertainLimit, NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { missingFigures } from '../rules/eligibility.ts';
import { type Applied, applyHouseRules } from '../rules/house-rules.ts';
import { inForceOn, type Limit, shownBound, sourceOf } from '../rules/limit.ts';
import { MASS_BALANCE } from '../rules/mass-balance.ts';
import type { ChanceRow } from '../solver/chance.ts';
import { type BatchModel, batchModel, MOST_BATCH_KG, type SizeRow, sizeOf } from './batch-model.ts';
import type { LeftOut } from './blend.ts';
import { certainLimits, chanceRows, unknownCertainLimits } from './certainty.ts';
import { checkProcess } from './check-process.ts';
import { chooseSupplies, hasPlace } from './choose-supplies.ts';
import { houseLimits } from './house-limits.ts';
import type { FormulationRequest, Issue } from './request.ts';

/** A request that can be worked on: what holds, how big, and what may go in. */
export interface Ready extends Applied {
  readonly size: SizeRow;
  readonly usable: readonly Supply[];
  readonly leftOut: readonly LeftOut[];
  readonly certain: readonly CertainLimit[];
}

export type Prepared =
  | { readonly ok: true; readonly ready: Ready }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Every limit of a product on a day, of the law, of nature and of the house, and what the house has switched off. */
export function rulesOn({
  product,
  standard,
  date,
  houseRules = NO_HOUSE_RULES,
}: Pick<FormulationRequest, 'product' | 'standard' | 'date' | 'houseRules'>): Applied {
  const { limits, switchedOff } = applyHouseRules(inForceOn(standard.limits, date), houseRules, product);
  return { limits: [...limits, ...MASS_BALANCE, ...houseLimits(product, standard)], switchedOff };
}

/** Looks a request over: everything that is wrong with it, or what there is to work with. */
export function prepare(request: FormulationRequest): Prepared {
  const { product, standard, date } = request;
  const { limits: held, switchedOff } = rulesOn(request);
  const limits = held.map((limit) => instead(limit, request));
  const processIssues = checkProcess(product, standard);
  if (processIssues.length > 0) return refused(processIssues);
  const size = sizeOf(request.size, product);
  if (!size) return refused([noPieceWeight()]);
  if (size.massKg > MOST_BATCH_KG) return refused([tooBig(size.massKg)]);
  const placed = request.supplies.filter((supply) => hasPlace(supply, product));
  const missing = missingFigures(limits, placed, product.process);
  if (missing.length > 0) return refused(missing.map(missingFigure));
  const { usable, leftOut, issues } = chooseSupplies(request.supplies, product, limits, date);
  if (issues.length > 0) return refused(issues);
  const unknown = unknownCertainLimits(request, limits);
  if (unknown.length > 0) return refused(unknown);
  const certain = certainLimits(request);
  return { ok: true, ready: { limits, switchedOff, size, usable, leftOut, certain } };
}

/** A limit of the house with the bound that is tried in place of its own; the law stays as it is. */
function instead(limit: Limit, { insteadOf = [] }: FormulationRequest): Limit {
  const other = limit.authority === 'house' && insteadOf.find(({ limitId }) => limitId === limit.id);
  if (!other) return limit;
  const { bound } = other;
  return { ...limit, bound, says: `${limit.says} Tried here: ${shownBound({ ...limit, bound })}.` };
}

/** What one list of supplies makes of the request. */
export interface Problem {
  readonly coefficients: Coefficients;
  readonly size: SizeRow;
  readonly model: BatchModel;
  readonly chances: readonly ChanceRow[];
}

/** The linear problem of a request that was found usable. */
export function problemOf(
  { product }: FormulationRequest,
  { usable, limits, certain, size }: Ready,
): Problem {
  const coefficients = new Coefficients(usable, product.process);
  const model = batchModel(coefficients, product, limits, size);
  return { coefficients, size, model, chances: chanceRows(certain, model, coefficients) };
}

function refused(issues: readonly Issue[]): Prepared {
  return { ok: false, issues };
}

function tooBig(massKg: number): Issue {
  return {
    code: 'too-big',
    path: ['batchSize'],
    message: `The batch would weigh ${massKg.toPrecision(4)} kg, beyond what a plant handles. Make at most ${MOST_BATCH_KG} kg.`,
  };
}

function noPieceWeight(): Issue {
  return {
    code: 'no-piece-weight',
    path: ['batchSize', 'pieces'],
    message:
      'The product has no weight of one piece. Give form.pieceMass in the product, or ask for a batch by weight.',
  };
}

export function missingFigure({ missing, limit }: ReturnType<typeof missingFigures>[number]): Issue {
  const { materialId, constituent } = missing;
  return {
    code: 'missing-figure',
    path: ['product'],
    message: `The ${constituent} of ${materialId} is not known, and a limit needs it (${limit.says} ${sourceOf(limit)}). Add the figure to its table, or leave its lots out of the batch.`,
  };
}
