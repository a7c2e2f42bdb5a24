import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';

/**
 * Cautions where what leaves the plant comes from batches whose record nobody has reviewed yet: it is reviewed before the
 * product is shipped (9 CFR 417.5(c), from memory, verify).
 */
export async function notReviewed(db: Db, lots: readonly Pick<LotRow, 'batchId'>[]): Promise<string[]> {
  const made = [...new Set(lots.flatMap(({ batchId }) => batchId ?? []))];
  if (made.length === 0) return [];
  const open = await db
    .selectFrom('batches')
    .select('id')
    .where('id', 'in', made)
    .where('state', '!=', 'closed')
    .orderBy('id')
    .execute();
  return open.map(
    ({ id }) =>
      `Batch ${id} is not closed: review its record before what it made leaves the plant (9 CFR 417.5(c), from memory, verify).`,
  );
}
