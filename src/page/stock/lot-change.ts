import { parseMass } from '../figures/mass.ts';
import type { DecimalMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import type { LotAnswer } from './stock-types.ts';

/** What of a lot is changed by hand, as it stands in a form. */
export interface TypedLot {
  readonly location: string;
  readonly useByDate: string;
  readonly packedDate: string;
  readonly state: string;
  /** Why the state changed. */
  readonly note: string;
  readonly price: TypedMass;
  readonly supplierEstablishment: string;
  readonly supplierLot: string;
  readonly born: string;
  readonly raised: string;
  readonly slaughtered: string;
}

const TEXTS = ['location', 'useByDate', 'packedDate', 'supplierEstablishment', 'supplierLot'] as const;
const ORIGIN = ['born', 'raised', 'slaughtered'] as const;

/** A lot as the form shows it. @param priceText its price per unit as digits. */
export function typedLot(lot: LotAnswer, price: TypedMass): TypedLot {
  return {
    location: lot.location ?? '',
    useByDate: lot.useByDate ?? '',
    packedDate: lot.packedDate ?? '',
    state: lot.state,
    note: '',
    price,
    supplierEstablishment: lot.supplierEstablishment ?? '',
    supplierLot: lot.supplierLot ?? '',
    born: lot.origin?.bornIn ?? '',
    raised: lot.origin?.raisedIn ?? '',
    slaughtered: lot.origin?.slaughteredIn ?? '',
  };
}

/**
 * What differs from the books, as the service takes it: an empty field takes the value away.
 * @returns undefined where nothing differs, or a price cannot be read.
 */
export function lotChange(typed: TypedLot, now: TypedLot, mark: DecimalMark): object | undefined {
  const change: Record<string, unknown> = {};
  for (const field of TEXTS) {
    const text = typed[field].trim();
    if (text !== now[field]) change[field] = text === '' ? null : text;
  }
  if (typed.state !== now.state) {
    change.state = typed.state;
    if (typed.note.trim() !== '') change.note = typed.note.trim();
  }
  if (typed.price.text !== now.price.text || typed.price.unit !== now.price.unit) {
    const parsed = parseMass(typed.price.text, typed.price.unit, mark);
    if (parsed.kind !== 'mass') return undefined;
    change.cost = { amount: parsed.value, per: parsed.unit };
  }
  if (ORIGIN.some((place) => typed[place].trim() !== now[place])) {
    const [bornIn, raisedIn, slaughteredIn] = ORIGIN.map((place) => typed[place].trim().toUpperCase());
    change.origin = bornIn || raisedIn || slaughteredIn ? { bornIn, raisedIn, slaughteredIn } : null;
  }
  return Object.keys(change).length > 0 ? change : undefined;
}
