import type { FatTest } from '../../batch/trim-learning.ts';
import type { Db } from '../../store/open.ts';
import type { TestRow } from '../../store/schema.ts';
import { withdrawalsOf } from '../../store/tests.ts';
import type { FatTestAnswer } from '../contract/fat-tests.ts';
import { personsOf, type UnderWay } from './people.ts';

/** A test of a lot names its trim; one of a batch may name the load. */
type TestBody = Omit<FatTest, 'materialId' | 'supplierEstablishment' | 'date'> &
  Partial<FatTest> & { readonly load?: number };

export async function testAnswers(
  db: Db,
  rows: readonly TestRow[],
  now?: UnderWay,
): Promise<FatTestAnswer[]> {
  const withdrawals = await withdrawalsOf(db, rows);
  const personOf = await personsOf(
    db,
    [...rows, ...withdrawals.values()].map(({ entry }) => entry),
    now,
  );
  return rows.map(({ seq, subjectKind, subjectId, body, day, at, entry }) => {
    const { fatFraction, method, sdFraction, materialId, supplierEstablishment, load, date } = JSON.parse(
      body,
    ) as TestBody;
    const withdrawal = withdrawals.get(seq);
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
      ...(withdrawal && {
        withdrawn: {
          reason: (JSON.parse(withdrawal.body) as { reason: string }).reason,
          at: withdrawal.at,
          by: personOf(withdrawal.entry),
        },
      }),
    };
  });
}
