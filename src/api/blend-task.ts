import type { Lot, Supply } from '../batch/lot.ts';
import { supplyOfLot, supplyOfMaterial } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { BatchSize, FormulationRequest } from '../formulate/request.ts';
import { findStandard, type RuleSet, type Standard } from '../rules/standard.ts';
import type { PlantData } from '../tables/plant-folder.ts';
import { kilograms, massText, perKilogram } from '../units.ts';
import type { BlendRequest, LotInput, MaterialInput } from './contract/blend-request.ts';

/** A request made ready for the formulation, which may run in another thread: plain data, no functions. */
export type BlendTask = Omit<FormulationRequest, 'engines'>;

/** One thing wrong with a request that is well formed: where, and what to do. */
export interface RequestIssue {
  readonly path: readonly (string | number)[];
  readonly message: string;
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
  const standard = product && standardOf(product, ruleSets, issues);
  if (product) findUnknownMaterials(product, materials, issues);
  const lots = request.lots === 'inventory' ? data.lots : ownLots(request.lots, materials, date, issues);
  const supplies = suppliesOf(lots, request, data, materials, issues);
  if (!product || !standard || issues.length > 0) return { ok: false, issues };
  const plant: Plant = request.units ? { ...data.plant, units: request.units } : data.plant;
  return {
    ok: true,
    task: { product, standard, supplies, size: sizeOf(request.batchSize), date, plant },
  };
}

function withOwnMaterials(
  known: ReadonlyMap<string, Material>,
  own: readonly MaterialInput[],
  issues: RequestIssue[],
): ReadonlyMap<string, Material> {
  const materials = new Map(known);
  own.forEach((input, index) => {
    const material = materialOf(input);
    if (isMeat(material) && !material.species) {
      issues.push({
        path: ['materials', index, 'species'],
        message: `is missing; ${input.kind} has a species`,
      });
    }
    materials.set(material.id, material);
  });
  return materials;
}

function materialOf({ species, composition, substances, ...input }: MaterialInput): Material {
  return {
    ...input,
    ...(species && { species }),
    composition: dropAbsent(composition),
    substances: dropAbsent(substances),
  };
}

/** The types of the core tell an absent field from an undefined one. */
function dropAbsent<Fields extends object>(
  fields: Fields,
): { [Key in keyof Fields]: Exclude<Fields[Key], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [Key in keyof Fields]: Exclude<Fields[Key], undefined>;
  };
}

function productOf(request: BlendRequest, data: PlantData, issues: RequestIssue[]): Product | undefined {
  if (typeof request.product !== 'string') return request.product;
  const stored = data.products.get(request.product);
  if (stored) return stored.product;
  const known = [...data.products.keys()].join(', ');
  issues.push({
    path: ['product'],
    message: `"${request.product}" is no product of the plant; the products are ${known}`,
  });
  return undefined;
}

function standardOf(
  { standard }: Product,
  ruleSets: readonly RuleSet[],
  issues: RequestIssue[],
): Standard | undefined {
  const ruleSet = ruleSets.find(({ jurisdiction }) => jurisdiction === standard.jurisdiction);
  if (!ruleSet) {
    issues.push({
      path: ['product', 'standard', 'jurisdiction'],
      message: `"${standard.jurisdiction}" has no rules here; the jurisdictions are ${ruleSets.map(({ jurisdiction }) => jurisdiction).join(', ')}`,
    });
    return undefined;
  }
  const found = findStandard(ruleSet, standard.productClass);
  if (!found) {
    issues.push({
      path: ['product', 'standard', 'productClass'],
      message: `"${standard.productClass}" is no product class of ${ruleSet.says}; the classes are ${ruleSet.standards.map(({ productClass }) => productClass).join(', ')}`,
    });
  }
  return found;
}

function findUnknownMaterials(
  product: Product,
  materials: ReadonlyMap<string, Material>,
  issues: RequestIssue[],
): void {
  const named = [
    ...product.seasoning.map(({ materialId }, index) => ({
      id: materialId,
      path: ['product', 'seasoning', index, 'materialId'],
    })),
    ...product.meatBlock.flatMap(({ materialIds = [] }, part) =>
      materialIds.map((id, index) => ({ id, path: ['product', 'meatBlock', part, 'materialIds', index] })),
    ),
  ];
  for (const { id, path } of named) {
    if (materials.has(id)) continue;
    issues.push({
      path,
      message: `"${id}" is no material of the tables; correct the id, or give it under materials`,
    });
  }
}

function ownLots(
  inputs: readonly LotInput[],
  materials: ReadonlyMap<string, Material>,
  date: string,
  issues: RequestIssue[],
): Lot[] {
  const seen = new Set<string>();
  return inputs.map((input, index) => {
    const at = (field: string) => ['lots', index, field];
    if (seen.has(input.id)) {
      issues.push({ path: at('id'), message: `"${input.id}" stands twice; give each lot its own id` });
    }
    seen.add(input.id);
    if (!materials.has(input.materialId)) {
      issues.push({
        path: at('materialId'),
        message: `"${input.materialId}" is no material of the tables; correct the id, or give it under materials`,
      });
    }
    if (input.useByDate !== undefined && input.useByDate < date) {
      issues.push({
        path: at('useByDate'),
        message: `${input.useByDate} is before the day of the batch, ${date}; leave this lot out`,
      });
    }
    return lotOf(input, date);
  });
}

function lotOf({ onHand, cost, box, measuredFat, receivedDate, ...input }: LotInput, date: string): Lot {
  const { packedDate, useByDate, supplierEstablishment, supplierLot, location, ...rest } = input;
  return {
    ...rest,
    ...dropAbsent({ packedDate, useByDate, supplierEstablishment, supplierLot, location, measuredFat }),
    receivedDate: receivedDate ?? date,
    onHandKg: kilograms(onHand),
    costPerKg: perKilogram(cost.amount, cost.per),
    ...(box && { boxKg: kilograms(box) }),
  } as Lot;
}

function suppliesOf(
  lots: readonly Lot[],
  request: BlendRequest,
  data: PlantData,
  materials: ReadonlyMap<string, Material>,
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
  const wanted = lots.filter(({ id }) => !request.excludeLots.includes(id));
  const fromLots = wanted.flatMap((lot) => {
    const material = materials.get(lot.materialId);
    return material ? [{ ...supplyOfLot(lot, material), ...bounds.get(lot.id) }] : [];
  });
  const prices = new Map(data.prices);
  request.prices.forEach(({ materialId, cost }, index) => {
    if (materials.has(materialId)) prices.set(materialId, perKilogram(cost.amount, cost.per));
    else {
      issues.push({
        path: ['prices', index, 'materialId'],
        message: `"${materialId}" is no material of the tables; correct the id`,
      });
    }
  });
  // A material that is kept in lots is drawn from them alone, so that its lots stay traceable.
  const inLots = new Set(lots.map(({ materialId }) => materialId));
  const fromPrices = [...prices].flatMap(([materialId, costPerKg]) => {
    const material = materials.get(materialId);
    return material && !inLots.has(materialId) ? [supplyOfMaterial(material, costPerKg)] : [];
  });
  return [...fromLots, ...fromPrices];
}

/** What the request says of the use of single lots. */
function lotBounds(
  { use, excludeLots }: BlendRequest,
  lots: readonly Lot[],
  issues: RequestIssue[],
): Map<string, Pick<Supply, 'leastKg' | 'mostKg'>> {
  const bounds = new Map<string, Pick<Supply, 'leastKg' | 'mostKg'>>();
  use.forEach(({ lotId, min, max }, index) => {
    const refuse = (field: string, message: string) => issues.push({ path: ['use', index, field], message });
    const lot = lots.find(({ id }) => id === lotId);
    const leastKg = min && kilograms(min);
    const mostKg = max && kilograms(max);
    if (!lot) refuse('lotId', `"${lotId}" is no lot on hand; take it out of the list`);
    else if (excludeLots.includes(lotId))
      refuse('lotId', `"${lotId}" is also in excludeLots; take it out of one of the two`);
    else if (bounds.has(lotId))
      refuse('lotId', `"${lotId}" stands twice; make it one entry with min and max`);
    else if (leastKg !== undefined && leastKg > lot.onHandKg) {
      refuse('min', `is more than the lot holds (${massText(lot.onHandKg, min?.unit ?? 'kg')}); lower it`);
    } else if (leastKg !== undefined && mostKg !== undefined && leastKg > mostKg) {
      refuse('min', 'is above max; lower min or raise max');
    }
    bounds.set(lotId, { ...(leastKg !== undefined && { leastKg }), ...(mostKg !== undefined && { mostKg }) });
  });
  return bounds;
}

function sizeOf(size: BlendRequest['batchSize']): BatchSize {
  if ('pieces' in size) return { by: 'pieces', pieces: size.pieces };
  if ('total' in size) return { by: 'total', massKg: kilograms(size.total) };
  if ('meat' in size) return { by: 'meat', massKg: kilograms(size.meat) };
  return { by: 'finished', massKg: kilograms(size.finished) };
}
