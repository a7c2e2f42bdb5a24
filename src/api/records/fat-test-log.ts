import { FAT_TESTS_NOTES, FAT_TESTS_TITLE, type FatTestEntry } from '../../documents/logs/fat-tests.ts';
import { stepsOf } from '../../making/batch.ts';
import { type Days, testsOfDays } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import type { TestRow } from '../../store/schema.ts';
import { lotRows, stepsOfBatches } from '../../store/trace.ts';
import { fixed } from '../../units.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { testAnswers } from '../stock/fat-test-view.ts';
import { timeAt } from './times.ts';
import { nameOfLot, productName } from './trace.ts';

/** Fat tests of these days, of lots and of batches in the mixer. */
export async function fatTestLog(db: Db, data: PlantBooks, days: Days) {
  const rows = await testsOfDays(db, days);
  const of = await namesOf(db, data, rows);
  const notMet = await limitsNotMet(db, rows);
  const tests = await testAnswers(db, rows);
  const items = tests.map(
    ({
      seq,
      date,
      at,
      lotId,
      batchId,
      load,
      supplierEstablishment,
      fatFraction,
      method,
      sdFraction,
      by,
      withdrawn,
    }) => ({
      seq,
      date,
      written: timeAt(data.plant.timeZone, at),
      ...(lotId !== undefined && { lotId }),
      ...(batchId !== undefined && { batchId }),
      ...(load !== undefined && { load }),
      ...of(lotId, batchId),
      ...(supplierEstablishment !== undefined && { supplierEstablishment }),
      fatPercent: fixed(fatFraction * 100, 2),
      method,
      ...(sdFraction !== undefined && { sdPercent: fixed(sdFraction * 100, 2) }),
      notMet: notMet.get(seq) ?? [],
      by,
      ...(withdrawn && { withdrawn: `${withdrawn.reason} (${withdrawn.by})` }),
    }),
  ) satisfies FatTestEntry[];
  return { title: FAT_TESTS_TITLE, notes: FAT_TESTS_NOTES, items };
}

async function namesOf(db: Db, data: PlantBooks, rows: readonly TestRow[]) {
  const idsOf = (kind: string) => [
    ...new Set(rows.flatMap((row) => (row.subjectKind === kind ? [row.subjectId] : []))),
  ];
  const lots = await lotRows(db, idsOf('lot'));
  const batchIds = idsOf('batch');
  const batches =
    batchIds.length === 0
      ? []
      : await db.selectFrom('batches').select(['id', 'productId']).where('id', 'in', batchIds).execute();
  const names = new Map([
    ...lots.map((row) => [`lot ${row.id}`, nameOfLot(data, row)] as const),
    ...batches.map(({ id, productId }) => [`batch ${id}`, productName(data, productId)] as const),
  ]);
  return (lotId: string | undefined, batchId: string | undefined) => {
    const name = names.get(lotId === undefined ? `batch ${batchId}` : `lot ${lotId}`);
    return name === undefined ? {} : { of: name };
  };
}

/** Of tests of batches, the limits that were not met with the fat that was found, by the number of the test. */
async function limitsNotMet(db: Db, rows: readonly TestRow[]): Promise<Map<number, string[]>> {
  const ofBatches = rows.filter(({ subjectKind }) => subjectKind === 'batch');
  const steps = await stepsOfBatches(
    db,
    [...new Set(ofBatches.map(({ subjectId }) => subjectId))],
    ['tested'],
  );
  return new Map(
    ofBatches.map(({ seq, subjectId, body, at }) => {
      const { load } = JSON.parse(body) as { readonly load?: number };
      const step = stepsOf(steps.get(subjectId) ?? [], 'tested').find(
        (one) => one.at === at && one.body.load === load,
      );
      const limits = step?.body.limits ?? [];
      return [seq, limits.filter(({ holds }) => !holds).map(({ says }) => says)];
    }),
  );
}
