import { Refused } from '../ledger/refused.ts';
import type { Db } from './open.ts';
import type { TestRow } from './schema.ts';
import type { Writing } from './store.ts';

/** Fat tests. One that was wrong is not changed: another row withdraws it. */

/** Subject of a row that withdraws a test; its subject id is the number of that test. */
export const WITHDRAWAL = 'withdrawn test';

/** Tests of lots that stand, in the order in which they were written down. */
export async function testsOfLots(db: Db, lotIds: readonly string[]): Promise<TestRow[]> {
  if (lotIds.length === 0) return [];
  const rows = await db
    .selectFrom('tests')
    .selectAll()
    .where('subjectKind', '=', 'lot')
    .where('subjectId', 'in', lotIds)
    .orderBy('seq')
    .execute();
  const withdrawn = await withdrawalsOf(db, rows);
  return rows.filter(({ seq }) => !withdrawn.has(seq));
}

/** The withdrawals of these tests, by the number of the test. */
export async function withdrawalsOf(
  db: Db,
  rows: readonly Pick<TestRow, 'seq'>[],
): Promise<Map<number, TestRow>> {
  if (rows.length === 0) return new Map();
  const withdrawals = await db
    .selectFrom('tests')
    .selectAll()
    .where('subjectKind', '=', WITHDRAWAL)
    .where(
      'subjectId',
      'in',
      rows.map(({ seq }) => String(seq)),
    )
    .execute();
  return new Map(withdrawals.map((row) => [Number(row.subjectId), row]));
}

/**
 * Withdraws a test of a lot; blends no longer go by it.
 * @throws Refused 'unknown', 'unfit' for the test of a batch, 'out of turn' when it is withdrawn already.
 */
export async function withdrawTest(writing: Writing, seq: number, reason: string): Promise<TestRow> {
  const { db, act } = writing;
  const test = await db.selectFrom('tests').selectAll().where('seq', '=', seq).executeTakeFirst();
  if (!test || test.subjectKind === WITHDRAWAL) throw new Refused('unknown', `There is no test ${seq}`);
  if (test.subjectKind !== 'lot') {
    throw new Refused(
      'unfit',
      `Test ${seq} is of batch ${test.subjectId}; test the batch again, the last test counts.`,
    );
  }
  if ((await withdrawalsOf(db, [test])).size > 0) {
    throw new Refused('out of turn', `Test ${seq} was withdrawn already; nothing is left to do.`);
  }
  await writing.append('tests', {
    seq: await writing.nextSeq('tests'),
    subjectKind: WITHDRAWAL,
    subjectId: String(seq),
    body: JSON.stringify({ reason }),
    at: act.at,
    day: act.day,
    personId: act.by.id,
  });
  return test;
}

/** Tests of lots and their withdrawals that were written down after one, in turn. */
export async function testsWrittenAfter(db: Db, seq: number): Promise<TestRow[]> {
  // A database that is asked for some kinds would rather read all that there ever was of those.
  const rows = await db.selectFrom('tests').selectAll().where('seq', '>', seq).orderBy('seq').execute();
  return rows.filter(({ subjectKind }) => subjectKind === 'lot' || subjectKind === WITHDRAWAL);
}
