import { z } from 'zod';
import { page, query } from '../contract/pages.ts';
import { paperField } from '../contract/printing.ts';
import { dateSchema } from '../contract/quantities.ts';

/** Reports over some days. */

export const costQuery = query({
  fromDay: dateSchema.optional().meta({ description: 'Six days before toDay when absent.' }),
  toDay: dateSchema.optional().meta({ description: 'Today at the plant when absent.' }),
  paper: paperField,
});

const both = z.object({ kg: z.number(), lb: z.number() });
const each = z.object({ perKg: z.number(), perLb: z.number() });
const massAndCost = z.object({ mass: both, cost: z.number() });

const batchCosts = z.object({
  batchId: z.string(),
  productId: z.string(),
  product: z.string(),
  date: z.string(),
  state: z.string(),
  currency: z.string(),
  planned: massAndCost.extend({ each }),
  weighed: massAndCost.extend({ each }),
  finished: z
    .object({
      output: massAndCost,
      each,
      yieldFraction: z.number(),
      rework: massAndCost,
      discarded: massAndCost,
      lossBeyondYield: massAndCost,
    })
    .optional(),
  givenAway: z
    .object({
      mostFatFraction: z.number(),
      fatFraction: z.number(),
      points: z.number().meta({ description: 'Points of fat below the most; negative above it.' }),
      cost: z.number().optional(),
    })
    .optional()
    .meta({ description: 'Lean that the buyer gets beyond what label and targets ask for.' }),
});

const productCosts = z.object({
  product: z.string(),
  currency: z.string(),
  batches: z.int(),
  plannedCost: z.number(),
  weighedCost: z.number(),
  weighed: both,
  output: both,
  each: each.optional(),
  reworkCost: z.number(),
  discardedCost: z.number(),
  lossBeyondYieldCost: z.number(),
  givenAwayCost: z.number(),
});

export const costAnswer = z
  .object({
    plant: z.string(),
    establishment: z.string(),
    units: z.enum(['lb', 'kg']),
    fromDay: z.string(),
    toDay: z.string(),
    batches: z.array(batchCosts),
    products: z.array(productCosts),
    materials: z.array(
      z.object({
        materialId: z.string(),
        material: z.string(),
        currency: z.string(),
        mass: both,
        cost: z.number(),
        each,
      }),
    ),
    notes: z.array(z.string()),
  })
  .meta({ id: 'CostReport' });

export const trimSeriesQuery = query({
  limit: page.limit.meta({ description: 'The latest lots of each trim, at most so many; 100 when absent.' }),
});

export const trimSeriesAnswer = z
  .object({
    items: z.array(
      z.object({
        materialId: z.string(),
        material: z.string(),
        supplierEstablishment: z.string(),
        classMeanFraction: z.number(),
        classSdFraction: z
          .number()
          .meta({ description: 'Standard deviation of a lot of which only the class is known.' }),
        meanFraction: z.number().meta({ description: 'Fat expected of the next lot.' }),
        sdFraction: z.number().meta({ description: 'Standard deviation of the next lot.' }),
        shrinkage: z.number().meta({ description: 'Weight of the class figure in the mean.' }),
        lotCount: z.int().meta({ description: 'Lots tested, with those before the ones that stand here.' }),
        lots: z
          .array(
            z.object({
              lotId: z.string().optional(),
              date: z.string().meta({ description: 'Day of its first test.' }),
              fatFraction: z.number().meta({ description: 'The mean of its tests.' }),
              tests: z.int(),
              methods: z.array(z.string()),
            }),
          )
          .meta({ description: 'In the order of their first tests.' }),
      }),
    ),
  })
  .meta({ id: 'TrimSeries' });

export type TrimSeriesAnswer = z.output<typeof trimSeriesAnswer>;
export type CostQuery = z.output<typeof costQuery>;
export type CostAnswer = z.output<typeof costAnswer>;
