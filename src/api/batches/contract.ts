import { z } from 'zod';
import { BATCH_STATES } from '../../making/batch.ts';
import { STAGES } from '../../making/finish.ts';
import { choiceField, fractionField, isSensibleMass, record, remedy, shown } from '../../tables/json.ts';
import { kilograms, MASS_UNITS } from '../../units.ts';
import { both, makeup } from '../contract/blend-answer.ts';
import { blendRequestSchema } from '../contract/blend-request.ts';
import {
  dateSchema,
  idSchema,
  listSchema,
  massSchema,
  reasonSchema,
  textSchema,
} from '../contract/quantities.ts';

/** What a batch takes and gives in JSON. */

const { batchSize, date, use, excludeLots, certainty, floor } = blendRequestSchema.shape;

export const planRequestSchema = record(
  {
    product: idSchema.meta({ description: 'Id of a product of the plant.' }),
    batchSize,
    date,
    use,
    excludeLots,
    certainty,
    floor,
    fingerprint: textSchema(64).optional().meta({
      description: 'Of the blend that was seen: if the blend is another one by now, nothing is planned.',
    }),
  },
  'must be an object with product and batchSize',
).meta({ id: 'PlanRequest' });

const NUMBER_TEXT = /^\d{1,9}(?:\.\d{1,6})?$/;

/** A weight as the scale shows it: the digits are kept as they are written. */
export const scaleWeightSchema = record(
  {
    value: z
      .union([z.number(), z.string()], remedy('must be what the scale shows, such as 120.5 or "120.50"'))
      .transform(String)
      .refine(
        (text) => NUMBER_TEXT.test(text),
        remedy('must be what the scale shows, such as 120.5 or "120.50"'),
      )
      .refine((text) => !NUMBER_TEXT.test(text) || Number(text) > 0, remedy('must be above 0')),
    unit: choiceField(MASS_UNITS),
  },
  'must be a weight with its unit, such as {"value": "120.5", "unit": "lb"}',
)
  .refine(
    ({ value, unit }) => !(Number(value) > 0) || isSensibleMass(kilograms({ value: Number(value), unit })),
    {
      path: ['value'],
      error: ({ input }) =>
        `${shown((input as { value: string }).value)}: it must be from 1 mg to 1000000 kg`,
    },
  )
  .meta({ id: 'ScaleWeight', description: 'A weight as read on a scale.' });

const numbered = (what: string) =>
  z.int(remedy(`must be the number of ${what}`)).min(1, remedy(`must be the number of ${what}`));

export const weighingSchema = record(
  {
    line: numbered('a line of the sheet'),
    load: numbered('a load').default(1),
    weight: scaleWeightSchema,
    lotId: idSchema
      .optional()
      .meta({ description: 'The lot that was taken, when it is not the planned one.' }),
    reason: reasonSchema.optional().meta({
      description:
        'Why another lot or another weight; needed at once for another lot and for a weight far above the plan.',
    }),
    meant: z.boolean(remedy('must be true or false')).default(false).meta({
      description: 'Of another lot, that a weight far above the plan is no slip; the reason says why.',
    }),
  },
  'must be a weighing with line, load and weight',
).meta({ id: 'WeighingRequest' });

export const takeBackSchema = record({ reason: reasonSchema }, 'must have a reason').meta({ id: 'Reason' });

const reasons = listSchema(
  record(
    {
      line: numbered('a line of the sheet').optional(),
      load: numbered('a load')
        .optional()
        .meta({ description: 'Beside a line or a limit; alone it is about every line of that load.' }),
      limitId: textSchema(120).optional(),
      about: z.enum(['yield'], remedy('must be "yield"')).optional(),
      reason: reasonSchema,
    },
    'must have a reason, and a line with its load, a load, a limitId, or about',
  ).refine(({ line, load, limitId, about }) => {
    const named = [line, limitId, about].filter((one) => one !== undefined).length;
    return named === 1 || (named === 0 && load !== undefined);
  }, 'says not what it is about; give one of line (with its load), limitId and about, or a load alone for all its lines'),
  200,
  'reasons',
).default([]);

export const weighedSchema = record(
  {
    reasons: reasons.meta({
      description:
        'Why the floor departed from the plan: for a line (and load) or for a limit that is not met.',
    }),
  },
  'must be an object with reasons, which may be empty',
).meta({ id: 'WeighedRequest' });

export const batchTestSchema = record(
  {
    fatFraction: fractionField,
    method: textSchema(80),
    sdFraction: z
      .number(remedy('must be a number'))
      .gt(0, remedy('must be above 0; leave it out to take the default of the method'))
      .max(0.1, remedy('must be at most 0.1'))
      .optional(),
    load: numbered('a load')
      .optional()
      .meta({ description: 'The load that was tested; the whole batch when absent.' }),
  },
  'must be a fat test with fatFraction and method',
).meta({ id: 'BatchTestRequest' });

export const batchCorrectionSchema = record(
  {
    load: numbered('a load').default(1),
    capacity: massSchema
      .optional()
      .meta({ description: "What the mixer holds; the plant's own figure when absent." }),
    confidence: z
      .number(remedy('must be a number'))
      .gt(0.5, remedy('must be above 0.5'))
      .lt(1, remedy('must be below 1'))
      .optional(),
    excludeLots,
  },
  'must be an object; load, capacity, confidence and excludeLots may be given',
).meta({ id: 'BatchCorrectionRequest' });

const stage = choiceField(STAGES)
  .default('finished')
  .meta({ description: 'raw: taken out before cooking, smoking or drying; finished: after it.' });

export const temperatureSchema = record(
  {
    what: textSchema(80),
    value: z
      .number(remedy('must be a number'))
      .min(-100, remedy('must be from -100 to 400'))
      .max(400, remedy('must be from -100 to 400')),
    unit: choiceField(['C', 'F']),
    time: z
      .string(remedy('must be a time such as "14:05"'))
      .regex(/^([01]\d|2[0-3]):[0-5]\d$/, remedy('must be a time such as "14:05"'))
      .optional(),
  },
  'must be a temperature with what, value and unit',
).meta({ id: 'Temperature' });

export const finishSchema = record(
  {
    output: record(
      {
        weight: scaleWeightSchema,
        useByDate: dateSchema.optional(),
        state: choiceField(['chilled', 'frozen', 'dry']).default('chilled'),
        location: textSchema(80).optional(),
      },
      'must be the weight of the product that came out',
    ),
    rework: listSchema(
      record(
        {
          weight: scaleWeightSchema,
          stage,
          useByDate: dateSchema.optional(),
          location: textSchema(80).optional(),
        },
        'must be a weight of rework',
      ),
      20,
      'weights of rework',
    ).default([]),
    discarded: listSchema(
      record({ weight: scaleWeightSchema, stage, reason: reasonSchema }, 'must be a weight with its reason'),
      20,
      'discarded weights',
    ).default([]),
    temperatures: listSchema(temperatureSchema, 60, 'temperatures').default([]),
    reasons,
  },
  'must be an object with output',
).meta({ id: 'FinishRequest' });

const packRequest = record(
  {
    count: z
      .int(remedy('must be a whole number'))
      .min(1, remedy('must be at least 1'))
      .max(100_000, remedy('must be at most 100000')),
    format: idSchema
      .optional()
      .meta({ description: "Id of one of the product's packs: what it declares and how it is labelled." }),
    net: scaleWeightSchema
      .optional()
      .meta({ description: 'Net weight declared on each pack; that of the format when absent.' }),
    filled: scaleWeightSchema.optional().meta({
      description:
        'What all of them really hold together; count times net when absent. Packs that are weighed one by one need it.',
    }),
    useByDate: dateSchema.optional(),
    location: textSchema(80).optional(),
  },
  'must be packs with count and net weight',
).refine(({ net, format }) => net !== undefined || format !== undefined, {
  path: ['net'],
  error: 'is missing; give the net weight of each pack, or the format that declares it',
});

export const packSchema = record(
  { packs: listSchema(packRequest, 50, 'packs').min(1, remedy('must hold at least one entry')) },
  'must be an object with packs',
).meta({ id: 'PackRequest' });

export const setAsideSchema = record(
  {
    weight: scaleWeightSchema,
    reason: reasonSchema,
    useByDate: dateSchema.optional(),
    location: textSchema(80).optional(),
  },
  'must be a weight with its reason',
).meta({ id: 'SetAsideRequest' });

export const closeSchema = record(
  { note: textSchema(500).optional() },
  'must be an object; a note may be given',
).meta({ id: 'CloseRequest' });

export const batchesQuery = record(
  {
    productId: idSchema.optional(),
    state: choiceField(BATCH_STATES).optional(),
    open: choiceField(['true', 'false'])
      .optional()
      .meta({ description: 'true: neither closed nor cancelled; false: one of the two.' }),
    fromDay: dateSchema.optional(),
    toDay: dateSchema.optional(),
    before: textSchema(64)
      .optional()
      .meta({ description: 'Only batches before this one: the next of the last page.' }),
    limit: z
      .string()
      .regex(/^\d{1,3}$/, remedy('must be a whole number from 1 to 200'))
      .transform(Number)
      .refine((value) => value >= 1 && value <= 200, remedy('must be a whole number from 1 to 200'))
      .default(50),
  },
  'must be query parameters',
);

const shownWeight = z.object({ value: z.string(), unit: z.enum(MASS_UNITS) });

const who = { by: z.string(), at: z.string().meta({ description: 'Instant, UTC.' }) };

const limit = z
  .object({
    limitId: z.string(),
    says: z.string(),
    what: z.string(),
    basis: z.string(),
    sense: z.string(),
    bound: z.number(),
    value: z.number(),
    unit: z.string(),
    holds: z.boolean(),
    authority: z.enum(['law', 'house']),
    citation: z.string(),
    load: z.int().optional().meta({ description: 'The load that misses it, of several.' }),
  })
  .meta({ id: 'LimitStanding', description: 'How a limit stands, in its own unit.' });

const departure = {
  line: z.int().optional(),
  load: z.int().optional(),
  limitId: z.string().optional(),
  about: z.literal('yield').optional(),
  what: z.string(),
  planned: z.string(),
  found: z.string(),
};

const deviation = z.object({ ...departure, reason: z.string() }).meta({ id: 'Deviation' });

const open = z.object({ ...departure, reason: z.string().optional() }).meta({ id: 'OpenDeparture' });

export const batchSummary = z
  .object({
    id: z.string(),
    productId: z.string(),
    product: z.string().meta({ description: 'Its name; the id of one that is gone.' }),
    date: z.string(),
    state: z.enum(BATCH_STATES),
    version: z.int(),
    lines: z.object({ begun: z.int(), all: z.int() }).optional().meta({
      description: 'While it is weighed: lines of all its loads, and into how many something was weighed.',
    }),
  })
  .meta({ id: 'BatchSummary' });

export const batchAnswer = z
  .object({
    id: z.string(),
    product: z.object({ id: z.string(), name: z.string() }),
    standard: z.object({ says: z.string(), citation: z.string(), edition: z.string() }),
    state: z.enum(BATCH_STATES),
    version: z.int(),
    date: z.string(),
    units: z.enum(['lb', 'kg']),
    currency: z.string(),
    cost: z.number().meta({ description: 'As planned.' }),
    process: z
      .object({ cooking: z.string(), yieldFraction: z.number() })
      .meta({ description: 'What the product declared when it was planned.' }),
    loads: z.int(),
    planned: both,
    weighed: both,
    lines: z.array(
      z.object({
        number: z.int(),
        material: z.string(),
        materialId: z.string(),
        supplyId: z.string(),
        lotId: z.string().optional(),
        perLoad: shownWeight,
        scale: z.string(),
        division: shownWeight.optional().meta({ description: 'Smallest step of that scale.' }),
        drafts: z
          .int()
          .optional()
          .meta({ description: 'How many times the scale is filled, where it carries less than the line.' }),
        cure: z.boolean().meta({ description: 'A cure: weighed alone, and checked by a second person.' }),
        location: z.string().optional(),
        boxes: z
          .object({ full: z.int(), rest: both })
          .optional()
          .meta({ description: 'Full boxes of each load, and what comes from an opened one.' }),
        ofCorrection: z.int().optional(),
        loads: z.array(
          z.object({
            load: z.int(),
            planned: both,
            weighed: both,
            rest: both.meta({ description: 'Still to be weighed; 0 when the line is done.' }),
            tolerance: z
              .object({ under: both, over: both })
              .meta({ description: 'How far from the plan it may be without a reason.' }),
            weighings: z.array(
              z.object({
                step: z.int(),
                lotId: z.string().optional(),
                weight: shownWeight,
                reason: z.string().optional(),
                ...who,
              }),
            ),
          }),
        ),
      }),
    ),
    limits: z.array(limit),
    limitsAre: z
      .enum(['as planned', 'as weighed so far', 'as weighed', 'with the test', 'as finished'])
      .meta({
        description: 'What the limits are worked out on; "so far" counts what is missing as planned.',
      }),
    makeup: makeup.optional().meta({ description: 'Of the finished product, on the same weights.' }),
    open: z.array(open).meta({
      description:
        'Departures from the plan so far; those without a reason get one with "weighed" or, once weighed, with "finish".',
    }),
    deviations: z.array(deviation).meta({ description: 'Departures with their reasons, as settled.' }),
    tests: z.array(
      z.object({
        step: z.int(),
        load: z.int().optional(),
        fatFraction: z.number(),
        method: z.string(),
        sdFraction: z.number().optional(),
        ...who,
      }),
    ),
    corrections: z.array(z.object({ step: z.int(), says: z.string(), ...who })),
    finished: z
      .object({
        output: z.object({ lotId: z.string(), weight: shownWeight, mass: both }),
        rework: z.array(
          z.object({
            lotId: z.string(),
            materialId: z.string(),
            stage: z.enum(STAGES),
            weight: shownWeight,
            mass: both,
          }),
        ),
        discarded: z.array(
          z.object({ stage: z.enum(STAGES), weight: shownWeight, mass: both, reason: z.string() }),
        ),
        loss: both,
        yieldFraction: z.number(),
        costPerKg: z.number().meta({ description: 'Of the product, with all that was not kept.' }),
        costPerLb: z.number(),
        hold: z.string().optional().meta({ description: 'Why what came out was put on hold.' }),
        temperatures: z.array(
          z.object({
            what: z.string(),
            value: z.number(),
            unit: z.enum(['C', 'F']),
            time: z.string().optional(),
          }),
        ),
        ...who,
      })
      .optional(),
    packs: z.array(z.object({ lotId: z.string(), count: z.int(), net: shownWeight, mass: both, ...who })),
    record: z.int().optional().meta({ description: 'Number of the sealed record.' }),
    next: z.array(z.string()).meta({ description: 'Steps that may be taken now.' }),
    cautions: z.array(z.string()),
    steps: z.array(z.object({ number: z.int(), kind: z.string(), ...who })),
  })
  .meta({ id: 'Batch' });

export const weighingCheckAnswer = z
  .object({
    line: z.int(),
    load: z.int(),
    planned: both,
    there: both.meta({ description: 'Of the line in that load, with this weighing.' }),
    fit: z
      .enum(['short', 'within', 'above'])
      .meta({ description: 'Against the plan: still short of it, within its tolerance, or above that.' }),
    refusals: z
      .array(z.object({ kind: z.string(), message: z.string(), pointer: z.string().optional() }))
      .meta({
        description:
          'What booking it would be refused for, as the kind of the problem; empty when nothing is.',
      }),
    limits: z
      .array(
        limit.extend({
          isMissed: z.boolean(),
          wasMissed: z.boolean().meta({ description: 'Already without this weighing.' }),
        }),
      )
      .optional()
      .meta({
        description: 'Every limit with it, what is missing as planned; absent for a lot that may not go in.',
      }),
  })
  .meta({ id: 'WeighingCheck', description: 'What a weighing would do, before it is booked.' });

export const batchesAnswer = z.object({
  items: z.array(batchSummary),
  next: z.string().optional().meta({ description: 'Send it as before to read on; absent at the end.' }),
});

export type PackRequest = z.output<typeof packRequest>;
export type Finish = z.output<typeof finishSchema>;
export type Weighing = z.output<typeof weighingSchema>;
export type WeighingCheck = z.output<typeof weighingCheckAnswer>;
export type BatchesQuery = z.output<typeof batchesQuery>;
export type BatchesAnswer = z.output<typeof batchesAnswer>;
export type BatchAnswer = z.output<typeof batchAnswer>;
