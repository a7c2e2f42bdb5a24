import { isMeat } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { Blend, BlendLine, Makeup } from '../formulate/blend.ts';
import type { Check } from '../rules/check.ts';
import { inShownUnit, shownBound } from '../rules/limit.ts';
import type { Standard } from '../rules/standard.ts';
import { inUnit, pricePerUnit } from '../units.ts';

/** The sheet the floor weighs from and the inspector reads, as plain data: text and print follow from it. */
export interface BatchSheet {
  readonly plant: { readonly name: string; readonly establishment: string };
  readonly product: { readonly id: string; readonly name: string };
  readonly standard: { readonly says: string; readonly citation: string };
  readonly date: string;
  readonly units: 'lb' | 'kg';
  readonly currency: string;
  readonly batch: {
    readonly total: BothUnits;
    readonly greenWeight: BothUnits;
    readonly finished: BothUnits;
    readonly loads: number;
    readonly load: BothUnits;
    /** Expected pieces, for product made by the piece. */
    readonly pieces?: number;
  };
  readonly pick: readonly PickLine[];
  readonly weigh: readonly WeighLine[];
  readonly mixing: readonly string[];
  readonly grindPlates: readonly string[];
  readonly proof: readonly ProofLine[];
  readonly makeup: { readonly raw: Makeup; readonly finished: Makeup };
  readonly cost: {
    readonly batch: number;
    readonly perKgRaw: number;
    readonly perLbRaw: number;
    readonly perKgFinished: number;
    readonly perLbFinished: number;
  };
  readonly fillIn: readonly string[];
  readonly cautions: readonly string[];
}

export interface BothUnits {
  readonly kg: number;
  readonly lb: number;
}

/** A lot to fetch for the whole batch. */
export interface PickLine {
  readonly lotId: string;
  readonly material: string;
  readonly mass: BothUnits;
  /** Full boxes and what comes from an opened one, where the lot is in boxes. */
  readonly boxes?: { readonly full: number; readonly rest: BothUnits };
  readonly location?: string;
  readonly supplierEstablishment?: string;
  readonly supplierLot?: string;
  readonly useByDate?: string;
}

/** One line to weigh into each load. */
export interface WeighLine {
  readonly number: number;
  readonly material: string;
  readonly lotId?: string;
  readonly weight: string;
  readonly unit: string;
  readonly scale: string;
  readonly perLoad: BothUnits;
  readonly asked?: string;
}

export interface ProofLine {
  readonly limitId: string;
  readonly says: string;
  /** What is counted, in the trade's words. */
  readonly what: string;
  readonly value: number;
  readonly bound: number;
  readonly sense: 'max' | 'min' | 'present';
  readonly unit: string;
  readonly basis: string;
  readonly holds: boolean;
  readonly authority: 'law' | 'house';
  readonly citation: string;
  readonly read: string;
}

export interface SheetParts {
  readonly plant: Plant;
  readonly product: Product;
  readonly standard: Standard;
  readonly date: string;
  readonly blend: Blend;
}

export function batchSheet({ plant, product, standard, date, blend }: SheetParts): BatchSheet {
  const { form, process } = product;
  return {
    plant: { name: plant.name, establishment: plant.establishment },
    product: { id: product.id, name: product.name },
    standard: { says: standard.says, citation: standard.citation },
    date,
    units: plant.units,
    currency: plant.currency,
    batch: {
      total: bothUnits(blend.batchKg),
      greenWeight: bothUnits(blend.greenWeightKg),
      finished: bothUnits(blend.finishedKg),
      loads: blend.loads,
      load: bothUnits(blend.loadKg),
      ...(form.pieceKg !== undefined && { pieces: Math.floor(blend.batchKg / form.pieceKg + 1e-9) }),
    },
    pick: blend.lines.flatMap(pickLine),
    weigh: blend.lines.map((line, index) => weighLine(line, index, blend.loads)),
    mixing: process.mixing,
    grindPlates: process.grindPlates,
    proof: blend.checks.map(proofLine),
    makeup: { raw: blend.raw, finished: blend.finished },
    cost: costs(blend),
    fillIn: fillIn(product),
    cautions: [...blend.cautions, ...standingCautions(product, blend)],
  };
}

function bothUnits(massKg: number): BothUnits {
  return { kg: massKg, lb: inUnit(massKg, 'lb') };
}

function pickLine({ supply, massKg }: BlendLine): PickLine[] {
  const { lot, material } = supply;
  if (!lot) return [];
  const { location, supplierEstablishment, supplierLot, useByDate, boxKg } = lot;
  return [
    {
      lotId: lot.id,
      material: material.name,
      mass: bothUnits(massKg),
      ...(boxKg !== undefined && { boxes: boxesOf(massKg, boxKg) }),
      ...(location !== undefined && { location }),
      ...(supplierEstablishment !== undefined && { supplierEstablishment }),
      ...(supplierLot !== undefined && { supplierLot }),
      ...(useByDate !== undefined && { useByDate }),
    },
  ];
}

function boxesOf(massKg: number, boxKg: number) {
  const full = Math.floor(massKg / boxKg + 1e-9);
  return { full, rest: bothUnits(Math.max(0, Number((massKg - full * boxKg).toPrecision(12)))) };
}

function weighLine({ supply, weight, massKg, asked }: BlendLine, index: number, loads: number): WeighLine {
  return {
    number: index + 1,
    material: supply.material.name,
    ...(supply.lot && { lotId: supply.lot.id }),
    weight: weight.text,
    unit: weight.scale.unit,
    scale: weight.scale.name,
    perLoad: bothUnits(massKg / loads),
    ...(asked && { asked: `${inShownUnit(asked.fraction, 'percent')} % of ${asked.basis}` }),
  };
}

function proofLine({ limit, value, holds }: Check): ProofLine {
  return {
    limitId: limit.id,
    says: limit.says,
    what: limit.numerator.says,
    value: Number.isNaN(value) ? 0 : inShownUnit(value, limit.unit),
    bound: shownBound(limit),
    sense: limit.sense,
    unit: limit.unit,
    basis: limit.basis.says,
    holds,
    authority: limit.authority,
    citation: limit.citation,
    read: limit.read,
  };
}

function costs({ cost, batchKg, finishedKg }: Blend): BatchSheet['cost'] {
  const perKgRaw = cost / batchKg;
  const perKgFinished = cost / finishedKg;
  return {
    batch: cost,
    perKgRaw,
    perLbRaw: pricePerUnit(perKgRaw, 'lb'),
    perKgFinished,
    perLbFinished: pricePerUnit(perKgFinished, 'lb'),
  };
}

function fillIn({ process }: Product): string[] {
  return [
    'Batch number',
    'Started (date, time)',
    'Grinder and mixer last cleaned and sanitized (date, time)',
    'Meat temperature before grinding',
    'Meat temperature after mixing',
    'Fat test of the mix (result, method)',
    ...(process.cooking === 'cooked'
      ? [
          'Cooking: highest internal temperature and time held',
          'Cooling: times and temperatures',
          'Finished weight',
        ]
      : []),
    'Weighed by (signature)',
    'Cures and restricted ingredients checked by (signature)',
    'Reviewed by (signature, date)',
  ];
}

function standingCautions({ process }: Product, { lines }: Blend): string[] {
  const has = (kind: string) => lines.some(({ supply }) => supply.material.kind === kind);
  const allergens = [...new Set(lines.flatMap(({ supply }) => supply.material.allergens))];
  const meat = lines.some(({ supply }) => isMeat(supply.material));
  return [
    ...(has('cure')
      ? [
          'Curing salt is poisonous in excess: weigh it alone, have a second person check it, and never guess.',
        ]
      : []),
    ...(allergens.length > 0
      ? [`Holds allergens (${allergens.join(', ')}): run it last or clean before the next product.`]
      : []),
    ...(process.cooking === 'cooked'
      ? [
          'Cooking and cooling follow the HACCP plan and its process authority; this sheet sets no lethality or cooling limit.',
        ]
      : []),
    ...(meat ? ['Keep meat at or below 40 °F (4 °C) while it is worked (common practice).'] : []),
    'Local rules, the inspector and the HACCP plan of the plant come before this sheet.',
  ];
}
