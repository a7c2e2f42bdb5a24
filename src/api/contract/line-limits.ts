import { z } from 'zod';
import { record } from '../../tables/json.ts';
import { productSchema } from '../../tables/products.ts';
import { limitAnswer } from './blend-answer.ts';
import { dateSchema } from './quantities.ts';

/** What the law and the house leave of each seasoning line, before any meat is chosen. */

export const lineLimitsRequestSchema = record(
  { product: productSchema, date: dateSchema.optional() },
  'must be an object with product',
).meta({ id: 'LineLimitsRequest' });

export const lineLimitsAnswerSchema = z
  .object({
    date: z.string(),
    lines: z.array(
      z.object({
        materialId: z.string(),
        limits: z
          .array(
            z.object({
              limit: limitAnswer,
              value: z.number().meta({
                description:
                  'What the seasonings bring with this line at its highest rate, in the unit of the limit.',
              }),
              atMostFraction: z.number().meta({
                description: 'The highest rate that it leaves room for, on the basis of the line.',
              }),
              holds: z.boolean(),
              bringsMost: z
                .boolean()
                .meta({ description: 'Whether no other line brings more of what is counted.' }),
            }),
          )
          .meta({ description: 'The tightest first. What rests on the meat chosen too is no part of it.' }),
      }),
    ),
  })
  .meta({ id: 'LineLimits' });

/** A product as it is written in JSON. */
export type ProductInput = z.input<typeof productSchema>;
export type LineLimitsAnswer = z.output<typeof lineLimitsAnswerSchema>;
