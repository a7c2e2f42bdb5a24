import type { z } from 'zod';
import { correctionText } from '../documents/correction-text.ts';
import { usePlanText } from '../documents/use-plan-text.ts';
import { blend, type Desk, label, sheet } from './blending.ts';
import { type Books, deskOf } from './books.ts';
import { batchSheetAnswerSchema, blendAnswerSchema } from './contract/blend-answer.ts';
import { blendRequestSchema } from './contract/blend-request.ts';
import { correctionAnswerSchema, correctionRequestSchema } from './contract/correction.ts';
import { curveAnswerSchema, curveRequestSchema } from './contract/curve.ts';
import { labelAnswerSchema } from './contract/label.ts';
import { lineLimitsAnswerSchema, lineLimitsRequestSchema } from './contract/line-limits.ts';
import { paperQuery, sheetQuery } from './contract/printing.ts';
import { usePlanAnswerSchema, usePlanRequestSchema } from './contract/use-plan.ts';
import { correction } from './correcting.ts';
import { curve } from './curves.ts';
import type { Endpoint, Form } from './endpoint.ts';
import { lineLimitsOf } from './line-limits.ts';
import { labelForms, sheetForms } from './paper.ts';
import { EXAMPLE_PRODUCT } from './stock/products.ts';
import { usePlan } from './use-planning.ts';

/** Requests about the demo plant, ready to be tried. */
export const EXAMPLE_BLEND = {
  product: 'ground-beef-80-20',
  batchSize: { total: { value: 500, unit: 'lb' } },
};

/** What is worked out on request and kept nowhere. */
export function blendEndpoints(books: Books): Endpoint[] {
  const workedOut = (
    path: string,
    says: string,
    { takes, gives, example, forms, query }: Parts,
    work: (desk: Desk, body: unknown) => Promise<unknown>,
  ): Endpoint => ({
    method: 'POST',
    path,
    tag: 'Blends',
    says,
    may: 'read',
    takes,
    example,
    gives,
    ...(query && { query }),
    ...(forms && { forms }),
    handle: async ({ body }) => ({ body: await work(await deskOf(books), body) }),
  });
  const ofBlend = { takes: blendRequestSchema, example: EXAMPLE_BLEND };
  return [
    workedOut('/blends', 'Work out a blend', { ...ofBlend, gives: blendAnswerSchema }, blend),
    workedOut(
      '/batch-sheets',
      'Work out a blend and its batch sheet',
      { ...ofBlend, gives: batchSheetAnswerSchema, query: sheetQuery, forms: sheetForms(books) },
      sheet,
    ),
    workedOut(
      '/labels',
      'Work out a blend and what its label must say',
      { ...ofBlend, gives: labelAnswerSchema, query: paperQuery, forms: labelForms(books) },
      label,
    ),
    workedOut(
      '/line-limits',
      'What the limits leave of each seasoning line of a product, before any meat is chosen',
      {
        takes: lineLimitsRequestSchema,
        example: { product: EXAMPLE_PRODUCT },
        gives: lineLimitsAnswerSchema,
      },
      lineLimitsOf,
    ),
    workedOut(
      '/curves',
      'Follow the least cost along a bound or a price',
      {
        takes: curveRequestSchema,
        example: { blend: EXAMPLE_BLEND, along: { leanFrom: 72, leanTo: 94 } },
        gives: curveAnswerSchema,
      },
      curve,
    ),
    workedOut(
      '/corrections',
      'Bring a mix back whose fat test is off',
      {
        takes: correctionRequestSchema,
        example: {
          product: EXAMPLE_BLEND.product,
          inMixer: [{ lotId: 'B85-1119', mass: { value: 250, unit: 'lb' } }],
          testedFat: { fatFraction: 0.224, method: 'NIR' },
        },
        gives: correctionAnswerSchema,
        forms: { 'text/plain': correctionText as Form },
      },
      correction,
    ),
    workedOut(
      '/use-plans',
      'Use up what is on hand: which products, and how much of each',
      {
        takes: usePlanRequestSchema,
        example: { products: [{ product: EXAMPLE_BLEND.product, price: { amount: 4.2, per: 'lb' } }] },
        gives: usePlanAnswerSchema,
        forms: { 'text/plain': usePlanText as Form },
      },
      usePlan,
    ),
  ];
}

interface Parts {
  readonly takes: z.ZodType;
  readonly example: unknown;
  readonly gives: z.ZodType;
  readonly forms?: Endpoint['forms'];
  readonly query?: z.ZodObject;
}
