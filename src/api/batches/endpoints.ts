import type { z } from 'zod';
import { labelHashOf, stepsOf } from '../../making/batch.ts';
import { stepsOfBatch } from '../../store/batches.ts';
import { documentOf } from '../../store/documents.ts';
import { takeTurns } from '../../store/turns.ts';
import type { Permission } from '../access/roles.ts';
import type { Books } from '../books.ts';
import { batchSheetAnswerSchema } from '../contract/blend-answer.ts';
import { correctionAnswerSchema } from '../contract/correction.ts';
import { labelAnswerSchema } from '../contract/label.ts';
import { paperQuery, sheetQuery } from '../contract/printing.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { labelForms, sheetForms } from '../paper.ts';
import { Problem } from '../problem.ts';
import { cancelBatch, closeBatch } from './close.ts';
import {
  type BatchesQuery,
  batchAnswer,
  batchCorrectionSchema,
  batchesAnswer,
  batchesQuery,
  batchTestSchema,
  closeSchema,
  finishSchema,
  packSchema,
  planRequestSchema,
  setAsideSchema,
  takeBackSchema,
  weighedSchema,
  weighingCheckAnswer,
  weighingSchema,
} from './contract.ts';
import { finishBatch } from './finish.ts';
import { listed } from './listed.ts';
import { openedBatch } from './opened.ts';
import { packBatch } from './pack.ts';
import { planBatch } from './plan.ts';
import { setAside } from './rework.ts';
import { correctBatch, proposeCorrection, testBatch } from './test.ts';
import { batchView } from './view.ts';
import { takeBack, weighed, weighIn } from './weigh.ts';
import { checkWeighing } from './weighing-check.ts';

/** The life of batches, from the plan to the sealed record. */
export function batchEndpoints(books: Books): Endpoint[] {
  const planning = { books, inTurn: takeTurns() };
  const step = (
    path: string,
    says: string,
    may: Permission,
    takes: z.ZodType,
    take: (books: Books, call: Call) => Promise<Answer>,
    example?: unknown,
  ): Endpoint => ({
    method: 'POST',
    path: `/batches/:id/${path}`,
    tag: 'Batches',
    says,
    may,
    takes,
    ...(example !== undefined && { example }),
    gives: batchAnswer,
    handle: (call) => take(books, call),
  });
  const document = (
    path: 'sheet' | 'label',
    says: string,
    { gives, query, forms }: Required<Pick<Endpoint, 'gives' | 'query' | 'forms'>>,
  ): Endpoint => ({
    method: 'GET',
    path: `/batches/:id/${path}`,
    tag: 'Batches',
    says,
    may: 'read',
    gives,
    query,
    forms,
    handle: async ({ params }) => ({ body: await readDocument(books, params.id ?? '', path) }),
  });
  const lb = (value: string) => ({ value, unit: 'lb' });
  return [
    {
      method: 'POST',
      path: '/batches',
      tag: 'Batches',
      says: 'Plan a batch: the least-cost blend of what is free, with its lots promised to it',
      may: 'plan',
      takes: planRequestSchema,
      example: { product: 'ground-beef-80-20', batchSize: { total: { value: 300, unit: 'lb' } } },
      gives: batchAnswer,
      status: 201,
      handle: (call) => planBatch(planning, call),
    },
    {
      method: 'GET',
      path: '/batches',
      tag: 'Batches',
      says: 'Batches, the latest first',
      may: 'read',
      query: batchesQuery,
      gives: batchesAnswer,
      handle: async ({ query }) => ({ body: await listed(books, query as BatchesQuery) }),
    },
    {
      method: 'GET',
      path: '/batches/:id',
      tag: 'Batches',
      says: 'One batch as it stands: what is planned, weighed and found, and every limit on it',
      may: 'read',
      gives: batchAnswer,
      handle: async ({ params }) => {
        const view = batchView(await books.store.read((db) => openedBatch(db, params.id ?? '')));
        return { body: view, version: view.version };
      },
    },
    document('sheet', 'The batch sheet as it was planned, also on paper', {
      gives: batchSheetAnswerSchema,
      query: sheetQuery,
      forms: sheetForms(books),
    }),
    document('label', 'What the label must say, by what was weighed or else as planned', {
      gives: labelAnswerSchema,
      query: paperQuery,
      forms: labelForms(books),
    }),
    step('weighings', 'Weigh a line into a load', 'work', weighingSchema, weighIn, {
      line: 1,
      load: 1,
      weight: lb('120.5'),
    }),
    {
      ...step(
        'weighing-checks',
        'What a weighing would do to the limits and what it would be refused for; nothing is booked',
        'read',
        weighingSchema,
        checkWeighing,
        { line: 1, load: 1, weight: lb('120.5') },
      ),
      gives: weighingCheckAnswer,
    },
    step('weighings/:step/reversal', 'Take a wrong weighing back', 'work', takeBackSchema, takeBack, {
      reason: 'read off the wrong scale',
    }),
    step(
      'weighed',
      'Everything is weighed in: every departure from the plan gets its reason',
      'work',
      weighedSchema,
      weighed,
      {
        reasons: [{ line: 3, reason: 'the last box was short' }],
      },
    ),
    step('tests', 'A fat test of the mix', 'work', batchTestSchema, testBatch, {
      fatFraction: 0.213,
      method: 'NIR',
    }),
    {
      ...step(
        'correction-proposals',
        'What to add to a load whose fat test is off; nothing is booked',
        'read',
        batchCorrectionSchema,
        proposeCorrection,
        {},
      ),
      gives: correctionAnswerSchema,
    },
    step(
      'corrections',
      'Add what brings a load back to the plan',
      'work',
      batchCorrectionSchema,
      correctBatch,
      { load: 1 },
    ),
    step('finish', 'What came out: product, rework, loss, temperatures', 'work', finishSchema, finishBatch, {
      output: { weight: lb('298.5') },
      temperatures: [{ what: 'after mixing', value: 38, unit: 'F', time: '10:20' }],
    }),
    step('packs', 'Packs made of it', 'work', packSchema, packBatch, {
      packs: [{ count: 200, net: lb('1') }],
    }),
    step(
      'rework',
      'Product that goes back as rework after the batch was finished',
      'work',
      setAsideSchema,
      setAside,
      { weight: lb('6.5'), reason: 'broken links at packing' },
    ),
    step('closing', 'Seal the record of the batch', 'plan', closeSchema, closeBatch, {}),
    step('cancellation', 'Give a plan up: its lots are free again', 'plan', takeBackSchema, cancelBatch, {
      reason: 'the order was withdrawn',
    }),
  ];
}

async function readDocument(books: Books, id: string, which: 'sheet' | 'label'): Promise<unknown> {
  return books.store.read(async (db) => {
    const steps = await stepsOfBatch(db, id);
    const [plan] = stepsOf(steps, 'planned');
    if (!plan) throw new Problem('not-found', `There is no batch "${id}".`);
    return documentOf(
      db,
      which === 'sheet' ? plan.body.sheetHash : (labelHashOf(steps) ?? plan.body.labelHash),
    );
  });
}
