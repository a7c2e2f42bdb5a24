import { z } from 'zod';
import { record } from '../../tables/json.ts';
import { lotSchema } from './blend-request.ts';
import { followed, following, query } from './pages.ts';
import { dateSchema, idSchema, reasonSchema, stockSchema } from './quantities.ts';

/** Fat tests of lots and of batches. */

const { fatFraction, method, sdFraction } = lotSchema.shape.measuredFat.unwrap().shape;

export const testSchema = record(
  {
    fatFraction,
    method,
    sdFraction,
    date: dateSchema.optional().meta({ description: 'Day of the sample; today at the plant when absent.' }),
    sample: stockSchema.optional().meta({ description: 'What was taken from the lot for it.' }),
  },
  'must be a result such as {"fatFraction": 0.213, "method": "NIR"}',
).meta({ id: 'FatTestInput' });

export const withdrawalSchema = record({ reason: reasonSchema }, 'must have a reason');

export const testsQuery = query({
  lotId: idSchema.optional(),
  batchId: idSchema.optional(),
  fromDay: dateSchema.optional(),
  toDay: dateSchema.optional(),
  ...following,
});

export const fatTestAnswer = z
  .object({
    seq: z.int(),
    lotId: z.string().optional(),
    batchId: z.string().optional(),
    materialId: z.string().optional(),
    supplierEstablishment: z.string().optional(),
    load: z.int().optional(),
    fatFraction: z.number(),
    method: z.string(),
    sdFraction: z.number().optional(),
    date: z.string(),
    at: z.string(),
    by: z.string(),
    withdrawn: z
      .object({ reason: z.string(), at: z.string(), by: z.string() })
      .optional()
      .meta({ description: 'When it was found to be wrong: blends no longer go by it.' }),
  })
  .meta({ id: 'FatTest' });

export const testsAnswer = followed(fatTestAnswer);

export type TestRequest = z.output<typeof testSchema>;
export type FatTestAnswer = z.output<typeof fatTestAnswer>;
