import type { Plant } from '../../batch/plant.ts';
import type { GivenWeight, PackFormat, Product } from '../../batch/product.ts';
import { compare, exact, multiply } from '../../exact.ts';
import { isPoultryProduct, type Standard } from '../../rules/standard.ts';
import { KILOGRAMS_PER } from '../../units.ts';
import { claimsToPrint } from '../claims.ts';
import type { Declaration } from '../declaration.ts';
import type { Run } from '../ingredients/runs.ts';
import type { NutritionPanel } from '../nutrition/panel.ts';
import type { LabelCode } from './codes.ts';
import { LabelRefused } from './label-refused.ts';
import { type NetWeight, type NetWeightStatement, netWeightStatement } from './net-weight.ts';
import { packCodes } from './pack-codes.ts';
import { type LabelDate, labelDates, lastDay, type PackDays } from './pack-dates.ts';
import { panelOnPack } from './pack-panel.ts';
import { moneyText, totalCents, unitPriceText } from './price.ts';
import { type SafeHandling, safeHandling } from './safe-handling.ts';

/** Everything that stands on one pack, in final words and figures; only its place on paper is open. */
export interface PackLabel {
  readonly jurisdiction: string;
  readonly name: string;
  /** '80% lean / 20% fat': its parts stand in one size. */
  readonly leanPair?: string;
  /** Lines that stand with the name. */
  readonly qualifiers: readonly string[];
  /** Claims that hold. */
  readonly claims: readonly string[];
  /** Where the animals lived, where that must be told. */
  readonly origin: readonly string[];
  readonly ingredients: readonly Run[];
  readonly allergens?: string;
  /** Meat as the label must count it. */
  readonly meatContent?: string;
  readonly storage: string;
  /** What raw product asks of whoever cooks it. */
  readonly handling?: string;
  /** '8 links' */
  readonly pieces?: string;
  readonly netWeight: { readonly text: string; readonly printed: GivenWeight; readonly citation: string };
  readonly tare?: string;
  readonly price?: { readonly unit: string; readonly total: string };
  readonly dates: readonly LabelDate[];
  readonly lotId: string;
  readonly plant: {
    readonly name: string;
    readonly address: readonly string[];
    readonly establishment: string;
  };
  /** What the place of the official mark is called on the label (9 CFR 317.2(i)); the mark is not drawn. */
  readonly inspection?: string;
  readonly safeHandling?: SafeHandling;
  readonly nutrition?: NutritionPanel;
  readonly codes: readonly LabelCode[];
  /** Id of the stock that the pack or the plant's printer takes. */
  readonly labelStock?: string;
  readonly cautions: readonly string[];
}

export interface PackOf extends PackDays {
  readonly declaration: Declaration;
  readonly product: Product;
  readonly standard: Standard;
  readonly plant: Plant;
  /** Absent for packs that are none of the product's formats: they carry no number and no price. */
  readonly format?: PackFormat;
  /** What the pack declares, or what it weighed. */
  readonly net?: GivenWeight;
  readonly lotId: string;
}

/**
 * The label of one pack.
 * @throws LabelRefused with everything that is missing or cannot be printed.
 */
export function packLabel(of: PackOf): PackLabel {
  const { declaration, product, standard, plant, format, lotId } = of;
  const { jurisdiction } = product.standard;
  const net = of.net ?? format?.netWeight;
  const faults = missing(of, net);
  if (!net || !plant.address || faults.length > 0) throw new LabelRefused(faults);
  const isWeighed = format !== undefined && format.netWeight === undefined;
  const netWeight = printedNet({ net, isWeighed, jurisdiction, units: plant.units });
  const last = lastDay(declaration, of);
  const labelStock = format?.labelStock ?? plant.printing?.labelStock;
  const panel = product.label.nutritionExemption === undefined ? declaration.nutrition?.panel : undefined;
  const cents = format?.price && totalCents(netWeight.printed, format.price);
  return {
    jurisdiction,
    name: declaration.name,
    ...(declaration.leanPair && { leanPair: declaration.leanPair.text }),
    qualifiers: declaration.qualifiers.map(({ text }) => text),
    claims: claimsToPrint(declaration),
    origin: (declaration.origin ?? []).map(({ text }) => text),
    ingredients: statementOf(declaration, jurisdiction),
    ...(declaration.allergens.text !== undefined && { allergens: declaration.allergens.text }),
    ...meatContentOf(declaration),
    storage: declaration.storage?.text ?? STORAGE[product.label.storage],
    ...(declaration.cookingInstruction && { handling: declaration.cookingInstruction.text }),
    ...(format?.pieces !== undefined && { pieces: pieces(format.pieces, product) }),
    netWeight,
    ...(format?.tare && { tare: `Tare ${format.tare.value} ${format.tare.unit}` }),
    ...(format?.price &&
      cents !== undefined && {
        price: {
          unit: unitPriceText(format.price, plant.currency),
          total: moneyText(cents, plant.currency),
        },
      }),
    dates: labelDates(of.packedDate, last, jurisdiction),
    lotId,
    plant: { name: plant.name, address: plant.address, establishment: plant.establishment },
    ...(declaration.inspection && { inspection: placeOf(declaration.inspection.text) }),
    ...(declaration.safeHandling && { safeHandling: safeHandling(isPoultryProduct(standard)) }),
    ...(panel && { nutrition: panelOnPack(panel, product, format, netWeight.printed) }),
    codes: format
      ? packCodes({
          format,
          printed: netWeight.printed,
          cents,
          priceCode: plant.printing?.priceCode,
          packedDate: of.packedDate,
          last,
          lotId,
        })
      : [],
    ...(labelStock !== undefined && { labelStock }),
    cautions: cautionsOf(of, isWeighed),
  };
}

function printedNet(net: NetWeight): NetWeightStatement {
  try {
    return netWeightStatement(net);
  } catch (error) {
    throw new LabelRefused([`${(error as RangeError).message}.`]);
  }
}

/** 'place of the inspection legend' out of 'Inspection legend with establishment number … goes here'. */
function placeOf(inspection: string): string {
  const [mark = inspection] = inspection.split(' with ');
  return `place of the ${mark.charAt(0).toLowerCase()}${mark.slice(1)}`;
}

/** A product of one ingredient is named by it and needs no statement in the United States (9 CFR 317.2(f), secondary). */
function statementOf({ ingredients }: Declaration, jurisdiction: string): Run[] {
  const [only, ...others] = ingredients.ingredients;
  if (jurisdiction === 'us' && only && others.length === 0 && only.parts.length === 0) return [];
  return [
    { text: 'Ingredients: ', emphasized: false },
    ...(ingredients.runs ?? [{ text: ingredients.text, emphasized: false }]),
  ];
}

/** It stands in the ingredient statement where that gives amounts. */
function meatContentOf({ meatContent, ingredients }: Declaration): Pick<PackLabel, 'meatContent'> {
  if (!meatContent || ingredients.ingredients.some(({ quantity }) => quantity !== undefined)) return {};
  return { meatContent: `Meat content: ${meatContent.text}` };
}

const STORAGE = { 'keep refrigerated': 'Keep Refrigerated', 'keep frozen': 'Keep Frozen' } as const;

function missing(
  { plant, format, useByDate, bestBeforeDate, packedDate }: PackOf,
  net: GivenWeight | undefined,
): string[] {
  const isWeighed = format !== undefined && format.netWeight === undefined;
  const last = useByDate ?? bestBeforeDate;
  return [
    ...(plant.address
      ? []
      : ['The plant has no address; give the lines of its place of business in the plant\'s "address".']),
    ...(net ? [] : ['Nothing says what the pack weighs; give its net weight as net and unit.']),
    ...(last !== undefined && last < packedDate
      ? [`${last} is before the day of packing, ${packedDate}; correct one of the two.`]
      : []),
    ...(isWeighed && format.itemNumber !== undefined && !format.price
      ? [`Pack ${format.id} has an item number for a price in its code and no price; give its price.`]
      : []),
    ...(isWeighed && format.itemNumber !== undefined && !plant.printing?.priceCode
      ? [
          'Nothing says how the price stands in the code; give "priceCode" in the plant\'s "printing", as the numbering authority of the country and the shop have it.',
        ]
      : []),
    ...(net && format?.netWeight && !isSameWeight(net, format.netWeight)
      ? [
          `Pack ${format.id} declares ${format.netWeight.value} ${format.netWeight.unit}, not ${net.value} ${net.unit}; leave the net weight out, or take a format without netWeight.`,
        ]
      : []),
  ];
}

function isSameWeight(a: GivenWeight, b: GivenWeight): boolean {
  const kg = ({ value, unit }: GivenWeight) => multiply(exact(value), KILOGRAMS_PER[unit]);
  return compare(kg(a), kg(b)) === 0;
}

function pieces(count: number, { form }: Product): string {
  const one = { link: 'link', patty: 'patty', chub: 'chub', bulk: 'piece' }[form.shape];
  if (count === 1) return `1 ${one}`;
  return `${count} ${one === 'patty' ? 'patties' : `${one}s`}`;
}

function cautionsOf(of: PackOf, isWeighed: boolean): string[] {
  const { declaration, product, plant } = of;
  return [
    'Hold the first label of each run against the product, its formula and its approval; the inspector and the rules of the place have the last word.',
    ...(declaration.inspection
      ? [
          'The official mark is no part of this label: it goes into the place that is left for it, in the form that the inspection service gives.',
        ]
      : []),
    ...(lastDay(declaration, of)
      ? []
      : ['No date says how long the product keeps; give one where the market or the buyer asks for it.']),
    ...(declaration.date?.text.includes('Frozen on')
      ? ['The day of freezing must stand on the package; this label does not have it.']
      : []),
    ...(isWeighed && plant.printing?.priceCode
      ? [
          'Each country sets the digits of numbers that carry a price: let the shop try a label before packs are sold.',
        ]
      : []),
    ...(declaration.nutrition?.panel || product.label.nutritionExemption !== undefined
      ? []
      : [
          'No nutrition panel is on this label, for none was worked out: print it on the package where the market asks for it.',
        ]),
    ...declaration.cautions,
  ];
}
