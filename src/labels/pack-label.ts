import type { Plant } from '../batch/plant.ts';
import type { GivenWeight, PackFormat, Product } from '../batch/product.ts';
import { compare, exact, multiply } from '../exact.ts';
import type { Standard } from '../rules/standard.ts';
import { KILOGRAMS_PER } from '../units.ts';
import { claimsToPrint } from './claims.ts';
import { type ElementString, elementStrings, elementText, type LabelCode, pricedNumber } from './codes.ts';
import type { Declaration } from './declaration.ts';
import { LabelRefused } from './label-refused.ts';
import { type NetWeight, type NetWeightStatement, netWeightStatement } from './net-weight.ts';
import type { NutritionPanel } from './nutrition/panel.ts';
import { panelOnPack } from './pack-panel.ts';
import { moneyText, totalCents, unitPriceText } from './price.ts';
import type { Run } from './runs.ts';
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
  /** '8 links' */
  readonly pieces?: string;
  readonly netWeight: { readonly text: string; readonly printed: GivenWeight; readonly citation: string };
  readonly tare?: string;
  readonly price?: { readonly unit: string; readonly total: string };
  readonly dates: readonly { readonly says: string; readonly day: string; readonly text: string }[];
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

export interface PackOf {
  readonly declaration: Declaration;
  readonly product: Product;
  readonly standard: Standard;
  readonly plant: Plant;
  /** Absent for packs that are none of the product's formats: they carry no number and no price. */
  readonly format?: PackFormat;
  /** What the pack declares, or what it weighed. */
  readonly net?: GivenWeight;
  readonly lotId: string;
  /** YYYY-MM-DD, each. */
  readonly packedDate: string;
  readonly useByDate?: string;
  readonly bestBeforeDate?: string;
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
    ...(declaration.meatContent && { meatContent: declaration.meatContent.text }),
    storage: [
      declaration.storage?.text ?? STORAGE[product.label.storage],
      ...(declaration.cookingInstruction ? [declaration.cookingInstruction.text] : []),
    ].join('. '),
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
    dates: datesOf(of),
    lotId,
    plant: { name: plant.name, address: plant.address, establishment: plant.establishment },
    ...(declaration.inspection && { inspection: placeOf(declaration.inspection.text) }),
    ...(declaration.safeHandling && { safeHandling: safeHandling(isPoultry(standard)) }),
    ...(panel && { nutrition: panelOnPack(panel, product, format, netWeight.printed) }),
    codes: format ? codesOf(of, format, { isWeighed, printed: netWeight.printed, cents }) : [],
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

const STORAGE = { 'keep refrigerated': 'Keep Refrigerated', 'keep frozen': 'Keep Frozen' } as const;

/** Poultry has its rules in part 381 of title 9. */
function isPoultry({ citation }: Standard): boolean {
  return citation.includes('9 CFR 381');
}

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

/** Codes of months that are read in English and French (Food and Drug Regulations B.01.007, from memory, verify). */
const CANADIAN_MONTHS = ['JA', 'FE', 'MR', 'AL', 'MA', 'JN', 'JL', 'AU', 'SE', 'OC', 'NO', 'DE'];
const MONTHS = ['JAN', 'FEB', 'MAR', 'APR', 'MAY', 'JUN', 'JUL', 'AUG', 'SEP', 'OCT', 'NOV', 'DEC'];

/** The month in letters, so that no order of figures is misread; the day first outside North America. */
function dayText(day: string, jurisdiction: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  const at = Number(month) - 1;
  if (jurisdiction === 'ca') return `${year} ${CANADIAN_MONTHS[at]} ${date}`;
  return jurisdiction === 'us' ? `${MONTHS[at]} ${date} ${year}` : `${date} ${MONTHS[at]} ${year}`;
}

/** The day until which it keeps, by the word that the market has for it; a day that is given as best before stays so. */
function lastDay({ declaration, useByDate, bestBeforeDate }: PackOf) {
  const isBestBefore = bestBeforeDate !== undefined || declaration.date?.text.startsWith('Best before');
  const day = bestBeforeDate ?? useByDate;
  return day === undefined ? undefined : { says: isBestBefore ? 'Best before' : 'Use by', day };
}

function datesOf(of: PackOf): PackLabel['dates'] {
  const { jurisdiction } = of.product.standard;
  const last = lastDay(of);
  return [{ says: 'Packed', day: of.packedDate }, ...(last ? [last] : [])].map(({ says, day }) => ({
    says,
    day,
    text: dayText(day, jurisdiction),
  }));
}

const RETAIL = { 8: 'ean-8', 12: 'upc-a', 13: 'ean-13' } as const;

/** For the till, the number or the price of the pack; for tracing, number, weight, dates and lot in one code. */
function codesOf(
  of: PackOf,
  { gtin, itemNumber }: PackFormat,
  {
    isWeighed,
    printed,
    cents,
  }: { readonly isWeighed: boolean; readonly printed: GivenWeight; readonly cents: bigint | undefined },
): LabelCode[] {
  const { plant, packedDate, lotId } = of;
  const { priceCode } = plant.printing ?? {};
  const last = lastDay(of);
  const codes: LabelCode[] = [];
  if (isWeighed && itemNumber !== undefined && priceCode && cents !== undefined) {
    const data = pricedNumber(itemNumber, cents, priceCode);
    codes.push({ symbology: 'upc-a', data, says: 'item and price, for the till' });
  }
  if (gtin === undefined) return codes;
  const retail = RETAIL[gtin.length as keyof typeof RETAIL];
  if (retail) codes.push({ symbology: retail, data: gtin, says: 'item, for the till' });
  const pack = {
    gtin,
    lotId,
    packedDate,
    ...(isWeighed && { net: printed }),
    ...(last && { [last.says === 'Use by' ? 'useByDate' : 'bestBeforeDate']: last.day }),
  };
  const says = isWeighed ? 'item, weight, dates and lot, for tracing' : 'item, dates and lot, for tracing';
  if (codes.length === 0) codes.push(...longCodes(elementStrings(pack)));
  const whole = { ...pack, ...(isWeighed && cents !== undefined && { cents }) };
  return [...codes, { symbology: 'gs1-datamatrix', data: elementText(elementStrings(whole)), says }];
}

/** Bars get long: number, weight and dates in one symbol, the lot in another, as a case label has them. */
function longCodes(elements: readonly ElementString[]): LabelCode[] {
  const code = (data: readonly ElementString[], says: string): LabelCode => ({
    symbology: 'gs1-128',
    data: elementText(data),
    says,
  });
  return [
    code(elements.slice(0, -1), 'item, weight and dates, for the receiver'),
    code(elements.slice(-1), 'lot, for the receiver'),
  ];
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
    ...(lastDay(of)
      ? []
      : ['No date says how long the product keeps; give one where the market or the buyer asks for it.']),
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
