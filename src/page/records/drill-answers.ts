import type { DrillAnswer } from '../../api/records/contract.ts';
import { massKgOf, parseMass } from '../figures/mass.ts';
import type { DecimalMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import type { CountedLot } from './drill-count.ts';

/** What people tick off while a drill runs, and what is sent of it at its end. */

export interface TypedLot {
  readonly isFound: boolean;
  /** Undefined: as much as the books have. */
  readonly mass?: TypedMass;
  readonly note?: string;
}

export interface TypedReceiver {
  readonly isOn: boolean;
  readonly note?: string;
}

export interface TypedDrill {
  readonly lots: Readonly<Record<string, TypedLot>>;
  readonly contacted: Readonly<Record<string, TypedReceiver>>;
  readonly note: string;
}

export const NOTHING_FOUND: TypedDrill = { lots: {}, contacted: {}, note: '' };

type Lot = DrillAnswer['lots'][number];

/** Kilograms found of a lot: undefined while it was not, or where the weight cannot be read. */
export function foundKg(lot: Lot, typed: TypedLot | undefined, mark: DecimalMark): number | undefined {
  if (!typed?.isFound) return undefined;
  if (!typed.mass) return lot.onHand.kg;
  const parsed = parseMass(typed.mass.text, typed.mass.unit, mark);
  return parsed.kind === 'mass' ? massKgOf(parsed.value, parsed.unit) : undefined;
}

export const countedLots = (lots: readonly Lot[], typed: TypedDrill, mark: DecimalMark): CountedLot[] =>
  lots.map((lot) => ({ onHandKg: lot.onHand.kg, foundKg: foundKg(lot, typed.lots[lot.lotId], mark) }));

/** Lots that are ticked as found with a weight that cannot be read. */
export const unreadable = (lots: readonly Lot[], typed: TypedDrill, mark: DecimalMark) =>
  lots.filter(
    (lot) => typed.lots[lot.lotId]?.isFound && foundKg(lot, typed.lots[lot.lotId], mark) === undefined,
  );

/** Who got some of it and is known, with what each of them got. */
export function receiversOf({ consignees }: Pick<DrillAnswer, 'consignees'>) {
  const found = new Map<string, { massKg: number; documents: string[] }>();
  for (const { to, mass, document } of consignees) {
    if (to === undefined) continue;
    const own = found.get(to) ?? { massKg: 0, documents: [] };
    own.massKg += mass.kg;
    if (document !== undefined && !own.documents.includes(document)) own.documents.push(document);
    found.set(to, own);
  }
  return [...found].map(([to, own]) => ({ to, ...own }));
}

/** What is sent at the end; of a lot found as booked the exact weight of the books. */
export function finishBody(drill: DrillAnswer, typed: TypedDrill, mark: DecimalMark) {
  const noteOf = (note: string | undefined) => (note?.trim() ? { note: note.trim() } : {});
  const found = drill.lots.flatMap((lot) => {
    const own = typed.lots[lot.lotId];
    const massKg = foundKg(lot, own, mark);
    if (massKg === undefined) return [];
    const parsed = own?.mass && parseMass(own.mass.text, own.mass.unit, mark);
    const mass =
      parsed?.kind === 'mass'
        ? { value: parsed.value, unit: parsed.unit }
        : { value: lot.onHand.kg, unit: 'kg' as const };
    return [{ lotId: lot.lotId, mass, ...noteOf(own?.note) }];
  });
  const contacted = receiversOf(drill).flatMap(({ to }) => {
    const own = typed.contacted[to];
    return own?.isOn ? [{ to, ...noteOf(own.note) }] : [];
  });
  return { found, contacted, ...noteOf(typed.note) };
}
