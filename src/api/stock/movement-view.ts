import type { Db } from '../../store/open.ts';
import type { MovementRow } from '../../store/schema.ts';
import type { MovementAnswer } from '../contract/movements.ts';
import { weight } from './lot-view.ts';
import { personsOf, type UnderWay } from './people.ts';

/** What is kept of a movement beside its weights. */
export interface MovementDetails {
  readonly entered?: { readonly value: string; readonly unit: string };
  readonly to?: string;
  readonly document?: string;
  readonly packs?: number;
  readonly pieces?: number;
  readonly boxes?: number;
}

/** Movements as answers show them. */
export async function movementAnswers(
  db: Db,
  rows: readonly MovementRow[],
  now?: UnderWay,
): Promise<MovementAnswer[]> {
  const personOf = await personsOf(
    db,
    rows.map(({ entry }) => entry),
    now,
  );
  const reversals = await reversalsOf(
    db,
    rows.map(({ seq }) => seq),
  );
  return rows.map((row) => {
    const reversedBy = reversals.get(row.seq);
    return {
      seq: row.seq,
      lotId: row.lotId,
      kind: row.kind,
      mass: weight(row.massUg),
      reserved: weight(row.reservedUg),
      after: { onHand: weight(row.onHandAfterUg), reserved: weight(row.reservedAfterUg) },
      ...(row.batchId !== null && { batchId: row.batchId }),
      ...(row.otherLotId !== null && { otherLotId: row.otherLotId }),
      ...(row.reverses !== null && { reverses: row.reverses }),
      ...(reversedBy !== undefined && { reversedBy }),
      ...(row.reason !== null && { reason: row.reason }),
      ...detailsOf(row),
      at: row.at,
      day: row.day,
      by: personOf(row.entry),
    };
  });
}

function detailsOf({ details, kind }: Pick<MovementRow, 'details' | 'kind'>): MovementDetails {
  if (details === null) return {};
  // What batches keep of their packs is told by the lot.
  if (kind === 'packed') return {};
  const { entered, to, document, packs, pieces, boxes } = JSON.parse(details) as MovementDetails;
  return {
    ...(entered && { entered }),
    ...(to !== undefined && { to }),
    ...(document !== undefined && { document }),
    ...(packs !== undefined && { packs }),
    ...(pieces !== undefined && { pieces }),
    ...(boxes !== undefined && { boxes }),
  };
}

/** The movement that took each of these back. */
export async function reversalsOf(db: Db, seqs: readonly number[]): Promise<Map<number, number>> {
  if (seqs.length === 0) return new Map();
  const rows = await db
    .selectFrom('movements')
    .select(['seq', 'reverses'])
    .where('reverses', 'in', seqs)
    .execute();
  return new Map(rows.flatMap(({ seq, reverses }) => (reverses === null ? [] : [[reverses, seq] as const])));
}
