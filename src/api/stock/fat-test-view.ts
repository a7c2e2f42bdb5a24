import type { FatTest } from '../../batch/trim-learning.ts';
import type { Db } from '../../store/open.ts';
import type { TestRow } from '../../store/schema.ts';
import type { FatTestAnswer } from '../contract/fat-tests.ts';
import { personsOf, type UnderWay } from './people.ts';

/** Tests of lots in the order in which they were written down. */
export async function testRowsOfLots(db: Db, lotIds: readonly string[]): Promise<TestRow[]> {
  if (lotIds.length === 0) return [];
  return db
    .selectFrom('tests')
    .selectAll()
    .where('subjectKind', '=', 'lot')
    .where('subjectId', 'in', lotIds)
    .orderBy('seq')
    .execute();
}

/** A test of a lot names its trim; one of a batch may name the load. */
type TestBody = Omit<FatTest, 'materialId' | 'supplierEstablishment' | 'date'> &
  Partial<FatTest> & { readonly load?: number };

export async function testAnswers(
  db: Db,
  rows: readonly TestRow[],
  now?: UnderWay,
): Promise<FatTestAnswer[]> {
  const personOf = await personsOf(
    db,
    rows.map(({ entry }) => entry),
    now,
  );
  return rows.map(({ seq, subjectKind, subjectId, body, day, at, entry }) => {
    const { fatFraction, method, sdFraction, materialId, supplierEstablishment, load, date } = JSON.parse(
      body,
    ) as TestBody;
    return {
      seq,
      ...(subjectId !== '' && (subjectKind === 'batch' ? { batchId: subjectId } : { lotId: subjectId })),
      ...(materialId !== undefined && { materialId }),
      ...(supplierEstablishment && { supplierEstablishment }),
      ...(load !== undefined && { load }),
      fatFraction,
      method,
      ...(sdFraction !== undefined && { sdFraction }),
      date: date ?? day,
      at,
      by: personOf(entry),
    };
  });
}
