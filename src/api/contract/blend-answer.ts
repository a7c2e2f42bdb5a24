import { z } from 'zod';
import { READS, SENSES, UNITS } from '../../rules/limit.ts';
import {
  certaintyAnswer,
  choiceAnswer,
  nearBestAnswer,
  proofAnswer,
  wayOutAnswer,
  worthAnswer,
} from './workings.ts';

/** What the service answers. The types of the answers follow from these schemas. */

export const both = z
  .object({ kg: z.number(), lb: z.number() })
  .meta({ id: 'BothUnits', description: 'One mass in kg and in lb.' });

export const makeup = z
  .object({
    fatFraction: z.number(),
    waterFraction: z.number(),
    proteinFraction: z.number(),
    saltFraction: z.number().meta({ description: 'Salt put in; natural salt is not counted.' }),
  })
  .meta({ id: 'Makeup' });

const read = z.enum(READS).meta({
  description: 'How the figure was read: official text, another text that quotes it, or entered from memory.',
});

const inForce = z
  .object({ from: z.string().optional(), until: z.string().optional() })
  .optional()
  .meta({ description: 'From the first day to the day before the last; an open end is left out.' });

export const laboratoryAnswer = z
  .object({
    id: z.string(),
    says: z.string(),
    citation: z.string(),
    read,
    inForce,
    note: z.string().optional(),
  })
  .meta({
    id: 'LaboratoryLimit',
    description: 'A limit on what a laboratory finds: weights cannot prove it, it needs a test.',
  });

export const limitAnswer = z
  .object({
    id: z.string(),
    says: z.string(),
    numerator: z.string(),
    basis: z.string(),
    sense: z.enum(SENSES).meta({
      description: 'A target asks for the bound itself, present for more than none of the numerator.',
    }),
    bound: z.number().meta({ description: 'In the unit beside it: 30 with percent, 156 with ppm.' }),
    within: z
      .number()
      .optional()
      .meta({ description: 'For a target: how far from it a weighed batch may be, as a fraction of it.' }),
    unit: z.enum(UNITS),
    authority: z.enum(['law', 'house']),
    citation: z.string(),
    read,
    inForce,
    note: z.string().optional(),
  })
  .meta({ id: 'Limit' });

export const check = z
  .object({
    limit: limitAnswer,
    holds: z.boolean().meta({ description: 'Decided in exact arithmetic on the weights as printed.' }),
    value: z.number().meta({ description: 'Numerator over basis, in the unit of the limit.' }),
    room: z.number().meta({ description: 'Distance from the bound, in the unit of the limit.' }),
    numeratorKg: z.number(),
    basisKg: z.number(),
    contributions: z
      .array(z.object({ supplyId: z.string(), massKg: z.number() }))
      .meta({ description: 'Who brings the numerator, the largest first; negative takes away from it.' }),
  })
  .meta({ id: 'Check' });

const line = z
  .object({
    supplyId: z.string(),
    materialId: z.string(),
    material: z.string(),
    lotId: z.string().optional(),
    boxes: z.int().optional().meta({ description: 'Whole boxes, where the blend opens none.' }),
    fat: z
      .object({ meanFraction: z.number(), sdFraction: z.number(), says: z.string() })
      .optional()
      .meta({ description: 'What is known of the fat of the lot, and how.' }),
    weight: z.object({ text: z.string(), unit: z.string(), scale: z.string() }).meta({
      description: 'What one load weighs, as the scale shows it.',
    }),
    mass: both.meta({ description: 'In the whole batch.' }),
    cost: z.number(),
    asked: z
      .object({
        fraction: z.number(),
        basis: z.string(),
        actualFraction: z
          .number()
          .meta({ description: 'On the printed weights, all lots of the material together.' }),
        togetherWith: z.array(z.string()),
      })
      .optional(),
  })
  .meta({ id: 'BlendLine' });

export const leftOut = z
  .object({ supplyId: z.string(), material: z.string(), because: z.string() })
  .meta({ id: 'LeftOut' });

export const blendAnswerSchema = z
  .discriminatedUnion('outcome', [
    z.object({
      outcome: z.literal('blend'),
      product: z.string(),
      standard: z.object({ says: z.string(), citation: z.string() }),
      date: z.string(),
      currency: z.string(),
      units: z
        .enum(['lb', 'kg'])
        .meta({ description: 'Units shown to people; figures of cost here are per kg.' }),
      fingerprint: z.string().meta({
        description: 'Of what is weighed of which lot; send it with a plan to get this blend or none.',
      }),
      loads: z.int(),
      batch: both,
      load: both,
      greenWeight: both,
      finished: both,
      cost: z.number(),
      costPerKg: z.number(),
      costPerLb: z.number(),
      unroundedCost: z
        .number()
        .meta({ description: 'Least cost before rounding to the scales, by the engine.' }),
      proof: proofAnswer,
      certainty: z.array(certaintyAnswer),
      costOfCertainty: z
        .number()
        .optional()
        .meta({ description: 'What the confidence asked for adds to the least cost.' }),
      costOfOlderFirst: z
        .number()
        .optional()
        .meta({ description: 'What preferring older lots adds, before rounding to the scales.' }),
      choice: choiceAnswer.optional().meta({
        description: 'Where whole boxes or few lots were asked for: the choice of lots before rounding.',
      }),
      worth: worthAnswer.optional(),
      nearBest: z.array(nearBestAnswer).optional(),
      lines: z.array(line),
      checks: z.array(check),
      switchedOff: z
        .array(z.object({ limit: limitAnswer, reason: z.string(), check: check.optional() }))
        .meta({
          description: 'Limits of the law that the house does not hold, with how the batch stands to them.',
        }),
      laboratory: z.array(laboratoryAnswer),
      raw: makeup,
      finishedMakeup: makeup,
      leftOut: z.array(leftOut),
      cautions: z.array(z.string()),
    }),
    z.object({
      outcome: z.literal('no blend'),
      currency: z.string(),
      units: z.enum(['lb', 'kg']),
      because: z.array(z.object({ limitId: z.string().optional(), message: z.string() })),
      proven: z.boolean().meta({
        description:
          'Whether it is proven in exact arithmetic that no blend exists; otherwise none was found.',
      }),
      wayOut: wayOutAnswer.optional(),
      leftOut: z.array(leftOut),
    }),
  ])
  .meta({ id: 'BlendAnswer' });

export const batchSheetAnswerSchema = z
  .object({
    plant: z.object({ name: z.string(), establishment: z.string() }),
    product: z.object({ id: z.string(), name: z.string() }),
    standard: z.object({ says: z.string(), citation: z.string(), edition: z.string() }),
    date: z.string(),
    units: z.enum(['lb', 'kg']),
    currency: z.string(),
    batch: z.object({
      total: both,
      greenWeight: both,
      finished: both,
      loads: z.int(),
      load: both,
      pieces: z.int().optional(),
    }),
    pick: z.array(
      z.object({
        lotId: z.string(),
        material: z.string(),
        mass: both,
        boxes: z.object({ full: z.int(), rest: both }).optional(),
        location: z.string().optional(),
        supplierEstablishment: z.string().optional(),
        supplierLot: z.string().optional(),
        useByDate: z.string().optional(),
        state: z.string(),
        fetch: z.string().meta({ description: 'The weight as it adds up on the scale, with its unit.' }),
      }),
    ),
    weigh: z.array(
      z.object({
        number: z.int(),
        material: z.string(),
        lotId: z.string().optional(),
        weight: z.string(),
        unit: z.string(),
        scale: z.string(),
        drafts: z.int().meta({ description: 'Weighings it takes where the scale cannot carry it at once.' }),
        perLoad: both,
        asked: z.string().optional(),
        cure: z.literal(true).optional().meta({ description: 'Whether the line is a cure.' }),
      }),
    ),
    mixing: z.array(z.string()),
    grindPlates: z.array(z.string()),
    stuffInto: z.string().optional(),
    leftOut: z.array(leftOut),
    proof: z.array(
      z.object({
        limitId: z.string(),
        says: z.string(),
        what: z.string(),
        value: z.number(),
        bound: z.number(),
        sense: z.enum(SENSES),
        unit: z.string(),
        basis: z.string(),
        holds: z.boolean(),
        authority: z.enum(['law', 'house']),
        citation: z.string(),
        read: z.string(),
      }),
    ),
    switchedOff: z.array(
      z.object({ says: z.string(), citation: z.string(), reason: z.string(), found: z.string() }),
    ),
    laboratory: z.array(z.object({ says: z.string(), citation: z.string(), read: z.string() })),
    howSure: z.array(z.string()).meta({
      description: 'How likely limits are to hold, where the fat of the lots is uncertain.',
    }),
    makeup: z.object({ raw: makeup, finished: makeup }),
    cost: z.object({
      batch: z.number(),
      perKgRaw: z.number(),
      perLbRaw: z.number(),
      perKgFinished: z.number(),
      perLbFinished: z.number(),
      notes: z
        .array(z.string())
        .meta({ description: 'How near to the least possible cost, and what was asked adds.' }),
    }),
    fillIn: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'BatchSheet' });

export const problemSchema = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    errors: z
      .array(z.object({ pointer: z.string(), message: z.string() }))
      .optional()
      .meta({ description: 'JSON pointers into the request, each with what is wrong and what to write.' }),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem details.' });

export type BlendAnswer = z.output<typeof blendAnswerSchema>;
export type LimitAnswer = z.output<typeof limitAnswer>;
export type LaboratoryAnswer = z.output<typeof laboratoryAnswer>;
