import { type Supply, supplyOfMaterial } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { forbiddenBy, missingFigures } from '../rules/eligibility.ts';
import { inShownUnit, type Limit, shownBound } from '../rules/limit.ts';
import { keepOpen } from '../solver/keep-open.ts';
import { relax } from '../solver/relax.ts';
import { fixed, inUnit, KILOGRAMS_PER, massText, percentOfFraction, pricePerUnit } from '../units.ts';
import { type BatchModel, MOST_BATCH_KG } from './batch-model.ts';
import type { Blend, Repair, RepairChange } from './blend.ts';
import { hasPlace } from './choose-supplies.ts';
import { formulate } from './formulate.ts';
import { basisForm, lineForm } from './house-limits.ts';
import { nearestIn, nearestRatio } from './least-change.ts';
import { extremeSize } from './no-blend.ts';
import { type Problem, problemOf, type Ready } from './prepare.ts';
import type { FloorWishes, FormulationRequest } from './request.ts';

/** What repairs start from: a request without a blend, looked over and put as a problem. */
export interface Stuck {
  readonly request: FormulationRequest;
  readonly ready: Ready;
  readonly problem: Problem;
  /** The problem's model with the planes that confidence needed. */
  readonly model: BatchModel;
  /** Whether the problem has a point, so that only whole boxes, few lots or the scales stand in the way. */
  readonly hasPoint: boolean;
}

/** Tries at giving a change a little more when its first figure leaves no room for the scales. */
const MOST_TRIES = 6;
const MOST_OF_A_KIND = 3;

/**
 * The least changes of each kind that lead to a blend: a target of the house, several of them together, so much of a
 * material to buy, a smaller batch, less confidence, a demand or a wish taken back. Each is formulated in full and
 * offered only when a blend comes out that keeps every limit on printed weights. The law is never relaxed.
 */
export function repairsFor(stuck: Stuck): Repair[] {
  // Where a blend exists and only the choice of lots or the scales stand in the way, no target is to blame.
  if (stuck.hasPoint) return [...demandRepairs(stuck), ...wishRepairs(stuck), ...roomierRepairs(stuck)];
  const single = targetRepairs(stuck);
  return [
    ...single,
    ...(single.length === 0 ? togetherRepairs(stuck) : []),
    ...rateRepairs(stuck),
    ...confidenceRepairs(stuck),
    ...demandRepairs(stuck),
    ...wishRepairs(stuck),
    ...smallerRepairs(stuck),
    ...buyRepairs(stuck),
  ];
}

/** The blend of a changed request, if there is one. */
function tried(request: FormulationRequest): Blend | undefined {
  const { couldBuy: _, nearBest: __, ...plain } = request;
  const formulation = formulate({ ...plain, withPrices: false });
  return formulation.outcome === 'blend' ? formulation.blend : undefined;
}

function repair(
  kind: Repair['kind'],
  says: string,
  changes: readonly RepairChange[],
  { cost, batchKg }: Blend,
): Repair & { readonly costPerKg: number } {
  return { kind, says, changes, costPerKg: cost / batchKg };
}

/** Targets of the house that can move; the limits of nature cannot. */
function ownLimits({ model }: Stuck): Limit[] {
  const limits = new Map([...model.limitOfRow.values()].map((limit) => [limit.id, limit]));
  return [...limits.values()].filter(
    ({ id, authority, citation, sense }) =>
      authority === 'house' &&
      citation !== 'mass balance' &&
      // What a label promises is not a target to be moved.
      id !== 'house-label-lean-max' &&
      (sense === 'max' || sense === 'min'),
  );
}

/** The request with other bounds; what it tries in other limits stays as it is tried. */
function withBounds(
  request: FormulationRequest,
  bounds: NonNullable<FormulationRequest['insteadOf']>,
): FormulationRequest {
  const changed = new Set(bounds.map(({ limitId }) => limitId));
  const others = (request.insteadOf ?? []).filter(({ limitId }) => !changed.has(limitId));
  return { ...request, insteadOf: [...bounds, ...others] };
}

function targetRepairs(stuck: Stuck): Repair[] {
  const { request, model, problem } = stuck;
  const found: (Repair & { readonly costPerKg: number })[] = [];
  for (const limit of ownLimits(stuck)) {
    const reached = nearestRatio(model, limit, problem.coefficients, request.engines);
    if (reached === undefined) continue;
    for (let extra = 0; extra < MOST_TRIES; extra++) {
      const bound = outward(limit, reached, extra);
      if (bound < 0) break;
      const blend = tried(withBounds(request, [{ limitId: limit.id, bound }]));
      if (!blend) continue;
      found.push(repair('target', targetText(limit, bound), [targetChange(limit, bound)], blend));
      break;
    }
  }
  return found.sort((a, b) => a.costPerKg - b.costPerKg);
}

/** Where no single target helps: all that have to give, each by what the point of least misses asks of it. */
function togetherRepairs(stuck: Stuck): Repair[] {
  const { request, model, problem } = stuck;
  const own = new Set(ownLimits(stuck).map(({ id }) => id));
  const soft = [...model.limitOfRow].flatMap(([rowIndex, { id }]) =>
    own.has(id) ? [{ rowIndex, weight: 1 }] : [],
  );
  const relaxation = relax(model, soft, request.engines);
  if (!relaxation) return [];
  const limits = [
    ...new Set(relaxation.gives.flatMap(({ rowIndex }) => model.limitOfRow.get(rowIndex) ?? [])),
  ];
  if (limits.length === 0) return [];
  for (let extra = 0; extra < MOST_TRIES; extra++) {
    const insteadOf = limits.map((limit) => ({
      limitId: limit.id,
      bound: Math.max(0, outward(limit, ratioAt(limit, problem.coefficients, relaxation.values), extra)),
    }));
    const blend = tried(withBounds(request, insteadOf));
    if (!blend) continue;
    const changes = limits.map((limit, index) => targetChange(limit, insteadOf[index]?.bound ?? limit.bound));
    const says = limits.map((limit, index) => targetText(limit, insteadOf[index]?.bound ?? limit.bound));
    return [repair('targets together', says.join(' And: '), changes, blend)];
  }
  return [];
}

function ratioAt(limit: Limit, coefficients: Coefficients, values: readonly number[]): number {
  const sum = (perKg: readonly number[]) =>
    perKg.reduce((total, each, column) => total + each * (values[column] ?? 0), 0);
  const side = limit.sense === 'min' ? -1 : 1;
  const forms = 'worstOf' in limit.numerator ? limit.numerator.worstOf : [limit.numerator];
  const worst = forms
    .map((form) => side * sum(coefficients.of(form).map(toNumber)))
    .reduce((a, b) => Math.max(a, b));
  return (side * worst) / sum(coefficients.of(limit.basis).map(toNumber));
}

/** A bound that people would write: to a tenth of a point, or to a thousandth where the step is not a percent. */
function outward({ sense, unit }: Limit, reached: number, extra: number): number {
  const step = unit === 'ppm' ? 1e-6 : 1e-3;
  const steps = reached / step;
  const whole = sense === 'min' ? Math.floor(steps + 1e-6) - extra : Math.ceil(steps - 1e-6) + extra;
  return Number((whole * step).toPrecision(12));
}

function targetChange(limit: Limit, bound: number): RepairChange {
  const { id: limitId, unit } = limit;
  return { limitId, from: shownBound(limit), to: inShownUnit(bound, unit), unit };
}

function targetText(limit: Limit, bound: number): string {
  const sign = limit.unit === 'percent' ? '%' : limit.unit;
  const word = limit.sense === 'min' ? 'Lower' : 'Raise';
  return `${word} "${limit.numerator.says}" from ${shownBound(limit)} to ${inShownUnit(bound, limit.unit)} ${sign} of ${limit.basis.says}.`;
}

/** A fixed line of the recipe that limits do not allow at its rate: the nearest rate they do. */
function rateRepairs({ request, model, problem }: Stuck): Repair[] {
  const { product, engines } = request;
  return product.seasoning.flatMap((line) => {
    const { materialId, basis, minFraction: asked, maxFraction } = line;
    if (asked !== maxFraction || asked === 0) return [];
    const others = {
      columns: model.columns,
      rows: model.rows.filter(({ name }) => name !== `line ${materialId}`),
    };
    const ratio = {
      numerator: lineForm(materialId),
      basis: basisForm(basis, product),
      bound: asked,
    };
    const most = nearestIn(others, { ...ratio, sense: 'min' }, problem.coefficients, engines);
    if (most === undefined) return [];
    // More of a seasoning only thins the rest, and a rate far below its own is another recipe, or no cure at all.
    const isTooMuch = most < asked;
    if (!isTooMuch || most < LEAST_OF_A_RATE * asked) return [];
    for (let extra = 0; extra < MOST_TRIES; extra++) {
      const rate = roundedRate(most, extra);
      if (rate <= 0) return [];
      const changed = { ...line, minFraction: rate, maxFraction: rate };
      const seasoning = product.seasoning.map((other) => (other === line ? changed : other));
      const blend = tried({ ...request, product: { ...product, seasoning } });
      if (!blend) continue;
      const says = `Lower the rate of ${materialId} from ${percentOfFraction(asked)} to ${percentOfFraction(rate)} % of ${basis}.`;
      return [repair('rate', says, [{ materialId, rateFrom: asked, rateTo: rate }], blend)];
    }
    return [];
  });
}

/** The least share of its own rate that a lower rate may be. */
const LEAST_OF_A_RATE = 0.9;

/** To three digits, down. */
function roundedRate(rate: number, extra: number): number {
  const step = 10 ** (Math.floor(Math.log10(rate)) - 2);
  const steps = Math.floor(rate / step + 1e-6) - extra;
  return Number((steps * step).toPrecision(12));
}

/** Confidences that people ask for, the highest first. */
const CONFIDENCES = [0.99, 0.975, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.6, 0.55];

function confidenceRepairs({ request, ready }: Stuck): Repair[] {
  return ready.certain.slice(0, MOST_OF_A_KIND).flatMap(({ limitId, confidence }) => {
    for (const lower of CONFIDENCES.filter((each) => each < confidence)) {
      const certainty = [
        ...ready.certain.filter((certain) => certain.limitId !== limitId),
        { limitId, confidence: lower },
      ];
      const blend = tried({ ...request, certainty });
      if (!blend) continue;
      const says = `Ask for ${percentOfFraction(lower)} % confidence in ${limitId} in place of ${percentOfFraction(confidence)} %.`;
      const change = { limitId, confidenceFrom: confidence, confidenceTo: lower };
      return [repair('confidence', says, [change], blend)];
    }
    return [];
  });
}

/** One least amount of a lot taken back; or all of them, where no single one is enough. */
function demandRepairs({ request }: Stuck): Repair[] {
  const demanded = request.supplies.filter(
    ({ leastKg = 0, leastIfUsedKg = 0 }) => leastKg > 0 || leastIfUsedKg > 0,
  );
  const without = (taken: readonly Supply[]): Repair[] => {
    const supplies = request.supplies.map((supply) => {
      if (!taken.includes(supply)) return supply;
      const { leastKg: _, leastIfUsedKg: __, ...free } = supply;
      return free;
    });
    const blend = tried({ ...request, supplies });
    const ids = taken.map(({ id }) => id);
    const says = `Do not ask for a least amount of ${ids.join(', ')}.`;
    const changes = ids.map((id) => ({ withoutLeastOf: id }));
    return blend ? [repair('demand', says, changes, blend)] : [];
  };
  const single = demanded.slice(0, MOST_OF_A_KIND).flatMap((supply) => without([supply]));
  return single.length > 0 || demanded.length < 2 ? single : without(demanded);
}

const WISH_TEXTS: Readonly<Record<keyof FloorWishes, string>> = {
  wholeBoxes: 'Open a box: do not ask for whole boxes.',
  mostLots: 'Do not ask for so few meat lots.',
  simplestWithin: 'Do not ask for the fewest lots.',
  olderFirstWithin: 'Do not ask for older lots first.',
  sizeWithin: 'Keep the batch to its size.',
};

function wishRepairs({ request }: Stuck): Repair[] {
  const wishes = request.wishes ?? {};
  const asked = (Object.keys(wishes) as (keyof FloorWishes)[]).filter((wish) => wish !== 'sizeWithin');
  return asked.flatMap((wish) => {
    const more = wish === 'mostLots' ? moreLots(request) : [];
    if (more.length > 0) return more;
    const { [wish]: _, ...rest } = wishes;
    const blend = tried({ ...request, wishes: rest });
    return blend ? [repair('wish', WISH_TEXTS[wish], [{ withoutWish: wish }], blend)] : [];
  });
}

/** Lots more that are tried one after the other before the wish is taken back as a whole. */
const MOST_MORE_LOTS = 3;

function moreLots(request: FormulationRequest): Repair[] {
  const { wishes = {} } = request;
  for (let more = 1; more <= MOST_MORE_LOTS; more++) {
    const mostLots = (wishes.mostLots ?? 0) + more;
    const blend = tried({ ...request, wishes: { ...wishes, mostLots } });
    if (blend) return [repair('wish', `Allow ${mostLots} meat lots.`, [{ mostLots }], blend)];
  }
  return [];
}

/** How much bigger or smaller a batch may be, the least first. */
const SIZES_WITHIN = [0.02, 0.05, 0.1];

function roomierRepairs({ request }: Stuck): Repair[] {
  const { wishes = {} } = request;
  if (wishes.wholeBoxes === undefined) return [];
  for (const sizeWithin of SIZES_WITHIN.filter((within) => within > (wishes.sizeWithin ?? 0))) {
    const blend = tried({ ...request, wishes: { ...wishes, sizeWithin } });
    if (!blend) continue;
    const says = `Let the batch be up to ${percentOfFraction(sizeWithin)} % bigger or smaller: it comes to ${massText(blend.batchKg, request.plant.units)}.`;
    return [repair('wish', says, [{ sizeWithin }], blend)];
  }
  return [];
}

function smallerRepairs({ request, ready, model, problem }: Stuck): Repair[] {
  const { size } = ready;
  const largest = extremeSize(model, problem.coefficients, size, 'largest', request.engines);
  if (!largest || largest.massKg <= 1e-6 || largest.massKg >= size.massKg) return [];
  const { units } = request.plant;
  const unitKg = toNumber(KILOGRAMS_PER[units]);
  for (let less = 0; less < MOST_TRIES; less++) {
    // Down to a tenth of a unit, then by half a percent more each time: the scales need a little room.
    const massKg = Number(
      (Math.floor((inUnit(largest.massKg, units) * (1 - 0.005 * less)) / 0.1) * 0.1 * unitKg).toPrecision(12),
    );
    if (massKg <= 0) return [];
    const by = request.size.by === 'pieces' ? { by: 'total' as const } : { by: request.size.by };
    const blend = tried({ ...request, size: { ...by, massKg } });
    if (!blend) continue;
    const says = `Make ${massText(massKg, units)} in place of ${massText(size.massKg, units)} (${size.form.says}).`;
    return [repair('smaller batch', says, [{ sizeFromKg: size.massKg, sizeToKg: massKg }], blend)];
  }
  return [];
}

/** The materials of which the least has to be bought, each so much that the scales have room. */
function buyRepairs(stuck: Stuck): Repair[] {
  const { request } = stuck;
  const { units } = request.plant;
  const needs = leastToBuy(stuck, boughtSupplies(stuck)).sort((a, b) => a.leastKg - b.leastKg);
  const found: Repair[] = [];
  for (const { supply, leastKg, costPerKg } of needs) {
    if (found.length === MOST_OF_A_KIND) break;
    for (let more = 0; more < MOST_TRIES; more++) {
      const massKg = roundUp(leastKg * (1 + 0.01 * more), request.plant.units);
      const bought: Supply = { ...supply, mostKg: massKg };
      const blend = tried({ ...request, supplies: [...request.supplies, bought] });
      if (!blend) continue;
      const price =
        costPerKg === undefined
          ? 'its price is not known here'
          : `at ${fixed(pricePerUnit(costPerKg, units), 2)} ${request.plant.currency} per ${units}`;
      const says = `Buy ${massText(massKg, request.plant.units)} of ${supply.material.name} (${price}).`;
      const change = {
        buyMaterialId: supply.material.id,
        massKg,
        ...(costPerKg !== undefined && { costPerKg }),
      };
      const { costPerKg: cost, ...unpriced } = repair('buy', says, [change], blend);
      found.push(costPerKg === undefined ? unpriced : { ...unpriced, costPerKg: cost });
      break;
    }
  }
  return found;
}

interface Bought {
  readonly supply: Supply;
  readonly costPerKg: number | undefined;
}

/** What could be bought and has a place in the product, under an id of its own beside the lots on hand. */
function boughtSupplies({ request, ready }: Stuck): Bought[] {
  const { product, couldBuy = [] } = request;
  return couldBuy.flatMap(({ material, costPerKg }) => {
    if (!isMeat(material)) return [];
    const supply = { ...supplyOfMaterial(material, costPerKg ?? 0), id: `bought ${material.id}` };
    const isRefused =
      !hasPlace(supply, product) ||
      forbiddenBy(ready.limits, supply, product.process) !== undefined ||
      missingFigures(ready.limits, [supply], product.process).length > 0;
    return isRefused ? [] : [{ supply, costPerKg }];
  });
}

/** The least kilograms of each with which a blend exists, if that much of it alone is enough. */
function leastToBuy(
  { request, ready }: Stuck,
  could: readonly Bought[],
): (Bought & { readonly leastKg: number })[] {
  const usable = [...ready.usable, ...could.map(({ supply }) => supply)];
  const { model } = problemOf(request, { ...ready, usable, certain: [] });
  const first = ready.usable.length;
  const columns = model.columns.map((column, index) =>
    index < first ? { ...column, cost: 0 } : { cost: 1, lower: 0, upper: 0 },
  );
  return keepOpen({ columns, rows: model.rows }, request.engines, (kept) =>
    could.flatMap((bought, index) => {
      kept.setColumn(first + index, 0, MOST_BATCH_KG);
      const outcome = kept.solve();
      kept.setColumn(first + index, 0, 0);
      if (outcome.status !== 'optimal') return [];
      const leastKg = outcome.values[first + index] ?? 0;
      return leastKg > 0 && leastKg < MOST_BATCH_KG ? [{ ...bought, leastKg }] : [];
    }),
  );
}

/** To a whole pound, or half a kilogram. */
function roundUp(massKg: number, units: 'lb' | 'kg'): number {
  const stepKg = units === 'lb' ? toNumber(KILOGRAMS_PER.lb) : 0.5;
  return Number((Math.ceil(massKg / stepKg - 1e-9) * stepKg).toPrecision(12));
}
