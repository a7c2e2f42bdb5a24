import { gs1CheckDigit } from '../../batch/gtin.ts';
import type { PriceCode } from '../../batch/plant.ts';
import type { GivenWeight } from '../../batch/product.ts';
import { LabelRefused } from './label-refused.ts';

/** Numbers and element strings of the codes on a pack (GS1 General Specifications); how they look is for documents. */

export const SYMBOLOGIES = ['upc-a', 'ean-13', 'ean-8', 'gs1-128', 'gs1-datamatrix'] as const;
export type Symbology = (typeof SYMBOLOGIES)[number];

export interface LabelCode {
  readonly symbology: Symbology;
  /** Digits, or element strings with their identifiers in brackets: '(01)…(10)…'. */
  readonly data: string;
  /** What it is for, in words. */
  readonly says: string;
}

export interface ElementString {
  /** Application identifier. */
  readonly ai: string;
  readonly value: string;
}

export interface CodedPack {
  readonly gtin: string;
  /** The weight as it is printed, of a pack that was weighed for itself. */
  readonly net?: GivenWeight;
  readonly packedDate?: string;
  readonly useByDate?: string;
  readonly bestBeforeDate?: string;
  readonly lotId: string;
  /** What the pack costs in cents, of a weighed pack. */
  readonly cents?: bigint;
}

/**
 * The element strings of a pack in the order in which they are coded: fixed lengths first, the lot last, for its length
 * varies and what follows it would need a separator. Weight and price belong to weighed packs alone.
 * @throws LabelRefused for a lot or weight that does not fit its field.
 */
export function elementStrings(pack: CodedPack): ElementString[] {
  const { gtin, net, packedDate, useByDate, bestBeforeDate, lotId, cents } = pack;
  return [
    { ai: '01', value: gtin.padStart(14, '0') },
    ...(net ? [weightElement(net)] : []),
    ...(packedDate === undefined ? [] : [{ ai: '13', value: codedDay(packedDate) }]),
    ...(bestBeforeDate === undefined ? [] : [{ ai: '15', value: codedDay(bestBeforeDate) }]),
    ...(useByDate === undefined ? [] : [{ ai: '17', value: codedDay(useByDate) }]),
    ...(cents === undefined ? [] : [{ ai: '3922', value: String(cents) }]),
    { ai: '10', value: codedLot(lotId) },
  ];
}

/** '(01)…(10)…', as it stands under the bars. */
export function elementText(elements: readonly ElementString[]): string {
  return elements.map(({ ai, value }) => `(${ai})${value}`).join('');
}

/** Net weight in kilograms is 310n, in pounds 320n; n says how many of the six digits are decimals. */
function weightElement({ value, unit }: GivenWeight): ElementString {
  const [whole = '', decimals = ''] = value.split('.');
  const digits = `${whole}${decimals}`.replace(/^0+/, '').padStart(6, '0');
  if (digits.length > 6 || decimals.length > 5) {
    throw new LabelRefused([
      `${value} ${unit} has more than the six digits that its code holds; give fewer decimals.`,
    ]);
  }
  return { ai: `${unit === 'kg' ? '310' : '320'}${decimals.length}`, value: digits };
}

/** YYYY-MM-DD as YYMMDD. */
function codedDay(day: string): string {
  return day.slice(2).replaceAll('-', '');
}

/**
 * Signs that a lot may have: set 82 of the General Specifications (from memory, verify), without the brackets that
 * stand around identifiers under the bars.
 */
const LOT_SIGNS = /^[!"%&'*+,\-./0-9:;<=>?A-Z_a-z]+$/;
const LONGEST_LOT = 20;

function codedLot(lotId: string): string {
  const faults = [
    ...(lotId.length > LONGEST_LOT
      ? [
          `Lot ${lotId} has ${lotId.length} signs; a code holds ${LONGEST_LOT}. Give the lot a shorter id for the label.`,
        ]
      : []),
    ...(LOT_SIGNS.test(lotId)
      ? []
      : [
          `Lot "${lotId}" has signs that a code cannot hold; use letters without accents, digits, and signs such as - . / _.`,
        ]),
  ];
  if (faults.length > 0) throw new LabelRefused(faults);
  return lotId;
}

/**
 * The restricted-circulation number of a weighed pack, 12 digits: 2, the item, its price, the check digit. With a
 * verifier the price has four digits and its own check digit before it.
 * @throws LabelRefused for a price that its digits cannot hold.
 */
export function pricedNumber(
  itemNumber: string,
  cents: bigint,
  { numberSystem, priceVerifier }: PriceCode,
): string {
  const digits = priceVerifier ? 4 : 5;
  const price = String(cents).padStart(digits, '0');
  if (price.length > digits) {
    const most = `${'9'.repeat(digits - 2)}.99`;
    throw new LabelRefused([
      `The price of this pack is above ${most}, the most that its code holds; make it smaller, or sell it without a price in its code (leave itemNumber out).`,
    ]);
  }
  const body = `${numberSystem}${itemNumber}${priceVerifier ? priceVerifierDigit(price) : ''}${price}`;
  return `${body}${gs1CheckDigit(body)}`;
}

/** What a digit counts at each weight: 2-, 3 and 5- (GS1 General Specifications 7.9, secondary: read in open code). */
const TWO_MINUS = [0, 2, 4, 6, 8, 9, 1, 3, 5, 7];
const THREE = [0, 3, 6, 9, 2, 5, 8, 1, 4, 7];
const FIVE_MINUS = [0, 5, 9, 4, 8, 3, 7, 2, 6, 1];

/** Check digit of a price of four digits: weights 2-, 2-, 3, 5-; three times their sum, its last digit. */
export function priceVerifierDigit(price: string): string {
  const weights = [TWO_MINUS, TWO_MINUS, THREE, FIVE_MINUS];
  const total = weights.reduce((sum, weight, at) => sum + (weight[Number(price[at])] ?? 0), 0);
  return String((total * 3) % 10);
}
