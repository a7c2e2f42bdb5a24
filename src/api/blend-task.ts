import type { HouseRules } from '../batch/house-rules.ts';
import { type Lot, type Supply, supplyOfLot, supplyOfMaterial } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { type FatTest, ownTests, trimKnowledge } from '../batch/trim-learning.ts';
import { rulesOn } from '../formulate/prepare.ts';
import type { BatchSize, FloorWishes, FormulationRequest } from '../formulate/request.ts';
import { houseRuleProblems } from '../rules/house-rules.ts';
import { fromShownUnit } from '../rules/limit.ts';
import { findStandard, notKnownOn, type RuleSet } from '../rules/standard.ts';
import type { PlantData } from '../tables/plant-folder.ts';
import { materialIssues } from '../tables/products.ts';
import { kilograms, perKilogram } from '../units.ts';
import type { BlendRequest } from './contract/blend-request.ts';
import { lotBounds, ownLots, type RequestIssue, withOwnMaterials, withOwnPrices } from './own-inputs.ts';

/** A request made ready for the formulation, which may run in another thread: plain data, no functions. */
export interface BlendTask extends Omit<FormulationRequest, 'engines'> {
  /** Which text of the rules was read. */
  readonly edition: string;
  readonly casing?: Material;
}

export type Prepared =
  | { readonly ok: true; readonly task: BlendTask }
  | { readonly ok: false; readonly issues: readonly RequestIssue[] };

/**
 * Looks up everything that a request names: product, standard, materials, lots and prices.
 * @param today the day at the plant, for a request without a date.
 */
export function prepareBlend(
  request: BlendRequest,
  data: PlantData,
  ruleSets: readonly RuleSet[],
  today: string,
): Prepared {
  const issues: RequestIssue[] = [];
  const date = request.date ?? today;
  const materials = withOwnMaterials(data.materials, request.materials, issues);
  const product = productOf(request, data, issues);
  const rules = product && rulesOf(product, ruleSets, date, issues);
  const houseRules = houseRulesOf(request, data, ruleSets, issues);
  if (product) {
    issues.push(
      ...materialIssues(product, materials).map(({ path, message }) => ({
        path: ['product', ...path],
        message,
      })),
    );
  }
  const given = request.lots === 'inventory' ? data.lots : ownLots(request.lots, materials, date, issues);
  const lots = atTrialPrices(given, request, issues);
  const supplies = suppliesOf(lots, request, data, materials, date, issues);
  if (!product || !rules || issues.length > 0) return { ok: false, issues };
  const casing = materials.get(product.form.casingMaterialId ?? '');
  const plant: Plant = request.units ? { ...data.plant, units: request.units } : data.plant;
  const insteadOf = trialBounds(request, { product, ...rules, date, houseRules }, issues);
  const task: BlendTask = {
    product,
    ...rules,
    ...(insteadOf.length > 0 && { insteadOf }),
    supplies,
    size: sizeOf(request.batchSize),
    date,
    plant,
    houseRules,
    certainty: request.certainty.map((certain) => ({ ...certain })),
    couldBuy: couldBuy(materials, lots, data.prices),
    withPrices: request.worth === 'all',
    ...wishesOf(request.floor ?? data.plant.floor, lots, issues),
    ...(request.nearBest && {
      nearBest: { count: request.nearBest.count, withinFraction: request.nearBest.within },
    }),
    ...(casing && { casing }),
  };
  return issues.length > 0 ? { ok: false, issues } : { ok: true, task };
}

/** Lots at the prices that are tried, where there are any. */
function atTrialPrices(
  lots: readonly Lot[],
  { trial }: BlendRequest,
  issues: RequestIssue[],
): readonly Lot[] {
  if (!trial || trial.prices.length === 0) return lots;
  const costs = new Map(trial.prices.map(({ lotId, cost }) => [lotId, perKilogram(cost.amount, cost.per)]));
  trial.prices.forEach(({ lotId }, index) => {
    if (lots.some(({ id }) => id === lotId)) return;
    const message = `"${lotId}" is no lot on hand; take it out of the list`;
    issues.push({ path: ['trial', 'prices', index, 'lotId'], message });
  });
  return lots.map((lot) => ({ ...lot, costPerKg: costs.get(lot.id) ?? lot.costPerKg }));
}

/** Bounds that are tried, as fractions. Only the house's own give way. */
function trialBounds(
  { trial }: BlendRequest,
  rules: Parameters<typeof rulesOn>[0],
  issues: RequestIssue[],
): NonNullable<FormulationRequest['insteadOf']> {
  if (!trial || trial.bounds.length === 0) return [];
  const own = new Map(
    rulesOn(rules).limits.flatMap((limit) => (limit.authority === 'house' ? [[limit.id, limit]] : [])),
  );
  return trial.bounds.flatMap(({ limitId, bound }, index) => {
    const limit = own.get(limitId);
    if (limit) return [{ limitId, bound: fromShownUnit(bound, limit.unit) }];
    const message = `"${limitId}" is no limit of the house for this product; those that can be tried are ${[...own.keys()].join(', ')}`;
    issues.push({ path: ['trial', 'bounds', index, 'limitId'], message });
    return [];
  });
}

/** A rest of meat that nobody fetches out of a cooler. Own judgement; name the lot under use to have it in. */
const CRUMB_KG = 0.25;

function isCrumb(
  { id, onHandKg, materialId }: Lot,
  { lots, use }: BlendRequest,
  materials: ReadonlyMap<string, Material>,
): boolean {
  if (lots !== 'inventory' || use.some(({ lotId }) => lotId === id)) return false;
  const material = materials.get(materialId);
  return material !== undefined && isMeat(material) && onHandKg > 0 && onHandKg < CRUMB_KG;
}

function productOf(request: BlendRequest, data: PlantData, issues: RequestIssue[]): Product | undefined {
  if (typeof request.product !== 'string') return request.product;
  const stored = data.products.get(request.product);
  if (stored) return stored.product;
  const known = [...data.products.keys()].join(', ');
  const message = `"${request.product}" is no product of the plant; the products are ${known}`;
  issues.push({ path: ['product'], message });
  return undefined;
}

function rulesOf(
  { standard }: Product,
  ruleSets: readonly RuleSet[],
  date: string,
  issues: RequestIssue[],
): Pick<BlendTask, 'standard' | 'edition'> | undefined {
  const refuse = (field: keyof typeof standard, message: string) => {
    issues.push({ path: ['product', 'standard', field], message: `"${standard[field]}" ${message}` });
    return undefined;
  };
  const ruleSet = ruleSets.find(({ jurisdiction }) => jurisdiction === standard.jurisdiction);
  if (!ruleSet) {
    const known = ruleSets.map(({ jurisdiction }) => jurisdiction).join(', ');
    return refuse('jurisdiction', `has no rules here; the jurisdictions are ${known}`);
  }
  const unknownDay = notKnownOn(ruleSet, date);
  if (unknownDay) {
    issues.push({ path: ['date'], message: `${unknownDay}; choose a later day` });
    return undefined;
  }
  const known = ruleSet.standards.map(({ productClass }) => productClass).join(', ');
  const found = findStandard(ruleSet, standard.productClass);
  return found
    ? { standard: found, edition: ruleSet.edition }
    : refuse('productClass', `is no product class of ${ruleSet.says}; the classes are ${known}`);
}

/** The request's own rules of the house, or else the plant's. */
function houseRulesOf(
  request: BlendRequest,
  data: PlantData,
  ruleSets: readonly RuleSet[],
  issues: RequestIssue[],
): HouseRules {
  if (!request.houseRules) return data.houseRules;
  issues.push(
    ...houseRuleProblems(request.houseRules, ruleSets).map(({ path, message }) => ({
      path: ['houseRules', ...path],
      message,
    })),
  );
  return request.houseRules;
}

function suppliesOf(
  lots: readonly Lot[],
  request: BlendRequest,
  data: PlantData,
  materials: ReadonlyMap<string, Material>,
  date: string,
  issues: RequestIssue[],
): Supply[] {
  request.excludeLots.forEach((id, index) => {
    if (lots.some((lot) => lot.id === id)) return;
    issues.push({
      path: ['excludeLots', index],
      message: `"${id}" is no lot on hand; take it out of the list`,
    });
  });
  const bounds = lotBounds(request, lots, issues);
  const knowledge = trimKnowledge(data.fatTests, materials, date);
  const testsOf = byLot(data.fatTests);
  const wanted = lots.filter(
    (lot) => !request.excludeLots.includes(lot.id) && !isCrumb(lot, request, materials),
  );
  const fromLots = wanted.flatMap((lot) => {
    const material = materials.get(lot.materialId);
    if (!material) return [];
    const own = testsOf.get(lot.id) ?? [];
    return [{ ...knownSupply(lot, material, own, knowledge, date), ...bounds.get(lot.id) }];
  });
  // A material that is kept in lots is drawn from them alone, so that its lots stay traceable.
  const inLots = new Set(lots.map(({ materialId }) => materialId));
  const prices = withOwnPrices(data.prices, request.prices, lots, materials, issues);
  const fromPrices = [...prices].flatMap(([materialId, costPerKg]) => {
    const material = materials.get(materialId);
    return material && !inLots.has(materialId) ? [supplyOfMaterial(material, costPerKg)] : [];
  });
  return [...fromLots, ...fromPrices];
}

/** Years of tests beside hundreds of lots: each lot looks through its own alone. */
function byLot(fatTests: readonly FatTest[]): Map<string, FatTest[]> {
  const testsOf = new Map<string, FatTest[]>();
  for (const test of fatTests) {
    if (test.lotId === undefined) continue;
    const known = testsOf.get(test.lotId);
    if (known) known.push(test);
    else testsOf.set(test.lotId, [test]);
  }
  return testsOf;
}

/** A lot with what its own tests and those of its like say on that day. */
function knownSupply(
  lot: Lot,
  material: Material,
  fatTests: readonly FatTest[],
  knowledge: ReturnType<typeof trimKnowledge>,
  date: string,
): Supply {
  const known = knowledge.find(
    ({ materialId, supplierEstablishment }) =>
      materialId === lot.materialId && supplierEstablishment === lot.supplierEstablishment,
  );
  const measuredFat = lot.measuredFat ?? ownTests(fatTests, lot, date);
  return supplyOfLot(measuredFat ? { ...lot, measuredFat } : lot, material, known);
}

/** One lot of the plant as a blend of that day would see it; undefined when it is not on hand. */
export function supplyNow(data: PlantData, lotId: string, date: string): Supply | undefined {
  const lot = data.lots.find(({ id }) => id === lotId);
  const material = lot && data.materials.get(lot.materialId);
  if (!lot || !material) return undefined;
  return knownSupply(lot, material, data.fatTests, trimKnowledge(data.fatTests, data.materials, date), date);
}

function sizeOf(size: BlendRequest['batchSize']): BatchSize {
  if ('pieces' in size) return { by: 'pieces', pieces: size.pieces };
  if ('total' in size) return { by: 'total', massKg: kilograms(size.total) };
  if ('meat' in size) return { by: 'meat', massKg: kilograms(size.meat) };
  return { by: 'finished', massKg: kilograms(size.finished) };
}

/** What the floor asks, of this batch or by habit, with the lots that it means by "all" and "frozen". */
function wishesOf(
  wished: BlendRequest['floor'],
  lots: readonly Lot[],
  issues: RequestIssue[],
): { wishes?: FloorWishes } {
  if (!wished) return {};
  const { wholeBoxes, ...floor } = wished;
  const boxed = lots.filter(({ boxKg }) => boxKg !== undefined);
  if (Array.isArray(wholeBoxes)) {
    wholeBoxes.forEach((id, index) => {
      if (boxed.some((lot) => lot.id === id)) return;
      const message = lots.some((lot) => lot.id === id)
        ? `"${id}" is not kept in boxes; give its box weight or take it out of the list`
        : `"${id}" is no lot on hand; take it out of the list`;
      issues.push({ path: ['floor', 'wholeBoxes', index], message });
    });
  }
  const ids = () => {
    if (Array.isArray(wholeBoxes)) return wholeBoxes;
    return boxed.filter(({ state }) => wholeBoxes === 'all' || state === 'frozen').map(({ id }) => id);
  };
  const { mostLots, simplestWithin, olderFirstWithin, sizeWithin } = floor;
  const wishes = {
    ...(wholeBoxes !== undefined && { wholeBoxes: ids() }),
    ...(mostLots !== undefined && { mostLots }),
    ...(simplestWithin !== undefined && { simplestWithin }),
    ...(olderFirstWithin !== undefined && { olderFirstWithin }),
    ...(sizeWithin !== undefined && { sizeWithin }),
  };
  return { wishes };
}

/** Meat of the tables, at the dearest price that a lot of it has now: no one knows what the next will cost. */
function couldBuy(
  materials: ReadonlyMap<string, Material>,
  lots: readonly Lot[],
  prices: ReadonlyMap<string, number>,
): NonNullable<BlendTask['couldBuy']> {
  return [...materials.values()].filter(isMeat).map((material) => {
    const paid = lots.filter(({ materialId }) => materialId === material.id).map((lot) => lot.costPerKg);
    const costPerKg = paid.length > 0 ? Math.max(...paid) : prices.get(material.id);
    return { material, ...(costPerKg !== undefined && { costPerKg }) };
  });
}
