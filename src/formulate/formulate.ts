import type { CertainLimit } from '../batch/house-rules.ts';
import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { divisionKg } from '../batch/scale.ts';
import { type Exact, toNumber, ZERO } from '../exact.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { missingFigures } from '../rules/eligibility.ts';
import { type Applied, applyHouseRules } from '../rules/house-rules.ts';
import { inForceOn, type Limit, sourceOf } from '../rules/limit.ts';
import { MASS_BALANCE } from '../rules/mass-balance.ts';
import type { ChanceRow } from '../solver/chance.ts';
import type { Engine } from '../solver/model.ts';
import { type Priced, solvePriced } from '../solver/prices.ts';
import { type BatchModel, batchModel, MOST_BATCH_KG, type SizeRow, sizeOf, withRows } from './batch-model.ts';
import type { Formulation } from './blend.ts';
import {
  certainLimits,
  certaintyOf,
  chanceRows,
  missesMargin,
  solveSurely,
  unknownCertainLimits,
  withCutsAt,
  withMissedMargins,
} from './certainty.ts';
import { checkProcess } from './check-process.ts';
import { asksForWholes, type ChosenLots, chooseLots } from './choose-lots.ts';
import { type Choice, chooseSupplies, hasPlace } from './choose-supplies.ts';
import { describeBlend } from './describe-blend.ts';
import { houseLimits } from './house-limits.ts';
import { loadSize, loadsOf } from './load-size.ts';
import { narrowSupplies } from './narrow.ts';
import { noChoice, whyNoBlend, whyNotWeighable } from './no-blend.ts';
import { olderFirst } from './older-first.ts';
import { proveCost, proveNone } from './proof.ts';
import type { FloorWishes, FormulationRequest, Issue } from './request.ts';
import { roundingOf, type WeighedLine } from './round.ts';
import { chooseScale } from './scales.ts';
import { isRight, type SettledLoad, settle } from './settle.ts';
import { type Slip, weighable } from './weighable.ts';
import { worthOf } from './worth.ts';

/**
 * The least-cost blend of a product from what is on hand, rounded to what the plant's scales can weigh and
 * checked again, exactly, on those weights. Or why there is none.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function formulate(request: FormulationRequest): Formulation {
  const { product, standard, date } = request;
  const { limits: held, switchedOff } = applyHouseRules(
    inForceOn(standard.limits, date),
    request.houseRules ?? NO_HOUSE_RULES,
    product,
  );
  const limits = [...held, ...MASS_BALANCE, ...houseLimits(product)];
  const processIssues = checkProcess(product, standard);
  if (processIssues.length > 0) return refused(processIssues);
  const size = sizeOf(request.size, product);
  if (!size) return refused([noPieceWeight()]);
  if (size.massKg > MOST_BATCH_KG) return refused([tooBig(size.massKg)]);
  const placed = request.supplies.filter((supply) => hasPlace(supply, product));
  const missing = missingFigures(limits, placed, product.process);
  if (missing.length > 0) return refused(missing.map(missingFigure));
  const choice = chooseSupplies(request.supplies, product, limits, date);
  if (choice.issues.length > 0) return refused(choice.issues);
  const unknown = unknownCertainLimits(request, limits);
  if (unknown.length > 0) return refused(unknown);
  return blendFrom(request, { limits, switchedOff }, size, choice);
}

/** What one list of supplies makes of the request. */
interface Problem {
  readonly coefficients: Coefficients;
  readonly size: SizeRow;
  readonly model: BatchModel;
  readonly chances: readonly ChanceRow[];
}

function problemOf(
  { product }: FormulationRequest,
  supplies: readonly Supply[],
  limits: readonly Limit[],
  certain: readonly CertainLimit[],
  size: SizeRow,
): Problem {
  const coefficients = new Coefficients(supplies, product.process);
  const model = batchModel(coefficients, product, limits, size);
  return { coefficients, size, model, chances: chanceRows(certain, model, coefficients) };
}

function blendFrom(
  request: FormulationRequest,
  { limits, switchedOff }: Applied,
  size: SizeRow,
  { usable, leftOut }: Choice,
): Formulation {
  const { product, plant, engines, wishes = {} } = request;
  const certain = certainLimits(request);
  const whole = problemOf(request, usable, limits, certain, size);
  const best = solveSurely(whole.model, whole.chances, engines);
  if (best.outcome.status !== 'optimal') {
    return {
      outcome: 'no blend',
      because: whyNoBlend(best.model, whole.coefficients, size, plant.units, engines),
      leftOut,
      proven: proveNone(best.model, engines),
    };
  }
  const optimum = best.outcome;
  const choice = asksForWholes(wishes, whole.coefficients)
    ? chooseSurely(best.model, whole, wishes, engines)
    : undefined;
  if (choice === 'none') return { outcome: 'no blend', because: [noChoice(wishes)], leftOut, proven: false };
  const narrowed = choice && narrow(request, choice, whole, limits, certain);
  const work = narrowed ?? whole;
  const start = narrowed ? solveSurely(narrowed.model, narrowed.chances, engines) : best;
  if (start.outcome.status !== 'optimal') {
    return { outcome: 'no blend', because: [noChoice(wishes)], leftOut, proven: false };
  }
  const preferred = preferOlder(start.model, start.outcome, work, wishes, optimum.cost, engines);
  const settled = settleSurely(request, preferred, work, limits);
  const lines = settled.lines.filter(({ divisions }) => divisions > 0);
  const unweighed = lines.length === 0 ? [nothingToWeigh()] : tooSmall(settled.lines, product);
  if (unweighed.length > 0) return refused(unweighed);
  if (!isRight(settled) || !settled.isSure) {
    return {
      outcome: 'no blend',
      because: whyNotWeighable(settled, work.size, plant.units),
      leftOut,
      proven: false,
    };
  }
  return {
    outcome: 'blend',
    blend: describeBlend({
      request,
      coefficients: work.coefficients,
      size: work.size,
      leftOut,
      switchedOff,
      unroundedCost: preferred.outcome.cost,
      proof: proveCost(best.model, optimum.rowPrices, massesFor(whole, work, settled.masses)),
      certainty: certaintyOf(limits, certain, work.coefficients, settled.masses),
      ...(whole.chances.length > 0 && {
        costOfCertainty: costOfCertainty(whole.model, optimum.cost, engines),
      }),
      ...(choice && { choice: { reportedLeastCost: choice.reportedLeastCost, cost: choice.cost } }),
      ...(request.withPrices && {
        worth: worthOf(best.model, optimum, whole.coefficients, product, engines),
      }),
      ...settled,
      lines,
    }),
  };
}

/** A choice of lots in whole numbers that holds every margin as well: a plane where it does not, and again. */
function chooseSurely(
  start: BatchModel,
  { coefficients, size, chances }: Problem,
  wishes: FloorWishes,
  engines: readonly Engine[],
): ChosenLots | 'none' {
  let model = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const chosen = chooseLots(model, coefficients, size, wishes, engines);
    if (!chosen) return 'none';
    const missed = missesMargin(model, chances, chosen.massesKg);
    if (missed.length === 0) return chosen;
    model = withCutsAt(model, missed, chosen.massesKg);
  }
  return 'none';
}

function narrow(
  request: FormulationRequest,
  chosen: ChosenLots,
  { coefficients, size }: Problem,
  limits: readonly Limit[],
  certain: readonly CertainLimit[],
): Problem {
  const { plant, wishes = {} } = request;
  const supplies = narrowSupplies(coefficients.supplies, chosen, wishes, plant);
  const perKg = coefficients.of(size.form).map(toNumber);
  const sizeKg = chosen.massesKg.reduce((sum, massKg, column) => sum + massKg * (perKg[column] ?? 0), 0);
  const isFree = (wishes.sizeWithin ?? 0) > 0;
  const chosenSize = isFree ? { ...size, massKg: Number(sizeKg.toPrecision(12)) } : size;
  return problemOf(request, supplies, limits, certain, chosenSize);
}

interface Preferred {
  readonly model: BatchModel;
  readonly outcome: Priced;
}

/** The least-cost blend, or the one that older lots are preferred in, with the rows that hold it there. */
function preferOlder(
  model: BatchModel,
  outcome: Priced,
  { coefficients, chances }: Problem,
  { olderFirstWithin }: FloorWishes,
  leastCost: number,
  engines: readonly Engine[],
): Preferred {
  if (olderFirstWithin === undefined) return { model, outcome };
  const allowed = Math.max(0, leastCost + Math.abs(leastCost) * olderFirstWithin - outcome.cost);
  const within = outcome.cost === 0 ? 0 : allowed / Math.abs(outcome.cost);
  const rows = olderFirst(model, coefficients, outcome.cost, within, engines);
  const older = solveSurely(
    withRows(
      model,
      rows.map((row) => ({ row })),
    ),
    chances,
    engines,
  );
  return older.outcome.status === 'optimal'
    ? { model: older.model, outcome: older.outcome }
    : { model, outcome };
}

/** Rounds of laying a plane where a margin is missed; one or two are usual. */
const MOST_ROUNDS = 8;

/** Weights on the scales that keep every limit and every margin, exactly. */
function settleSurely(
  request: FormulationRequest,
  preferred: Preferred,
  work: Problem,
  limits: readonly Limit[],
): SettledLoad & { readonly loads: number; readonly isSure: boolean } {
  const { engines } = request;
  let { model, outcome } = preferred;
  for (let round = 1; ; round++) {
    const settled = settleOnce(request, model, outcome.values, work, limits);
    const cut = isRight(settled) ? withMissedMargins(model, work.chances, settled.masses) : undefined;
    if (!cut) return { ...settled, isSure: true };
    const again = round < MOST_ROUNDS ? solveSurely(cut, work.chances, engines) : undefined;
    if (again?.outcome.status !== 'optimal') return { ...settled, isSure: false };
    model = again.model;
    outcome = again.outcome;
  }
}

function settleOnce(
  { product, plant, engines }: FormulationRequest,
  model: BatchModel,
  optimum: readonly number[],
  { coefficients, size }: Problem,
  limits: readonly Limit[],
): SettledLoad & { readonly loads: number } {
  const heldBackFor = (count: number) =>
    weighable(model, optimum, slips(coefficients, count, plant), engines);
  // Where only the meat is fixed, holding back for rounding may make a heavier batch than the optimum.
  const fewest = loadsOf(optimum, plant);
  const heldBackInFewest = heldBackFor(fewest);
  const loads = Math.max(fewest, loadsOf(heldBackInFewest, plant));
  const heldBack = loads === fewest ? heldBackInFewest : heldBackFor(loads);
  const settled = settle(optimum, heldBack, {
    loads,
    size: loadSize(size, loads, product.process.yieldFraction),
    scales: plant.scales,
    coefficients,
    limits,
  });
  return { ...settled, loads };
}

/** Masses of a narrower list of supplies in the places of the whole list. */
function massesFor(whole: Problem, work: Problem, masses: readonly Exact[]): Exact[] {
  if (work === whole) return [...masses];
  const byId = new Map(work.coefficients.supplies.map(({ id }, column) => [id, masses[column] ?? ZERO]));
  return whole.coefficients.supplies.map(({ id }) => byId.get(id) ?? ZERO);
}

/** What the margins add to the least cost. */
function costOfCertainty(model: BatchModel, cost: number, engines: readonly Engine[]): number {
  const without = solvePriced(model, engines);
  return without.status === 'optimal' ? Math.max(0, cost - without.cost) : 0;
}

/** What rounding to the scales may do to each line in the whole batch. */
function slips({ supplies }: Coefficients, loads: number, { scales }: Plant) {
  return (column: number, massKg: number): Slip => {
    const supply = supplies[column];
    // Whole boxes are on their weight already.
    if (supply?.boxes !== undefined) return { underKg: 0, overKg: 0 };
    const stepKg = loads * toNumber(divisionKg(chooseScale(massKg / loads, scales)));
    const rounding = supply ? roundingOf(supply.material) : 'free';
    if (rounding === 'nearest') return { underKg: stepKg / 2, overKg: stepKg / 2 };
    return { underKg: stepKg, overKg: rounding === 'free' ? stepKg : 0 };
  };
}

/** Seasonings that the product must have and that no scale of the plant can show at all. */
function tooSmall(lines: readonly WeighedLine[], { seasoning }: Product): Issue[] {
  const isAsked = ({ supply }: WeighedLine) =>
    seasoning.some(({ materialId, minFraction }) => materialId === supply.material.id && minFraction > 0);
  const isWeighed = ({ supply }: WeighedLine) =>
    lines.some((line) => line.supply.material.id === supply.material.id && line.divisions > 0);
  return lines
    .filter((line) => !isWeighed(line) && isAsked(line))
    .map(({ supply, wantedKg, scale }) => ({
      code: 'below-the-scale',
      path: ['batchSize'],
      message: `${supply.material.name} would be ${(wantedKg * 1000).toPrecision(3)} g in a load, below one division of the finest scale (${scale.division} ${scale.unit}). Make a larger batch, weigh on a finer scale, or blend the seasoning beforehand.`,
    }));
}

function nothingToWeigh(): Issue {
  return {
    code: 'below-the-scale',
    path: ['batchSize'],
    message: 'The batch is so small that no scale of the plant shows any of it. Make a larger batch.',
  };
}

function tooBig(massKg: number): Issue {
  return {
    code: 'too-big',
    path: ['batchSize'],
    message: `The batch would weigh ${massKg.toPrecision(4)} kg, beyond what a plant handles. Make at most ${MOST_BATCH_KG} kg.`,
  };
}

function refused(issues: readonly Issue[]): Formulation {
  return { outcome: 'refused', issues };
}

function noPieceWeight(): Issue {
  return {
    code: 'no-piece-weight',
    path: ['batchSize', 'pieces'],
    message:
      'The product has no weight of one piece. Give form.pieceMass in the product, or ask for a batch by weight.',
  };
}

function missingFigure({ missing, limit }: ReturnType<typeof missingFigures>[number]): Issue {
  const { materialId, constituent } = missing;
  return {
    code: 'missing-figure',
    path: ['product'],
    message: `The ${constituent} of ${materialId} is not known, and a limit needs it (${limit.says} ${sourceOf(limit)}). Add the figure to its table, or leave its lots out of the batch.`,
  };
}
