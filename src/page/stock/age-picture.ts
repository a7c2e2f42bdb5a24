import { isPast, isSoon, type LotFacts } from './lot-facts.ts';

/** The geometry of the picture of the stock: a row for each day, in it a segment for each lot, as wide as it weighs. */

export type By = 'left' | 'age';

export interface Segment {
  readonly facts: LotFacts;
  readonly x: number;
  readonly width: number;
}

export interface Row {
  /** Days from, to; both absent where there is no date. */
  readonly from?: number;
  readonly to?: number;
  readonly kind: 'past' | 'soon' | 'plain';
  readonly segments: readonly Segment[];
  readonly massKg: number;
  readonly value: number;
}

/** First days of the spans that stand in one row: single days in the first two weeks, then longer spans. */
const STARTS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 31, 92] as const;

interface Span {
  readonly from?: number;
  readonly to?: number;
}

function spanOf(days: number | undefined): Span {
  if (days === undefined) return {};
  if (days < 0) return { to: -1 };
  const at = STARTS.findLastIndex((start) => start <= days);
  const next = STARTS[at + 1];
  return { from: STARTS[at] ?? 0, ...(next !== undefined && { to: next - 1 }) };
}

/**
 * Rows from top to bottom: what must be used first, or what is oldest, on top; days without a lot have no row.
 * @param width in pixels, of the heaviest row.
 */
export function pictureRows(lots: readonly LotFacts[], by: By, width: number): Row[] {
  const rows = new Map<string, { span: Span; lots: LotFacts[] }>();
  for (const facts of lots) {
    const span = spanOf(by === 'left' ? facts.daysLeft : Math.max(0, facts.ageDays));
    const key = `${span.from}|${span.to}`;
    const row = rows.get(key);
    if (row) row.lots.push(facts);
    else rows.set(key, { span, lots: [facts] });
  }
  const massOf = (of: readonly LotFacts[]) => of.reduce((sum, { lot }) => sum + lot.onHand.kg, 0);
  const perKg = width / Math.max(...[...rows.values()].map((row) => massOf(row.lots)), Number.MIN_VALUE);
  const place = ({ from, to }: Span) => (from === undefined ? (to === undefined ? 1e6 : -1) : from);
  const sign = by === 'left' ? 1 : -1;
  return [...rows.values()]
    .toSorted((a, b) => sign * (place(a.span) - place(b.span)))
    .map(({ span, lots: of }) => ({
      ...span,
      kind: of.every(isPast) ? 'past' : of.some((facts) => isPast(facts) || isSoon(facts)) ? 'soon' : 'plain',
      segments: segmentsOf(of, perKg),
      massKg: massOf(of),
      value: of.reduce((sum, { value }) => sum + value, 0),
    }));
}

/** The leanest first. */
function segmentsOf(lots: readonly LotFacts[], perKg: number): Segment[] {
  let x = 0;
  return lots
    .toSorted((a, b) => (a.fatFraction ?? 2) - (b.fatFraction ?? 2) || a.lot.id.localeCompare(b.lot.id))
    .map((facts) => {
      const width = facts.lot.onHand.kg * perKg;
      const segment = { facts, x, width };
      x += width;
      return segment;
    });
}
