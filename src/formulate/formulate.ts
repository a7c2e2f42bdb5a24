import type { Product } from '../batch/product.ts';
import { type Exact, exact, toNumber, ZERO } from '../exact.ts';
import { toRow } from '../solver/exact-model.ts';
import type { Engine } from '../solver/model.ts';
import { type Priced, solvePriced } from '../solver/prices.ts';
import { KILOGRAMS_PER } from '../units.ts';
import { type BatchModel, type SizeRow, withRows } from './batch-model.ts';
import type { Formulation } from './blend.ts';
import { certaintyOf, solveSurely } from './certainty.ts';
import { asksForWholes, type ChosenLots, canCount, cannotCount } from './choose-lots.ts';
import { chooseSurely } from './choose-surely.ts';
import { describeBlend } from './describe-blend.ts';
import { narrowSupplies } from './narrow.ts';
import { noChoice, whyNoBlend, whyNotWeighable } from './no-blend.ts';
import { olderFirst } from './older-first.ts';
import { type Problem, prepare, problemOf, type Ready } from './prepare.ts';
import { proveCost, proveNone } from './proof.ts';
import type { FloorWishes, FormulationRequest, Issue } from './request.ts';
import type { WeighedLine } from './round.ts';
import { isRight } from './settle.ts';
import { settleSurely } from './settle-surely.ts';
import { worthOf } from './worth.ts';

/**
 * The least-cost blend of a product from what is on hand, rounded to what the plant's scales can weigh and
 * checked again, exactly, on those weights. Or why there is none.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function formulate(request: FormulationRequest): Formulation {
  const prepared = prepare(request);
  return prepared.ok ? blendFrom(request, prepared.ready) : refused(prepared.issues);
}

function blendFrom(request: FormulationRequest, ready: Ready): Formulation {
  const { product, plant, engines, wishes = {} } = request;
  const { limits, switchedOff, leftOut, certain } = ready;
  const asked = problemOf(request, ready);
  const isWhole = asksForWholes(wishes, asked.coefficients);
  if (isWhole && !canCount(engines)) return refused([cannotCount(engines, ['floor'])]);
  const isLoose = (wishes.sizeWithin ?? 0) > 0;
  // Where the size may give a little, lots are chosen before it is known what the batch will weigh.
  const early = isLoose ? chooseSurely(asked.model, asked, wishes, engines)?.chosen : undefined;
  const whole = early ? problemOf(request, { ...ready, size: sizeOfChoice(early, asked) }) : asked;
  const { size } = whole;
  const best =
    isLoose && !early
      ? solveSurely(withLooseSize(asked, wishes), asked.chances, engines)
      : solveSurely(whole.model, whole.chances, engines);
  if (best.outcome.status !== 'optimal') {
    return {
      outcome: 'no blend',
      because: whyNoBlend(best.model, whole.coefficients, size, plant.units, engines),
      leftOut,
      proven: proveNone(best.model, engines),
    };
  }
  const optimum = best.outcome;
  const choice = early ?? (isWhole ? chooseSurely(best.model, whole, wishes, engines)?.chosen : undefined);
  if (!choice && (isWhole || isLoose)) {
    return { outcome: 'no blend', because: [noChoice(wishes, ready.usable)], leftOut, proven: false };
  }
  const narrowed = choice && narrow(request, choice, whole, ready);
  const work = narrowed ?? whole;
  const start = narrowed ? solveSurely(narrowed.model, narrowed.chances, engines) : best;
  if (start.outcome.status !== 'optimal') {
    return { outcome: 'no blend', because: [noChoice(wishes, ready.usable)], leftOut, proven: false };
  }
  const leastCost = choice?.leastCost ?? optimum.cost;
  const preferred = preferOlder(start.model, start.outcome, work, wishes, leastCost, engines);
  const settled = settleSurely(request, preferred.model, preferred.outcome, work, limits);
  const lines = settled.lines.filter(({ divisions }) => divisions > 0);
  const unweighed = lines.length === 0 ? [nothingToWeigh()] : tooSmall(settled.lines, product);
  if (unweighed.length > 0) return refused(unweighed);
  if (!isRight(settled)) {
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
      switchedOff,
      told: {
        leftOut,
        unroundedCost: preferred.outcome.cost,
        proof: proveCost(best.model, optimum.rowPrices, massesFor(whole, work, settled.masses), size.form),
        certainty: certaintyOf(limits, certain, work.coefficients, settled.masses),
        ...(whole.chances.length > 0 && {
          costOfCertainty: costOfCertainty(whole.model, optimum.cost, engines),
        }),
        ...(choice && { choice: { reportedLeastCost: choice.reportedLeastCost, cost: choice.leastCost } }),
        ...(wishes.olderFirstWithin !== undefined && {
          costOfOlderFirst: Math.max(0, preferred.outcome.cost - leastCost),
        }),
        // What lots are worth is told of the cheapest blend: where the floor wants another, it would mislead.
        ...(request.withPrices &&
          !choice &&
          wishes.olderFirstWithin === undefined && {
            worth: worthOf({
              problem: whole,
              model: best.model,
              optimum,
              product,
              unitKg: toNumber(KILOGRAMS_PER[plant.units]),
              engines,
            }),
          }),
      },
      ...settled,
      lines,
    }),
  };
}

/** The model of a problem whose size may be anything between its two ends. */
function withLooseSize({ model, size }: Problem, { sizeWithin = 0 }: FloorWishes): BatchModel {
  const [, ...others] = model.exact.rows;
  const [row] = model.exact.rows;
  if (!row) return model;
  const loose = {
    ...row,
    lower: exact(Number((size.massKg * (1 - sizeWithin)).toPrecision(12))),
    upper: exact(Number((size.massKg * (1 + sizeWithin)).toPrecision(12))),
  };
  const rows = [loose, ...others];
  return { ...model, rows: rows.map(toRow), exact: { ...model.exact, rows } };
}

function narrow(
  request: FormulationRequest,
  chosen: ChosenLots,
  { coefficients, size }: Problem,
  ready: Ready,
): Problem {
  const { plant, wishes = {} } = request;
  const usable = narrowSupplies(coefficients.supplies, chosen, wishes, plant);
  return problemOf(request, { ...ready, usable, size });
}

/** The size that a choice of lots comes to. */
function sizeOfChoice({ massesKg }: ChosenLots, { coefficients, size }: Problem): SizeRow {
  const perKg = coefficients.of(size.form).map(toNumber);
  const massKg = massesKg.reduce((sum, each, column) => sum + each * (perKg[column] ?? 0), 0);
  return { ...size, massKg: Number(massKg.toPrecision(12)) };
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
  const rows = olderFirst(model, coefficients, chances, outcome.cost, within, engines);
  const older = solveSurely(withRows(model, rows), chances, engines);
  return older.outcome.status === 'optimal'
    ? { model: older.model, outcome: older.outcome }
    : { model, outcome };
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

function refused(issues: readonly Issue[]): Formulation {
  return { outcome: 'refused', issues };
}
