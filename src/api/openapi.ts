import type { z } from 'zod';
import { createDocument, type ZodOpenApiOperationObject } from 'zod-openapi';
import {
  batchSheetAnswerSchema,
  blendAnswerSchema,
  labelAnswerSchema,
  problemSchema,
} from './contract/blend-answer.ts';
import { blendRequestSchema } from './contract/blend-request.ts';
import { correctionAnswerSchema, correctionRequestSchema } from './contract/correction.ts';
import { curveAnswerSchema, curveRequestSchema } from './contract/curve.ts';
import {
  healthAnswer,
  lotsAnswer,
  lotsQuery,
  materialsAnswer,
  materialsQuery,
  plantAnswer,
  productsAnswer,
  productsQuery,
  rulesAnswer,
  rulesQuery,
  trimAnswer,
} from './contract/resources.ts';
import { usePlanAnswerSchema, usePlanRequestSchema } from './contract/use-plan.ts';

/** The contract as OpenAPI 3.1, made from the very schemas that check requests. */
export function openApiDocument(version: string) {
  return createDocument({
    openapi: '3.1.0',
    info: {
      title: 'meatblock',
      version,
      description:
        'Least-cost blends of ground meat and sausage from the lots on hand, inside the limits of the law and of the plant, rounded to what the scales can weigh and checked again exactly. Fractions are fractions of 1, masses carry their unit. The inspector, local rules and the HACCP plan of the plant come before any answer of this service.',
    },
    paths: {
      '/v1/blends': { post: posting('Work out a blend', blendAnswerSchema) },
      '/v1/batch-sheets': {
        post: posting('Work out a blend and its batch sheet', batchSheetAnswerSchema, true),
      },
      '/v1/labels': {
        post: posting('Work out a blend and what its label must say', labelAnswerSchema, true),
      },
      '/v1/curves': {
        post: posting(
          'Follow the least cost along a bound or a price',
          curveAnswerSchema,
          false,
          curveRequestSchema,
        ),
      },
      '/v1/corrections': {
        post: posting(
          'Bring a mix back whose fat test is off',
          correctionAnswerSchema,
          true,
          correctionRequestSchema,
        ),
      },
      '/v1/use-plans': {
        post: posting(
          'Use up what is on hand: which products, and how much of each',
          usePlanAnswerSchema,
          true,
          usePlanRequestSchema,
        ),
      },
      '/v1/materials': {
        get: reading('Materials of the ingredient tables', materialsAnswer, materialsQuery),
      },
      '/v1/lots': { get: reading('Lots on hand', lotsAnswer, lotsQuery) },
      '/v1/products': { get: reading('Products of the plant', productsAnswer, productsQuery) },
      '/v1/products/{id}': {
        get: {
          ...reading('One product', productsAnswer.shape.items.element),
          parameters: [{ name: 'id', in: 'path', required: true, schema: { type: 'string' } }],
        },
      },
      '/v1/rules': { get: reading('Limits with their citations', rulesAnswer, rulesQuery) },
      '/v1/trim': { get: reading("What past fat tests say of each supplier's trim", trimAnswer) },
      '/v1/plant': { get: reading('The plant and its scales', plantAnswer) },
      '/v1/health': { get: reading('Whether the service answers', healthAnswer) },
    },
  });
}

/** Requests about the demo plant, ready to be tried. */
const BLEND = { product: 'ground-beef-80-20', batchSize: { total: { value: 500, unit: 'lb' } } };
const EXAMPLES: ReadonlyMap<z.ZodType, unknown> = new Map<z.ZodType, unknown>([
  [blendRequestSchema, BLEND],
  [curveRequestSchema, { blend: BLEND, along: { leanFrom: 72, leanTo: 94 } }],
  [
    correctionRequestSchema,
    {
      product: BLEND.product,
      inMixer: [{ lotId: 'B85-1119', mass: { value: 250, unit: 'lb' } }],
      testedFat: { fatFraction: 0.224, method: 'NIR' },
    },
  ],
  [usePlanRequestSchema, { products: [{ product: BLEND.product, price: { amount: 4.2, per: 'lb' } }] }],
]);

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: problemSchema } },
});

function posting(
  summary: string,
  answer: z.ZodType,
  alsoText = false,
  request: z.ZodType = blendRequestSchema,
): ZodOpenApiOperationObject {
  return {
    tags: ['Blends'],
    summary,
    requestBody: {
      required: true,
      content: { 'application/json': { schema: request, example: EXAMPLES.get(request) } },
    },
    responses: {
      '200': {
        description: 'The answer',
        content: {
          'application/json': { schema: answer },
          ...(alsoText && { 'text/plain': { schema: { type: 'string' } } }),
        },
      },
      '400': problem('The body is not JSON or not of the right form'),
      ...(alsoText && { '406': problem('The answer is asked for in a form it does not come in') }),
      '413': problem('The body is too large'),
      '415': problem('The body is not sent as JSON'),
      '422': problem('What is asked cannot be done; the message says why and what would help'),
      '429': problem('Too many requests'),
      '503': problem('No answer in the time allowed, or too many at once'),
    },
  };
}

function reading(summary: string, answer: z.ZodType, query?: z.ZodObject): ZodOpenApiOperationObject {
  return {
    tags: ['Plant and rules'],
    summary,
    ...(query && { requestParams: { query } }),
    responses: {
      '200': { description: 'The answer', content: { 'application/json': { schema: answer } } },
      '400': problem('A parameter is wrong'),
      '404': problem('There is nothing here'),
      '429': problem('Too many requests'),
    },
  };
}
