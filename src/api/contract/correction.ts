import { z } from 'zod';
import { OTHER_METHOD_SD } from '../../batch/fat-certainty.ts';
import { fractionField, record, remedy } from '../../tables/json.ts';
import { both, check, leftOut, makeup } from './blend-answer.ts';
import { blendRequestSchema } from './blend-request.ts';
import { idSchema, listSchema, massSchema, textSchema } from './quantities.ts';

/** Most lines that one load is weighed from. */
const MOST_LINES = 100;

const { product, date, lots, excludeLots, materials, prices, houseRules, units } = blendRequestSchema.shape;

const ONE_NAME = 'write lotId for what is kept in lots, or materialId for what is not, and not both';

const mixLineSchema = record(
  { lotId: idSchema.optional(), materialId: idSchema.optional(), mass: massSchema },
  'must be a weighing such as {"lotId": "…", "mass": {"value": 120.4, "unit": "lb"}}',
).refine(({ lotId, materialId }) => (lotId === undefined) !== (materialId === undefined), {
  error: ONE_NAME,
});

const testedFatSchema = record(
  {
    fatFraction: fractionField,
    sdPoints: z
      .number(remedy('must be a number'))
      .min(0, remedy('must not be negative'))
      .max(10, remedy('must be at most 10 points of fat'))
      .default(OTHER_METHOD_SD.sdPoints)
      .meta({ description: "Standard deviation of the mix's true fat about the result, in points of fat." }),
    method: textSchema(80),
  },
  'must be a result such as {"fatFraction": 0.23, "method": "NIR"}',
);

export const correctionRequestSchema = record(
  {
    product,
    date,
    inMixer: listSchema(mixLineSchema, MOST_LINES, 'weighings')
      .min(1, remedy('must name at least one weighing'))
      .meta({ description: 'What was weighed into the mixer, as the scales showed it: one load.' }),
    testedFat: testedFatSchema.meta({ description: 'The fat found in the mix.' }),
    confidence: z
      .number(remedy('must be a number such as 0.9'))
      .gt(0.5, remedy('must be above 0.5; leave it out to take the test as it is'))
      .lt(1, remedy('must be below 1; nothing is certain of a test'))
      .optional()
      .meta({ description: 'How sure every limit is to hold though the test itself is uncertain.' }),
    lots: lots.meta({
      description:
        "The plant's lots, of which what was weighed into the mixer is taken off; or lots given here with what is left of them now.",
    }),
    excludeLots: excludeLots.meta({ description: 'Lots of which nothing is to be added.' }),
    materials,
    prices,
    houseRules,
    capacity: massSchema
      .optional()
      .meta({ description: "What the mixer holds; the plant's own when absent." }),
    units,
  },
  'must be an object with product, inMixer and testedFat',
).meta({ id: 'CorrectionRequest' });

const weight = z.object({ text: z.string(), unit: z.string(), scale: z.string() });

const addedLine = z
  .object({
    supplyId: z.string(),
    materialId: z.string(),
    material: z.string(),
    lotId: z.string().optional(),
    location: z.string().optional(),
    weight,
    mass: both,
    cost: z.number(),
  })
  .meta({ id: 'AddedLine' });

const mixLine = z
  .object({
    supplyId: z.string(),
    material: z.string(),
    lotId: z.string().optional(),
    mass: both,
    fat: z
      .object({ saidFraction: z.number(), foundFraction: z.number() })
      .optional()
      .meta({ description: 'Of meat: the fat that the lot said, and the fat that follows from the test.' }),
  })
  .meta({ id: 'MixLine' });

const standing = z
  .object({
    total: both,
    checks: z.array(check).meta({ description: 'At the fat that was found.' }),
    onUnsafeSide: z
      .array(z.object({ limitId: z.string(), holds: z.boolean(), value: z.number(), room: z.number() }))
      .optional()
      .meta({
        description:
          'Where confidence was asked: each limit at the end of the likely fat that is worse for it.',
      }),
    raw: makeup,
    finishedMakeup: makeup,
  })
  .meta({ id: 'Standing' });

const rightFields = {
  outcome: z.literal('right as it is'),
  mix: z.array(mixLine),
  before: standing,
  cautions: z.array(z.string()),
};

const additionFields = {
  outcome: z.literal('additions'),
  mix: z.array(mixLine),
  before: standing,
  after: standing,
  lines: z.array(addedLine),
  roomLeft: both.meta({ description: 'What the mixer still holds beyond the new total.' }),
  cost: z.number().meta({ description: 'Of what is added; what is in the mixer is paid for.' }),
  unroundedCost: z.number().meta({ description: 'Least cost before rounding to the scales, by the engine.' }),
  leftOut: z.array(leftOut),
  cautions: z.array(z.string()),
};

const takeOut = z
  .object({
    weight,
    mass: both,
    rest: z.array(z.object({ supplyId: z.string(), mass: both })),
    afterwards: z.discriminatedUnion('outcome', [z.object(rightFields), z.object(additionFields)]),
  })
  .meta({
    id: 'TakeOut',
    description: 'A part of the mix that goes out, so that the rest can be brought back.',
  });

const fit = z
  .object({
    product: z.string(),
    name: z.string(),
    outcome: z.enum(['right as it is', 'additions']),
    lines: z.array(addedLine),
    total: both,
    cost: z.number(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'FitsProduct', description: 'Another product that the whole mix can become.' });

const header = {
  plant: z.object({ name: z.string(), establishment: z.string() }),
  product: z.object({ id: z.string(), name: z.string() }),
  standard: z.object({ says: z.string(), citation: z.string(), edition: z.string() }),
  date: z.string(),
  units: z.enum(['lb', 'kg']),
  currency: z.string(),
  capacity: both,
  test: z.object({
    foundFraction: z.number(),
    saidFraction: z.number().meta({ description: 'What the weighed lots said of the whole.' }),
    sdPoints: z.number(),
    method: z.string(),
    confidence: z.number().optional(),
  }),
};

export const correctionAnswerSchema = z
  .discriminatedUnion('outcome', [
    z.object({ ...header, ...rightFields }),
    z.object({ ...header, ...additionFields }),
    z.object({
      ...header,
      outcome: z.literal('cannot be brought back'),
      mix: z.array(mixLine),
      before: standing,
      because: z.array(z.object({ limitId: z.string().optional(), message: z.string() })),
      leastTotal: both
        .optional()
        .meta({ description: 'The least total that would do it, where nothing but the mixer is too small.' }),
      takeOut: takeOut.optional(),
      fits: z.array(fit),
      leftOut: z.array(leftOut),
      cautions: z.array(z.string()),
    }),
  ])
  .meta({ id: 'CorrectionAnswer' });

export type CorrectionInput = z.output<typeof correctionRequestSchema>;
export type CorrectionAnswer = z.output<typeof correctionAnswerSchema>;
