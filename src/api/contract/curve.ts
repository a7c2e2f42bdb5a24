import { z } from 'zod';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { MASS_UNITS } from '../../units.ts';
import { blendRequestSchema } from './blend-request.ts';
import { idSchema } from './quantities.ts';

/** The least cost along one bound or one price. */

const figure = z
  .number(remedy('must be a number'))
  .min(0, remedy('must not be negative'))
  .max(1e6, remedy('must be at most 1000000'));

const inOrder = ({ from, to }: { from: number; to: number }) => from < to;
const IN_ORDER = { path: ['to'], error: 'must be above from' };

const alongLimit = record(
  { limitId: idSchema, from: figure, to: figure },
  'must be such as {"limitId": "house-fat-max", "from": 15, "to": 30}',
)
  .refine(inOrder, IN_ORDER)
  .meta({ description: 'A bound, in the unit of the limit: 15 to 30 with percent.' });

const alongPrice = record(
  { supplyId: idSchema, from: figure, to: figure, per: choiceField(MASS_UNITS).default('kg') },
  'must be such as {"supplyId": "B85-1119", "from": 2.5, "to": 3.5, "per": "lb"}',
)
  .refine(inOrder, IN_ORDER)
  .meta({ description: 'The price of a lot, or of a material without lots.' });

const lean = z
  .number(remedy('must be a number'))
  .min(0, remedy('must not be negative'))
  .max(100, remedy('must be at most 100'));

const alongLean = record({ leanFrom: lean, leanTo: lean }, 'must be such as {"leanFrom": 75, "leanTo": 95}')
  .refine(({ leanFrom, leanTo }) => leanFrom < leanTo, { path: ['leanTo'], error: 'must be above leanFrom' })
  .meta({
    description: 'The lean percent of the finished product: every fat target of the house gives way to it.',
  });

export const curveRequestSchema = record(
  {
    blend: blendRequestSchema,
    along: z.union(
      [alongLimit, alongPrice, alongLean],
      remedy('must name a limitId or a supplyId with from and to, or leanFrom and leanTo'),
    ),
  },
  'must be an object with blend and along',
).meta({ id: 'CurveRequest' });

export const curveAnswerSchema = z
  .discriminatedUnion('outcome', [
    z.object({
      outcome: z.literal('curve'),
      along: z.object({ limitId: z.string().optional(), supplyId: z.string().optional(), unit: z.string() }),
      currency: z.string(),
      units: z.enum(['lb', 'kg']),
      today: z.number().meta({ description: 'The bound or price of the request itself.' }),
      corners: z.boolean().meta({
        description:
          'True: the cost is straight between the points, and every corner is among them. False: samples of a curve.',
      }),
      feasible: z.object({ from: z.number(), to: z.number() }),
      points: z.array(
        z.object({
          at: z.number(),
          cost: z.number(),
          costPerKg: z.number(),
          blend: z.array(z.object({ supplyId: z.string(), kg: z.number() })),
        }),
      ),
    }),
    z.object({ outcome: z.literal('no blend'), message: z.string() }),
  ])
  .meta({ id: 'CurveAnswer', description: 'The least cost before rounding to the scales.' });

export type CurveAnswer = z.output<typeof curveAnswerSchema>;
