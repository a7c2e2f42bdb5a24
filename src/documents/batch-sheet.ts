import { CURING_AGENTS, carries } from '../batch/carries.ts';
import { isRework, type Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { capacityKg, printedWeight } from '../batch/scale.ts';
import type { AskedRate, Blend, BlendLine, Makeup, SwitchedOff } from '../formulate/blend.ts';
import { type Check, describeCheck } from '../rules/check.ts';
import { inForceOn, inShownUnit, type Sense, shownBound, sourceOf } from '../rules/limit.ts';
import type { Standard } from '../rules/standard.ts';
import { fixed, inUnit, percentOfFraction, pricePerUnit } from '../units.ts';
import { proofText } from './proof-text.ts';
import { standingCautions } from './standing-cautions.ts';

/** The sheet the floor weighs from and the inspector reads, as plain data: text and print follow from it. */
export interface BatchSheet {
  readonly plant: { readonly name: string; readonly establishment: string };
  readonly product: { readonly id: string; readonly name: string };
  readonly standard: { readonly says: string; readonly citation: string; readonly edition: string };
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
  /** The casing, for product that is stuffed. */
  readonly stuffInto?: string;
  readonly leftOut: readonly LeftOutLine[];
  readonly proof: readonly ProofLine[];
  /** Limits of the law that the house does not hold. */
  readonly switchedOff: readonly SwitchedOffLine[];
  /** Limits that need a laboratory test. */
  readonly laboratory: readonly { readonly says: string; readonly citation: string; readonly read: string }[];
  readonly makeup: { readonly raw: Makeup; readonly finished: Makeup };
  /** How likely limits are to hold, where the fat of the lots is uncertain: sentences. */
  readonly howSure: readonly string[];
  readonly cost: {
    readonly batch: number;
    readonly perKgRaw: number;
    readonly perLbRaw: number;
    readonly perKgFinished: number;
    readonly perLbFinished: number;
    /** How near to the least possible, and what certainty and whole boxes add: sentences. */
    readonly notes: readonly string[];
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
  readonly state: string;
  /** The weight as it adds up on the scale, with its unit: '478 g'. */
  readonly fetch: string;
}

/** A supply that the product has a place for and that did not go in. */
export interface LeftOutLine {
  readonly supplyId: string;
  readonly material: string;
  readonly because: string;
}

/** One line to weigh into each load. */
export interface WeighLine {
  readonly number: number;
  readonly material: string;
  readonly lotId?: string;
  readonly weight: string;
  readonly unit: string;
  readonly scale: string;
  /** Weighings it takes where the scale cannot carry it at once. */
  readonly drafts: number;
  readonly perLoad: BothUnits;
  readonly asked?: string;
  /** Whether it is a cure; absent from sheets that were stored before it was told. */
  readonly cure?: true;
}

export interface ProofLine {
  readonly limitId: string;
  readonly says: string;
  /** What is counted, in the trade's words. */
  readonly what: string;
  readonly value: number;
  readonly bound: number;
  readonly sense: Sense;
  readonly unit: string;
  readonly basis: string;
  readonly holds: boolean;
  readonly authority: 'law' | 'house';
  readonly citation: string;
  readonly read: string;
}

export interface SwitchedOffLine {
  readonly says: string;
  readonly citation: string;
  readonly reason: string;
  /** How the batch stands to it all the same. */
  readonly found: string;
}

export interface SheetParts {
  readonly plant: Plant;
  readonly product: Product;
  readonly standard: Standard;
  readonly date: string;
  readonly blend: Blend;
  readonly edition: string;
  readonly casing?: Material;
}

/** Puts together what a settled blend means for the floor; every weight is one that the blend has proven. */
export function batchSheet({
  plant,
  product,
  standard,
  date,
  blend,
  edition,
  casing,
}: SheetParts): BatchSheet {
  const { form, process } = product;
  return {
    plant: { name: plant.name, establishment: plant.establishment },
    product: { id: product.id, name: product.name },
    standard: { says: standard.says, citation: standard.citation, edition },
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
    pick: blend.lines.flatMap((line) => pickLine(line, blend.loads)),
    weigh: blend.lines.map((line, index) => weighLine(line, index, blend.loads)),
    mixing: process.mixing,
    grindPlates: process.grindPlates,
    ...(casing && { stuffInto: casing.name }),
    leftOut: blend.leftOut.map(({ supply, because }) => ({
      supplyId: supply.id,
      material: supply.material.name,
      because,
    })),
    proof: blend.checks.map(proofLine),
    switchedOff: blend.switchedOff.map(switchedOffLine),
    laboratory: inForceOn(standard.laboratory ?? [], date).map(({ says, citation, read }) => ({
      says,
      citation,
      read,
    })),
    makeup: { raw: blend.raw, finished: blend.finished },
    howSure: howSure(blend),
    cost: costs(blend, plant.currency),
    fillIn: fillIn(product),
    cautions: [...blend.cautions, ...standingCautions(product, blend.lines)],
  };
}

function bothUnits(massKg: number): BothUnits {
  return { kg: massKg, lb: inUnit(massKg, 'lb') };
}

function pickLine({ supply, massKg, weight }: BlendLine, loads: number): PickLine[] {
  const { lot, material } = supply;
  if (!lot) return [];
  const { location, supplierEstablishment, supplierLot, useByDate, boxKg } = lot;
  return [
    {
      lotId: lot.id,
      material: material.name,
      mass: bothUnits(massKg),
      fetch: `${printedWeight(weight.scale, weight.divisions * loads).text} ${weight.scale.unit}`,
      state: lot.state,
      ...(boxKg !== undefined && {
        boxes: supply.boxes === undefined ? boxesOf(massKg, boxKg) : wholeBoxes(supply.boxes),
      }),
      ...(location !== undefined && { location }),
      ...(supplierEstablishment !== undefined && { supplierEstablishment }),
      ...(supplierLot !== undefined && { supplierLot }),
      ...(useByDate !== undefined && { useByDate }),
    },
  ];
}

/** Boxes that are emptied: what the division of the scale leaves of one goes in with the last load. */
function wholeBoxes(full: number) {
  return { full, rest: bothUnits(0) };
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
    drafts: Math.ceil(massKg / loads / capacityKg(weight.scale) - 1e-9),
    perLoad: bothUnits(massKg / loads),
    ...(asked && { asked: askedText(asked) }),
    ...(isCure(supply.material) && { cure: true }),
  };
}

/** What is weighed in for its cure; rework only brings along what it holds. */
function isCure(material: Material): boolean {
  return carries(material, CURING_AGENTS) && !isRework(material);
}

function askedText({ fraction, basis, actualFraction, togetherWith }: AskedRate): string {
  const together = togetherWith.length > 0 ? `, together with ${togetherWith.join(', ')}` : '';
  return `${inShownUnit(fraction, 'percent')} % of ${basis} (weighed ${fixed(actualFraction * 100, 4)} %)${together}`;
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

function switchedOffLine({ limit, reason, check }: SwitchedOff): SwitchedOffLine {
  const found = check
    ? `${describeCheck(check)}${check.holds ? '' : ': NOT MET'}`
    : 'not worked out: a figure is unknown';
  return { says: limit.says, citation: sourceOf(limit), reason, found };
}

function costs(blend: Blend, currency: string): BatchSheet['cost'] {
  const { cost, batchKg, finishedKg } = blend;
  const perKgRaw = cost / batchKg;
  const perKgFinished = cost / finishedKg;
  return {
    batch: cost,
    perKgRaw,
    perLbRaw: pricePerUnit(perKgRaw, 'lb'),
    perKgFinished,
    perLbFinished: pricePerUnit(perKgFinished, 'lb'),
    notes: costNotes(blend, currency),
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

function costNotes({ proof, costOfCertainty, costOfOlderFirst, choice }: Blend, currency: string): string[] {
  const money = (amount: number) => `${fixed(amount, 2)} ${currency}`;
  return [
    proofText(proof, currency),
    ...(costOfCertainty === undefined
      ? []
      : [`Being as sure as asked costs ${money(costOfCertainty)} of it.`]),
    ...(costOfOlderFirst === undefined
      ? []
      : [`Using older lots first costs ${money(costOfOlderFirst)} of it.`]),
    ...(choice
      ? [
          `Lots were chosen as the floor asked; the engine reports that no such choice costs less than ${money(choice.reportedLeastCost)} before rounding.`,
        ]
      : []),
  ];
}

/** A sentence for each limit that was asked to hold with a confidence, and for those that may well not hold. */
function howSure({ certainty }: Blend): string[] {
  return certainty.map(({ limit, probability, sdFraction, confidence }) => {
    const asked = confidence === undefined ? '' : `, ${percentOfFraction(confidence)} % was asked`;
    const sign = limit.unit === 'percent' ? 'points' : limit.unit;
    return `${limit.says} Holds with a probability of ${fixed(probability * 100, 1)} %${asked} (sd ${fixed(inShownUnit(sdFraction, limit.unit), 2)} ${sign}).`;
  });
}
