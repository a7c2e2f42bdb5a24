import { missingSubstance } from '../batch/carries.ts';
import type { Lot, Supply } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import { kilograms, massText, perKilogram } from '../units.ts';
import type { BlendRequest, LotInput, MaterialInput } from './contract/blend-request.ts';

/** What a request brings of its own, turned into the nouns of the core. Faults are added to the issues. */

/** One thing wrong with a request that is well formed: where, and what to do. */
export interface RequestIssue {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

type Issues = RequestIssue[];
type Materials = ReadonlyMap<string, Material>;

/** What is wrong with an id that no table and no request explains, and what to do. */
export function unknownMaterial(id: string): string {
  return `"${id}": no such material; correct the id, or give the material under materials`;
}

/** The materials of the tables and those the request brings; its own may not take the place of a known one. */
export function withOwnMaterials(known: Materials, own: readonly MaterialInput[], issues: Issues): Materials {
  const materials = new Map(known);
  own.forEach((input, index) => {
    const material = materialOf(input);
    if (isMeat(material) && !material.species) {
      issues.push({
        path: ['materials', index, 'species'],
        message: `is missing; ${input.kind} has a species`,
      });
    }
    if (!isMeat(material) && material.species) {
      const message = `"${material.species}": ${input.kind} has no species; take the field out`;
      issues.push({ path: ['materials', index, 'species'], message });
    }
    const missing = missingSubstance(material);
    if (missing)
      issues.push({
        path: ['materials', index, 'substances'],
        message: `${missing}; add it, such as {"sodium nitrite": 0.0625}`,
      });
    if (known.has(material.id)) {
      const message = `"${material.id}" is in the tables already; give your own material another id`;
      issues.push({ path: ['materials', index, 'id'], message });
    }
    materials.set(material.id, material);
  });
  return materials;
}

function materialOf({ species, madeIn, composition, substances, ...input }: MaterialInput): Material {
  return {
    ...input,
    ...(species && { species }),
    ...(madeIn && { madeIn }),
    composition: {
      ...dropAbsent(composition),
      saltFraction: composition.saltFraction ?? substances.salt ?? 0,
    },
    substances: dropAbsent(substances),
  };
}

/** Lots given with the request. Unlike the inventory's, a lot that cannot be used that day is a fault. */
export function ownLots(
  inputs: readonly LotInput[],
  materials: Materials,
  date: string,
  issues: Issues,
): Lot[] {
  return inputs.map((input, index) => {
    const refuse = (field: keyof LotInput, message: string) =>
      issues.push({ path: ['lots', index, field], message });
    if (materials.has(input.id))
      refuse('id', `"${input.id}" is the id of a material; give the lot another id`);
    if (!materials.has(input.materialId)) refuse('materialId', unknownMaterial(input.materialId));
    const { useByDate, packedDate } = input;
    if (useByDate !== undefined && packedDate !== undefined && useByDate < packedDate) {
      refuse('useByDate', `${useByDate} is before packedDate ${packedDate}; correct one of the two`);
    } else if (useByDate !== undefined && useByDate < date) {
      refuse('useByDate', `${useByDate} is before the day of the batch, ${date}; leave this lot out`);
    }
    if (input.receivedDate !== undefined && input.receivedDate > date) {
      refuse(
        'receivedDate',
        `${input.receivedDate} is after the day of the batch, ${date}; leave this lot out`,
      );
    }
    return lotOf(input, date);
  });
}

function lotOf(
  { onHand, cost, box, receivedDate, state, id, materialId, measuredFat, ...input }: LotInput,
  date: string,
): Lot {
  return {
    id,
    materialId,
    state,
    ...dropAbsent(input),
    receivedDate: receivedDate ?? date,
    onHandKg: kilograms(onHand),
    costPerKg: perKilogram(cost.amount, cost.per),
    ...(box && { boxKg: kilograms(box) }),
    ...(measuredFat && { measuredFat: dropAbsent(measuredFat) }),
  };
}

/** Prices of the plant and of the request, for materials that no lot carries. */
export function withOwnPrices(
  known: ReadonlyMap<string, number>,
  own: BlendRequest['prices'],
  lots: readonly Lot[],
  materials: Materials,
  issues: Issues,
): Map<string, number> {
  const prices = new Map(known);
  own.forEach(({ materialId, cost }, index) => {
    const path = ['prices', index, 'materialId'];
    if (!materials.has(materialId)) issues.push({ path, message: unknownMaterial(materialId) });
    if (lots.some((lot) => lot.materialId === materialId)) {
      issues.push({
        path,
        message: `"${materialId}" is kept in lots, whose own prices count; take this price out`,
      });
    }
    prices.set(materialId, perKilogram(cost.amount, cost.per));
  });
  return prices;
}

export type LotBounds = Pick<Supply, 'leastKg' | 'mostKg' | 'leastIfUsedKg'>;

/** What the request says of the use of single lots. */
export function lotBounds(
  { use, excludeLots }: BlendRequest,
  lots: readonly Lot[],
  issues: Issues,
): Map<string, LotBounds> {
  const bounds = new Map<string, LotBounds>();
  use.forEach(({ lotId, min, max, leastIfUsed }, index) => {
    const refuse = (field: string, message: string) => issues.push({ path: ['use', index, field], message });
    const lot = lots.find(({ id }) => id === lotId);
    const leastKg = min && kilograms(min);
    const mostKg = max && kilograms(max);
    const leastIfUsedKg = leastIfUsed && kilograms(leastIfUsed);
    if (!lot) refuse('lotId', `"${lotId}" is no lot on hand; take it out of the list`);
    else if (excludeLots.includes(lotId)) {
      refuse('lotId', `"${lotId}" is also in excludeLots; take it out of one of the two`);
    } else if (min && leastKg !== undefined && leastKg > lot.onHandKg) {
      refuse(
        'min',
        `${min.value} ${min.unit} is more than the lot holds, ${massText(lot.onHandKg, min.unit)}; lower it`,
      );
    } else if (
      leastIfUsed &&
      leastIfUsedKg !== undefined &&
      leastIfUsedKg > Math.min(lot.onHandKg, mostKg ?? lot.onHandKg)
    ) {
      refuse(
        'leastIfUsed',
        `${leastIfUsed.value} ${leastIfUsed.unit} is more than can be used of the lot; lower it`,
      );
    } else if (min && max && leastKg !== undefined && mostKg !== undefined && leastKg > mostKg) {
      refuse('min', `${min.value} ${min.unit} is above max ${max.value} ${max.unit}; lower min or raise max`);
    }
    bounds.set(lotId, {
      ...(leastKg !== undefined && { leastKg }),
      ...(mostKg !== undefined && { mostKg }),
      ...(leastIfUsedKg !== undefined && { leastIfUsedKg }),
    });
  });
  return bounds;
}

/** The types of the core tell an absent field from an undefined one. */
function dropAbsent<Fields extends object>(fields: Fields): Present<Fields> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as Present<Fields>;
}

type Present<Fields> = { [Key in keyof Fields]: Exclude<Fields[Key], undefined> };
