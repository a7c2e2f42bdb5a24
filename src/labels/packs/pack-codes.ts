import type { PriceCode } from '../../batch/plant.ts';
import type { GivenWeight, PackFormat } from '../../batch/product.ts';
import { type ElementString, elementStrings, elementText, type LabelCode, pricedNumber } from './codes.ts';
import type { LastDay } from './pack-dates.ts';

export interface PackToCode {
  readonly format: PackFormat;
  /** The weight as it is printed. */
  readonly printed: GivenWeight;
  /** Price of the pack. */
  readonly cents: bigint | undefined;
  readonly priceCode: PriceCode | undefined;
  readonly packedDate: string;
  readonly last: LastDay | undefined;
  readonly lotId: string;
}

const RETAIL = { 8: 'ean-8', 12: 'upc-a', 13: 'ean-13' } as const;

/**
 * For the till, the number or the price of the pack; for tracing, number, weight, dates and lot in one code.
 * @throws LabelRefused for what a code cannot hold.
 */
export function packCodes(of: PackToCode): LabelCode[] {
  const { printed, cents, priceCode, packedDate, last, lotId } = of;
  const { gtin, itemNumber, netWeight } = of.format;
  const isWeighed = netWeight === undefined;
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
