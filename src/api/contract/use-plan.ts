import { z } from 'zod';
import { AIMS } from '../../plan/use-plan.ts';
import { choiceField, fractionField, record, remedy } from '../../tables/json.ts';
import { blendAnswerSchema } from './blend-answer.ts';
import { blendRequestSchema } from './blend-request.ts';
import { listSchema, massSchema, priceSchema } from './quantities.ts';

/** Most products in one plan. */
const MOST_PRODUCTS = 40;

const { product, date, lots, excludeLots, materials, prices, houseRules, units } = blendRequestSchema.shape;

const candidateSchema = record(
  {
    product,
    price: priceSchema
      .refine(({ amount }) => amount !== 0, {
        path: ['amount'],
        error: 'is 0; write what the finished product sells for',
      })
      .meta({ description: 'What a unit of the finished product sells for.' }),
    least: massSchema
      .optional()
      .meta({ description: 'Finished weight worth setting up for: so much is made, or none.' }),
    most: massSchema.optional().meta({ description: 'Finished weight that can be sold.' }),
  },
  'must be a product with its price, such as {"product": "bratwurst", "price": {"amount": 3.4, "per": "lb"}}',
);

export const usePlanRequestSchema = record(
  {
    products: listSchema(candidateSchema, MOST_PRODUCTS, 'products, each with its price')
      .min(1, remedy('must name at least one product with its price'))
      .meta({ description: 'What could be made, and what it sells for.' }),
    aim: choiceField(AIMS).default('margin').meta({
      description: 'The best margin, or as much as possible of the lots whose use-by date comes first.',
    }),
    withinFraction: fractionField.optional().meta({
      description:
        'With the oldest lots first: the share of the best margin that may be given up; 0.05 when absent.',
    }),
    lotsAreSunk: z.boolean(remedy('must be true or false')).default(false).meta({
      description:
        'Whether lots count as costing nothing, because what is not used is thrown away; they count at their cost otherwise.',
    }),
    date,
    lots,
    excludeLots,
    materials,
    prices,
    houseRules,
    units,
  },
  'must be an object with products',
)
  .refine(({ aim, withinFraction }) => aim === 'oldest lots first' || withinFraction === undefined, {
    path: ['withinFraction'],
    error:
      'stands beside the aim "margin", which gives nothing up; take it out, or aim at "oldest lots first"',
  })
  .meta({ id: 'UsePlanRequest' });

const both = z.object({ kg: z.number(), lb: z.number() });
const pricePerBoth = z.object({ perKg: z.number(), perLb: z.number() });
const because = z.array(z.string());
const leftOut = z.object({ supplyId: z.string(), material: z.string(), because: z.string() });
const notMade = z.array(z.object({ product: z.string(), name: z.string(), because }));

const planned = z
  .object({ raw: both, finished: both, margin: z.number() })
  .meta({ description: 'Before rounding to the scales.' });

export const usePlanAnswerSchema = z
  .discriminatedUnion('outcome', [
    z.object({
      outcome: z.literal('plan'),
      plant: z.object({ name: z.string(), establishment: z.string() }),
      date: z.string(),
      units: z.enum(['lb', 'kg']),
      currency: z.string(),
      aim: z.enum(AIMS),
      withinFraction: z.number().optional(),
      lotsAreSunk: z.boolean(),
      products: z.array(
        z.object({
          product: z.string(),
          name: z.string(),
          price: pricePerBoth,
          planned,
          weighed: z
            .object({ raw: both, finished: both, margin: z.number(), blend: blendAnswerSchema })
            .optional()
            .meta({
              description: 'The batch on the scales of the plant; absent where it cannot be weighed.',
            }),
          notWeighed: because
            .optional()
            .meta({ description: 'Why the batch cannot be weighed as it is planned.' }),
        }),
      ),
      notMade,
      lots: z.array(
        z.object({
          lotId: z.string(),
          materialId: z.string(),
          material: z.string(),
          onHand: both,
          planned: both,
          used: both.meta({ description: 'In the batches as weighed.' }),
          left: both,
          useByDate: z.string().optional(),
          daysToUseBy: z.int().optional(),
          oneMoreAdds: pricePerBoth.meta({
            description:
              'What one kilogram more of it, at its own cost, would add to the best margin, at first.',
          }),
        }),
      ),
      leftOut: z.array(leftOut),
      margin: z.object({
        best: z.number().meta({ description: 'Of any plan, before rounding to the scales.' }),
        planned: z.number().meta({ description: 'Of this plan, before rounding to the scales.' }),
        weighed: z.number().meta({ description: 'Of the batches as weighed.' }),
      }),
      cautions: z.array(z.string()),
    }),
    z.object({
      outcome: z.literal('nothing to make'),
      notMade,
      leftOut: z.array(leftOut),
    }),
  ])
  .meta({ id: 'UsePlanAnswer' });

export type UsePlanInput = z.output<typeof usePlanRequestSchema>;
export type UsePlanAnswer = z.output<typeof usePlanAnswerSchema>;
