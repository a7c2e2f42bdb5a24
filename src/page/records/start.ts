import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';

/** Where a trace or a drill starts: one of our lots, a number on a supplier's box, or a batch. */

export const STARTS = ['lot', 'supplierLot', 'batch'] as const;
export type StartBy = (typeof STARTS)[number];

export interface Start {
  readonly by: StartBy;
  readonly id: string;
  /** Establishment number of the supplier, where two use the same lot number; '' for any. */
  readonly supplier: string;
}

/** As the API takes it, in a body or a query. */
export function startAsked({ by, id, supplier }: Start) {
  const name = id.trim();
  if (by === 'lot') return { lotId: name };
  if (by === 'batch') return { batchId: name };
  return { supplierLot: name, ...(supplier.trim() !== '' && { supplierEstablishment: supplier.trim() }) };
}

/** As it stands in the address of a place. */
export function startInQuery({ by, id, supplier }: Start): Record<string, string> {
  const name = id.trim();
  return { [by]: name, ...(by === 'supplierLot' && supplier.trim() !== '' && { supplier: supplier.trim() }) };
}

/** Undefined where the address names no start. */
export function startOfQuery(query: URLSearchParams): Start | undefined {
  for (const by of STARTS) {
    const id = query.get(by)?.trim();
    if (id) return { by, id, supplier: query.get('supplier') ?? '' };
  }
  return undefined;
}

/** The field that the API points at when the start is wrong. */
export const START_POINTERS = ['/lotId', '/batchId', '/supplierLot'] as const;

export type Direction = 'forward' | 'back';

/** The address of a trace. */
export const traceOf = (start: Start, direction: Direction = 'forward') =>
  to('records', 'trace') + queryOf({ ...startInQuery(start), ...(direction === 'back' && { direction }) });

/** The address of a trace of one of our lots. */
export const traceOfLot = (id: string, direction?: Direction) =>
  traceOf({ by: 'lot', id, supplier: '' }, direction);
