import { z } from 'zod';
import { RECORD_KINDS } from '../../store/records.ts';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { followed, following, query } from '../contract/pages.ts';
import { paperField } from '../contract/printing.ts';
import {
  dateSchema,
  idSchema,
  listSchema,
  reasonSchema,
  stockSchema,
  textSchema,
} from '../contract/quantities.ts';

/** Traces, recall drills, logs and records as they are asked for and answered. */

const weight = z.object({ kg: z.number(), lb: z.number() });
const time = z.object({
  at: z.string().meta({ description: 'ISO 8601 in UTC.' }),
  shown: z.string().meta({ description: "What the plant's clock showed." }),
});

/** Where a trace starts: exactly one of these. */
const start = {
  lotId: idSchema.optional().meta({ description: 'A lot of ours: received, rework, bulk or packs.' }),
  supplierLot: textSchema(80).optional().meta({ description: "The supplier's own number." }),
  supplierEstablishment: textSchema(40).optional().meta({ description: 'Beside supplierLot.' }),
  batchId: idSchema.optional(),
};

interface Start {
  readonly lotId?: string | undefined;
  readonly supplierLot?: string | undefined;
  readonly supplierEstablishment?: string | undefined;
  readonly batchId?: string | undefined;
}

function refuseOtherThanOne(given: Start, context: z.RefinementCtx): void {
  const { lotId, supplierLot, supplierEstablishment, batchId } = given;
  const count = [lotId, supplierLot, batchId].filter((one) => one !== undefined).length;
  const refuse = (path: string, message: string) =>
    context.addIssue({ code: 'custom', path: [path], message });
  if (count !== 1) refuse('lotId', 'give exactly one of lotId, supplierLot and batchId');
  if (supplierEstablishment !== undefined && supplierLot === undefined)
    refuse('supplierEstablishment', 'stands without supplierLot; give both');
}

export const traceQuery = query({
  ...start,
  direction: choiceField(['forward', 'back']).default('forward'),
}).superRefine(refuseOtherThanOne);

const share = z.number().meta({
  description:
    'Part that may stem from the start, or part of the start that may stem from it: an estimate, as if everything was mixed evenly. It may contain some whatever the share.',
});

const tracedLot = z.object({
  lotId: z.string(),
  kind: z.string(),
  of: z.object({ id: z.string(), name: z.string() }),
  batchId: z.string().optional(),
  supplierEstablishment: z.string().optional(),
  supplierLot: z.string().optional(),
  packedDate: z.string().optional(),
  receivedDate: z.string(),
  came: weight.meta({ description: 'All that ever came onto it.' }),
  onHand: weight,
  held: z.boolean(),
  mayContain: z.literal(true),
  share,
  estimate: weight.optional().meta({ description: 'The share in weight.' }),
});

const tracedBatch = z.object({
  batchId: z.string(),
  product: z.object({ id: z.string(), name: z.string() }).optional(),
  date: z.string().optional(),
  state: z.string().optional(),
  weighed: weight,
  mayContain: z.literal(true),
  share,
  estimate: weight.optional(),
});

const place = z.object({ lotId: z.string().optional(), batchId: z.string().optional() });

const consignee = z.object({
  to: z.string().optional().meta({ description: 'Absent for what was sold over the counter.' }),
  kind: z.enum(['sold', 'shipped']),
  document: z.string().optional(),
  day: z.string(),
  lotId: z.string(),
  movement: z.int(),
  mass: weight,
  mayContain: z.literal(true),
  share,
  estimate: weight.optional(),
});

const sameGrinder = z
  .array(
    z.object({
      batchId: z.string(),
      product: z.string(),
      date: z.string(),
      beside: z.array(z.string()).meta({ description: 'The batches of the trace that it was ground with.' }),
    }),
  )
  .meta({
    description:
      'Batches that none of it was weighed into, but that were ground between the same two cleanings of the grinder as a batch of the trace: it may have carried some over.',
  });

export const traceAnswer = z
  .object({
    direction: z.enum(['forward', 'back']),
    start: z.object({ says: z.string(), lotIds: z.array(z.string()), batchIds: z.array(z.string()) }),
    asOf: time,
    units: z.enum(['lb', 'kg']),
    levels: z.array(z.object({ steps: z.int(), lots: z.array(tracedLot), batches: z.array(tracedBatch) })),
    flows: z.array(z.object({ from: place, to: place, mass: weight })),
    consignees: z.array(consignee).meta({ description: 'Who got some of it; forward only.' }),
    suppliers: z
      .array(
        z.object({
          supplierEstablishment: z.string().optional(),
          supplierLot: z.string().optional(),
          lotIds: z.array(z.string()),
          materials: z.array(z.string()),
          share,
        }),
      )
      .meta({ description: 'Whose lots it may be made of; back only.' }),
    withoutLot: z
      .array(z.object({ batchId: z.string(), materialId: z.string(), material: z.string(), mass: weight }))
      .meta({ description: 'Weighed in without a lot, such as water: the trace ends there; back only.' }),
    sameGrinder,
    notes: z.array(z.string()),
  })
  .meta({ id: 'Trace' });

export const drillSchema = record(
  {
    ...start,
    reason: reasonSchema,
    hold: z
      .boolean(remedy('must be true or false'))
      .default(false)
      .meta({ description: 'Put all affected lots on hand on hold at once; only for those who may plan.' }),
  },
  'must say what is recalled and why',
).superRefine(refuseOtherThanOne);

export const drillFinishSchema = record(
  {
    found: listSchema(
      record(
        { lotId: idSchema, mass: stockSchema, note: textSchema(200).optional() },
        'must be a lot and what was found of it',
      ),
      500,
      'lots found, such as {"lotId": "…", "mass": {"value": 60, "unit": "lb"}}',
    ),
    contacted: listSchema(
      record(
        { to: textSchema(120), note: textSchema(200).optional() },
        'must be who was contacted, with a note where there is one',
      ),
      500,
      'who was contacted, such as {"to": "Corner grocery", "note": "stopped selling"}',
    ).optional(),
    note: textSchema(1000).optional(),
  },
  'must say what was found',
);

const named = z.array(z.object({ to: z.string(), mass: weight }));

export const whereaboutsAnswer = z
  .object({
    affected: weight.meta({ description: 'Everything that was made from the lot, whatever became of it.' }),
    onHand: z.object({ material: weight, bulk: weight, packs: weight }),
    inProcess: weight,
    shipped: named,
    sold: named,
    soldAtCounter: weight.meta({ description: 'To whom is not known: not accounted for.' }),
    discarded: weight,
    samples: weight,
    lossInProcess: weight.meta({
      description: 'As the records of finished batches say; below 0 for a gain.',
    }),
    countedShort: weight.meta({ description: 'Missing when it was counted: not accounted for.' }),
    accounted: weight,
    percentAccounted: z.number(),
  })
  .meta({ id: 'Whereabouts' });

const drillLot = z.object({
  lotId: z.string(),
  kind: z.string(),
  of: z.string(),
  onHand: weight,
  held: z.boolean(),
  share,
});

const counted = z.object({
  lotId: z.string(),
  books: weight,
  found: weight,
  difference: weight,
  note: z.string().optional(),
});

export const drillAnswer = z
  .object({
    id: z.string(),
    state: z.enum(['started', 'finished']),
    plant: z.string(),
    establishment: z.string(),
    units: z.enum(['lb', 'kg']),
    timeZone: z.string(),
    reason: z.string(),
    start: z.object({ says: z.string(), lotIds: z.array(z.string()), batchIds: z.array(z.string()) }),
    started: time,
    startedBy: z.string(),
    batches: z.array(z.string()),
    lots: z.array(drillLot).meta({ description: 'Affected lots on hand when it started: look for these.' }),
    putOnHold: z.array(z.string()),
    consignees: z.array(consignee),
    sameGrinder: sameGrinder.optional(),
    whereabouts: whereaboutsAnswer,
    finished: z
      .object({
        time,
        by: z.string(),
        minutes: z.number().meta({ description: 'From start to finish.' }),
        counted: z.array(counted),
        contacted: z
          .array(z.object({ to: z.string(), note: z.string().optional() }))
          .optional()
          .meta({ description: 'Who of those that got some was contacted; absent from older drills.' }),
        whereabouts: whereaboutsAnswer.meta({ description: 'As the books stood at the finish.' }),
        accounted: weight,
        percentAccounted: z.number(),
        note: z.string().optional(),
      })
      .optional(),
    counts: z.array(z.string()).meta({ description: 'What the figures count.' }),
    records: z.object({ start: z.int(), finish: z.int().optional() }),
  })
  .meta({ id: 'RecallDrill' });

const order = choiceField(['newest', 'oldest']).default('oldest');

export const drillsQuery = query({
  fromDay: dateSchema.optional(),
  toDay: dateSchema.optional(),
  order,
  ...following,
});

export const drillsAnswer = followed(
  z.object({
    id: z.string(),
    state: z.enum(['started', 'finished']),
    reason: z.string(),
    started: time,
    startedBy: z.string(),
    minutes: z.number().optional(),
    percentAccounted: z.number(),
  }),
);

export const logQuery = query({
  fromDay: dateSchema.optional().meta({ description: 'Six days before toDay when absent.' }),
  toDay: dateSchema.optional().meta({ description: 'Today at the plant when absent.' }),
  paper: paperField,
});

const log = <Item extends z.ZodType>(id: string, item: Item) =>
  z
    .object({
      title: z.string(),
      plant: z.string(),
      establishment: z.string(),
      fromDay: z.string(),
      toDay: z.string(),
      timeZone: z.string(),
      notes: z.array(z.string()),
      items: z.array(item),
    })
    .meta({ id });

export const grindingAnswer = log(
  'GrindingLog',
  z.object({
    number: z.int(),
    batches: z.array(z.object({ batchId: z.string(), product: z.string() })),
    producedFrom: time,
    producedUntil: time,
    cleanedBefore: time.optional(),
    cleanedAfter: time.optional(),
    groundBefore: z.array(z.object({ batchId: z.string(), product: z.string() })).meta({
      description: 'Of whatever meat, ground before it without a cleaning between: the grinder carried over.',
    }),
    sources: z.array(
      z.object({
        material: z.string(),
        lotId: z.string().optional(),
        supplierEstablishment: z.string().optional(),
        supplierLot: z.string().optional(),
        productionDate: z.string().optional(),
        madeIn: z.string().optional().meta({ description: 'The batch that rework is left over from.' }),
        carriedOverBy: z.string().optional(),
        weighed: z.string().optional(),
      }),
    ),
  }),
);

export const fatTestsAnswer = log(
  'FatTestLog',
  z.object({
    seq: z.int(),
    date: z.string(),
    written: time,
    lotId: z.string().optional(),
    batchId: z.string().optional(),
    load: z.int().optional(),
    of: z.string().optional(),
    supplierEstablishment: z.string().optional(),
    fatPercent: z.string(),
    method: z.string(),
    sdPercent: z.string().optional(),
    notMet: z.array(z.string()),
    by: z.string(),
    withdrawn: z.string().optional().meta({ description: 'Why it was wrong, and who said so.' }),
  }),
);

export const restrictedAnswer = log(
  'RestrictedIngredientLog',
  z.object({
    batchId: z.string(),
    product: z.string(),
    load: z.int(),
    material: z.string(),
    lotId: z.string().optional(),
    substances: z.array(z.string()),
    planned: z.string().optional(),
    weighed: z.string(),
    takenBack: z.string().optional(),
    standing: z.array(
      z.object({
        says: z.string(),
        value: z.number(),
        bound: z.number(),
        unit: z.string(),
        holds: z.boolean(),
        citation: z.string(),
        load: z.int().optional(),
      }),
    ),
    weighedAt: time,
    by: z.string(),
  }),
);

export const cleaningAnswer = z.object({
  record: z.int(),
  equipment: z.array(z.string()),
  what: z.string(),
  cleaned: time,
  note: z.string().optional(),
  by: z.string(),
  written: time,
  correctedBy: z.array(z.int()),
  withdrawn: z.boolean(),
});

export const cleaningsAnswer = log('CleaningLog', cleaningAnswer);

const CLEANED = ['cleaned', 'cleaned and sanitized'] as const;

const cleaningFields = {
  equipment: listSchema(textSchema(60), 30, 'equipment, such as ["grinder", "mixer"]').min(
    1,
    remedy('must name at least one piece'),
  ),
  what: choiceField(CLEANED),
  at: z
    .string(remedy('must be a time of the plant such as 2026-11-25T14:30'))
    .regex(
      /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/,
      remedy('must be a time of the plant such as 2026-11-25T14:30'),
    )
    .optional()
    .meta({ description: "When it was done, by the plant's clock; now when absent." }),
  note: textSchema(300).optional(),
};

export const cleaningSchema = record(cleaningFields, 'must say what was cleaned');

/** What a correction may set right in a cleaning. */
export const cleaningFix = record(
  {
    equipment: cleaningFields.equipment.optional(),
    what: cleaningFields.what.optional(),
    at: cleaningFields.at,
    note: cleaningFields.note,
    withdrawn: z
      .boolean(remedy('must be true or false'))
      .optional()
      .meta({ description: 'True when it was never done.' }),
  },
  'must be the fields that are right',
);

export const recordsQuery = query({
  kind: choiceField(RECORD_KINDS).optional(),
  subjectId: textSchema(80).optional().meta({ description: 'Such as the batch.' }),
  productId: idSchema.optional().meta({ description: 'Records of its batches.' }),
  lotId: idSchema.optional().meta({ description: 'Records of batches that it went into or came out of.' }),
  fromDay: dateSchema.optional(),
  toDay: dateSchema.optional(),
  order,
  ...following,
});

export const recordAnswer = z
  .object({
    seq: z.int(),
    kind: z.string(),
    subjectId: z.string(),
    day: z.string(),
    sealed: time,
    by: z.string(),
    corrects: z.int().optional().meta({ description: 'The record that it sets right.' }),
    correctedBy: z.array(z.int()).meta({ description: 'Records that set this one right.' }),
    entry: z
      .object({
        seq: z.int(),
        says: z.string(),
        previousHash: z.string(),
        hash: z.string(),
        rowHash: z.string().meta({ description: 'SHA-256 of the record, which the entry seals.' }),
      })
      .optional()
      .meta({ description: 'What seals it in the chain; absent in the answer that writes it.' }),
    body: z.unknown(),
  })
  .meta({ id: 'Record' });

export const recordsAnswer = followed(recordAnswer);

export const correctionSchema = record(
  {
    reason: reasonSchema,
    corrects: z
      .string(remedy('must say what was wrong and what is right'))
      .regex(/\S.{8,}\S/s, remedy('must say what was wrong and what is right'))
      .max(2000, remedy('must have at most 2000 characters'))
      .meta({ description: 'What was wrong and what is right.' }),
    fields: z
      .record(z.string(), z.unknown(), remedy('must be an object with the fields as they are right'))
      .optional()
      .meta({ description: 'The fields as they are right; of a cleaning they count from then on.' }),
  },
  'must be a correction with reason and corrects',
);

export type RecordsQuery = z.output<typeof recordsQuery>;
export type TraceQuery = z.output<typeof traceQuery>;
export type TraceAnswer = z.output<typeof traceAnswer>;
export type DrillRequest = z.output<typeof drillSchema>;
export type DrillAnswer = z.output<typeof drillAnswer>;
export type WhereaboutsAnswer = z.output<typeof whereaboutsAnswer>;
export type LogQuery = z.output<typeof logQuery>;
export type RecordAnswer = z.output<typeof recordAnswer>;
export type DrillsAnswer = z.output<typeof drillsAnswer>;
export type RecordsAnswer = z.output<typeof recordsAnswer>;
export type GrindingAnswer = z.output<typeof grindingAnswer>;
export type FatTestsAnswer = z.output<typeof fatTestsAnswer>;
export type RestrictedAnswer = z.output<typeof restrictedAnswer>;
export type CleaningsAnswer = z.output<typeof cleaningsAnswer>;
export type CleaningRequest = z.output<typeof cleaningSchema>;
