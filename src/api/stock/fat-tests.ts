import type { z } from 'zod';
import { isMeat, type Material } from '../../batch/material.ts';
import type { FatTest } from '../../batch/trim-learning.ts';
import { micrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { refuseChanged } from '../../store/history.ts';
import { book, lotOrRefuse } from '../../store/lots.ts';
import type { Writing } from '../../store/store.ts';
import { WITHDRAWAL, withdrawTest } from '../../store/tests.ts';
import { fixed } from '../../units.ts';
import { type Books, change } from '../books.ts';
import {
  fatTestAnswer,
  type TestRequest,
  testSchema,
  testsAnswer,
  testsQuery,
  withdrawalSchema,
} from '../contract/fat-tests.ts';
import { wholeLotAnswer } from '../contract/lots.ts';
import { pageAfter } from '../contract/pages.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { materialOfLot } from '../plant-of-store.ts';
import { testAnswers } from './fat-test-view.ts';
import { bodyOf, wholeLot } from './lot-view.ts';
import { underWay } from './people.ts';

/** Fat tests: from the moment that one is written down, blends go by it. */
export function fatTestEndpoints(books: Books): Endpoint[] {
  return [
    {
      method: 'GET',
      path: '/tests',
      tag: 'Lots',
      says: 'Fat tests of lots and of batches',
      may: 'read',
      query: testsQuery,
      gives: testsAnswer,
      handle: async ({ query }) => ({ body: await listTests(books, query as TestsQuery) }),
    },
    {
      method: 'POST',
      path: '/lots/:id/tests',
      tag: 'Lots',
      says: 'A fat test of a lot',
      may: 'work',
      takes: testSchema,
      example: { fatFraction: 0.263, method: 'NIR', sample: { value: 1, unit: 'lb' } },
      gives: wholeLotAnswer,
      status: 201,
      handle: (call) => testLot(books, call),
    },
    {
      method: 'POST',
      path: '/tests/:seq/withdrawal',
      tag: 'Lots',
      says: 'Withdraw a fat test of a lot that was wrong: blends no longer go by it',
      may: 'work',
      takes: withdrawalSchema,
      example: { reason: 'sample of another lot' },
      gives: fatTestAnswer,
      handle: (call) => withdraw(books, call),
    },
  ];
}

type TestsQuery = z.output<typeof testsQuery>;

async function listTests(books: Books, wanted: TestsQuery) {
  const { lotId, batchId, fromDay, toDay, after, limit } = wanted;
  return books.store.read(async (db) => {
    let query = db.selectFrom('tests').selectAll().where('subjectKind', '!=', WITHDRAWAL).orderBy('seq');
    if (lotId !== undefined) query = query.where('subjectKind', '=', 'lot').where('subjectId', '=', lotId);
    if (batchId !== undefined)
      query = query.where('subjectKind', '=', 'batch').where('subjectId', '=', batchId);
    if (fromDay !== undefined) query = query.where('day', '>=', fromDay);
    if (toDay !== undefined) query = query.where('day', '<=', toDay);
    if (after !== undefined) query = query.where('seq', '>', after);
    const { items, ...next } = pageAfter(await query.limit(limit + 1).execute(), limit);
    return { items: await testAnswers(db, items), ...next };
  });
}

async function testLot(books: Books, call: Call): Promise<Answer> {
  const test = parseOrProblem(testSchema, call.body);
  const { id = '' } = call.params;
  const { tables, plant } = await books.plant();
  const subject = { kind: 'lot', id };
  return change(books, call, { action: 'lot tested', subject }, async (writing) => {
    const { db, act } = writing;
    const row = await lotOrRefuse(db, id);
    await refuseChanged(db, subject, row.version, call.ifVersion, plant.timeZone);
    if (row.kind !== 'material') {
      throw new Refused('unfit', `Lot ${id} is ${row.kind} of a batch; test the batch while it is mixed.`);
    }
    const material = await materialOfLot(db, tables, row);
    if (!material) throw new Refused('unfit', `The material of lot ${id}, "${row.ofId}", was withdrawn.`);
    await recordTest(writing, id, test, material);
    const lot = await wholeLot(db, id, act.day, underWay(writing));
    return {
      says: `fat ${fixed(test.fatFraction * 100, 2)} % by ${test.method}`,
      result: { body: lot, version: lot.version, location: `/tests?lotId=${encodeURIComponent(id)}` },
    };
  });
}

async function withdraw(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(withdrawalSchema, call.body);
  const { seq = '' } = call.params;
  const subject = { kind: 'test', id: seq };
  return change(books, call, { action: 'fat test withdrawn', subject }, async (writing) => {
    const test = await withdrawTest(writing, Number(/^\d{1,15}$/.exec(seq)?.[0] ?? -1), reason);
    const [withdrawn] = await testAnswers(writing.db, [test], underWay(writing));
    return {
      says: `test ${seq} of lot ${test.subjectId}: ${reason}`,
      subject: { kind: 'lot', id: test.subjectId },
      result: { body: withdrawn },
    };
  });
}

/**
 * Writes a test of a lot down and takes its sample out.
 * @throws Refused 'unfit' for a material that is no meat or a day that cannot be, 'short' when the sample is not there.
 */
export async function recordTest(
  writing: Writing,
  lotId: string,
  test: TestRequest,
  material: Material,
): Promise<void> {
  const { act } = writing;
  const lot = await lotOrRefuse(writing.db, lotId);
  const { date = act.day, sample, fatFraction, method, sdFraction } = test;
  if (!isMeat(material)) {
    throw new Refused('unfit', `Lot ${lotId} is ${material.kind}; only the fat of meat is tested here.`);
  }
  if (date > act.day || date < lot.receivedDay) {
    const message = `${date} is not from ${lot.receivedDay}, when the lot came, to today, ${act.day}; correct it`;
    throw new Refused('unfit', message, ['date']);
  }
  const body: FatTest = {
    lotId,
    materialId: lot.ofId,
    // Whose trim it is, is not known: it tells of its lot alone.
    supplierEstablishment: bodyOf(lot).supplierEstablishment ?? '',
    date,
    fatFraction,
    method,
    ...(sdFraction !== undefined && { sdFraction }),
  };
  const seq = await writing.nextSeq('tests');
  await writing.append('tests', {
    seq,
    subjectKind: 'lot',
    subjectId: lotId,
    body: JSON.stringify(body),
    at: act.at,
    day: date,
    personId: act.by.id,
  });
  const sampleUg = sample ? micrograms(sample.value, sample.unit) : 0;
  const entered = sample && { value: String(sample.value), unit: sample.unit };
  await book(writing, {
    lotId,
    kind: 'tested',
    massUg: sampleUg === 0 ? 0 : -sampleUg,
    reservedUg: 0,
    details: { test: seq, ...(entered && { entered }) },
  });
}
