import { add, exact, toText, ZERO } from '../../exact.ts';
import { fixed, fractionOfPercent, inUnit, type MassUnit, pricePerUnit } from '../../units.ts';
import { addDays, daysBetween } from '../figures/days.ts';
import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import { suggestedId } from './lot-id.ts';
import type { LotAnswer, MaterialAnswer } from './stock-types.ts';

/** A delivery as it is typed; what is absent was not touched, and what is suggested stands there. */
export interface TypedReceipt {
  readonly materialId: string;
  readonly how: 'total' | 'boxes' | 'list';
  readonly total: TypedMass;
  readonly count: string;
  readonly box?: TypedMass;
  /** Weights of single boxes, with blanks between. */
  readonly list: string;
  readonly listUnit: MassUnit;
  readonly price?: TypedMass;
  readonly receivedDate?: string;
  readonly packedDate: string;
  readonly useByDate?: string;
  readonly state?: string;
  readonly supplier?: string;
  readonly supplierLot: string;
  readonly location?: string;
  readonly id?: string;
  readonly fat: string;
  readonly method: string;
  /** Whether the fat was tested here, and not told by the supplier. */
  readonly isTestedHere: boolean;
  readonly born: string;
  readonly raised: string;
  readonly slaughtered: string;
  readonly hold: string;
}

/** What stands in the fields that nobody has touched. */
export interface Suggested {
  readonly price: TypedMass;
  readonly receivedDate: string;
  readonly useByDate: string;
  readonly state: string;
  readonly supplier: string;
  readonly location: string;
  readonly box: TypedMass;
  readonly id: string;
  /** The lot that price, place and days follow. */
  readonly like?: LotAnswer;
  /** Days from packing to receipt of that lot. */
  readonly gapDays?: number;
}

export interface Setting {
  readonly material: MaterialAnswer | undefined;
  /** Lots that are known of, of any material. */
  readonly lots: readonly LotAnswer[];
  readonly today: string;
  readonly units: 'lb' | 'kg';
  readonly mark: DecimalMark;
}

/** Out of the latest lot of the material, of the same supplier where there is one. */
export function suggest(typed: TypedReceipt, { material, lots, today, units, mark }: Setting): Suggested {
  const receivedDate = typed.receivedDate ?? today;
  const ofIt = lots
    .filter(({ materialId }) => materialId === material?.id)
    .toSorted((a, b) => b.receivedDate.localeCompare(a.receivedDate) || b.id.localeCompare(a.id));
  const like = ofIt.find(({ supplierEstablishment }) => supplierEstablishment === typed.supplier) ?? ofIt[0];
  const state = typed.state ?? like?.state ?? 'chilled';
  const text = (value: number, decimals: number) => withMark(String(Number(fixed(value, decimals))), mark);
  return {
    price: { text: like ? text(pricePerUnit(like.costPerKg, units), 4) : '', unit: units },
    receivedDate,
    useByDate: useBy(typed.packedDate || receivedDate, ofIt, state, typed.packedDate !== ''),
    state,
    supplier: like?.supplierEstablishment ?? '',
    location: like?.location ?? '',
    box: { text: like?.boxKg === undefined ? '' : text(inUnit(like.boxKg, units), 2), unit: units },
    id: material
      ? suggestedId(
          material,
          receivedDate,
          ofIt.map(({ id }) => id),
          new Set(lots.map(({ id }) => id)),
        )
      : '',
    ...(like && { like }),
    ...(like?.packedDate !== undefined && { gapDays: daysBetween(like.packedDate, like.receivedDate) }),
  };
}

/** As many days as the latest lot of it in the same state had, from its packing where both days are known. */
function useBy(from: string, ofIt: readonly LotAnswer[], state: string, isPacked: boolean): string {
  const like = ofIt.find((lot) => lot.state === state && lot.useByDate !== undefined);
  if (like?.useByDate === undefined) return '';
  return addDays(from, daysBetween((isPacked && like.packedDate) || like.receivedDate, like.useByDate));
}

/** Box weights as typed: how many and what they add up to, to the last digit. */
export function boxList(list: string, mark: DecimalMark): { count: number; sum: string; wrong?: string } {
  let sum = ZERO;
  let count = 0;
  for (const word of list.split(/[\s;+]+/).filter(Boolean)) {
    const parsed = parseNumber(word, mark);
    if (parsed.kind !== 'number' || parsed.value <= 0) return { count, sum: toText(sum), wrong: word };
    sum = add(sum, exact(parsed.text));
    count += 1;
  }
  return { count, sum: toText(sum) };
}

export type ReceiptField = 'material' | 'weight' | 'count' | 'box' | 'price' | 'fat' | 'method' | 'origin';

/** The request that the typed receipt is, or the fields that are missing or cannot be read. */
export function receiptOf(
  typed: TypedReceipt,
  suggested: Suggested,
  mark: DecimalMark,
): { readonly body: object } | { readonly faults: readonly ReceiptField[] } {
  const faults: ReceiptField[] = [];
  const massOf = (given: TypedMass, field: ReceiptField) => {
    const parsed = parseMass(given.text, given.unit, mark);
    if (parsed.kind === 'mass') return { value: parsed.value, unit: parsed.unit };
    faults.push(field);
    return { value: 0, unit: given.unit };
  };
  if (typed.materialId === '') faults.push('material');
  const price = massOf(typed.price ?? suggested.price, 'price');
  const body = {
    ...text('id', typed.id ?? suggested.id),
    materialId: typed.materialId,
    ...weightOf(typed, suggested, mark, massOf, faults),
    cost: { amount: price.value, per: price.unit },
    receivedDate: suggested.receivedDate,
    ...text('packedDate', typed.packedDate),
    ...text('useByDate', typed.useByDate ?? suggested.useByDate),
    state: suggested.state,
    ...text('supplierEstablishment', typed.supplier ?? suggested.supplier),
    ...text('supplierLot', typed.supplierLot),
    ...text('location', typed.location ?? suggested.location),
    ...fatOf(typed, mark, faults),
    ...originOf(typed, faults),
    ...text('hold', typed.hold),
  };
  return faults.length > 0 ? { faults } : { body };
}

function text(name: string, value: string): object {
  return value.trim() === '' ? {} : { [name]: value.trim() };
}

function weightOf(
  { how, total, count, box, list, listUnit }: TypedReceipt,
  suggested: Suggested,
  mark: DecimalMark,
  massOf: (given: TypedMass, field: ReceiptField) => { value: number; unit: MassUnit },
  faults: ReceiptField[],
): object {
  if (how === 'total') return { mass: massOf(total, 'weight') };
  if (how === 'list') {
    const added = boxList(list, mark);
    if (added.wrong !== undefined || added.count === 0) faults.push('weight');
    return { mass: { value: Number(added.sum), unit: listUnit } };
  }
  const boxes = parseNumber(count, mark);
  if (boxes.kind !== 'number') faults.push('count');
  return {
    boxes: {
      count: boxes.kind === 'number' ? boxes.value : 0,
      mass: massOf(box ?? suggested.box, 'box'),
    },
  };
}

function fatOf(
  { fat, method, isTestedHere }: TypedReceipt,
  mark: DecimalMark,
  faults: ReceiptField[],
): object {
  const parsed = parseNumber(fat, mark);
  if (parsed.kind === 'empty') return {};
  if (parsed.kind !== 'number') faults.push('fat');
  else if (method.trim() === '') faults.push('method');
  else {
    const result = { fatFraction: fractionOfPercent(parsed.text), method: method.trim() };
    return isTestedHere ? { test: result } : { measuredFat: result };
  }
  return {};
}

function originOf({ born, raised, slaughtered }: TypedReceipt, faults: ReceiptField[]): object {
  const countries = [born, raised, slaughtered].map((typed) => typed.trim().toUpperCase());
  const [bornIn = '', raisedIn = '', slaughteredIn = ''] = countries;
  if (countries.every((country) => country === '')) return {};
  if (countries.includes('')) faults.push('origin');
  return { origin: { bornIn, raisedIn, slaughteredIn } };
}
