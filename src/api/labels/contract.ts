import { z } from 'zod';
import { PAPERS } from '../../batch/plant.ts';
import { LABEL_PARTS } from '../../documents/pdf/label/label-part.ts';
import { LABEL_STOCKS } from '../../documents/pdf/label/label-stock.ts';
import { SYMBOLOGIES } from '../../labels/packs/codes.ts';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { MASS_UNITS } from '../../units.ts';
import { scaleWeightSchema } from '../batches/contract.ts';
import { blendRequestSchema } from '../contract/blend-request.ts';
import { nutritionSchema } from '../contract/nutrition.ts';
import { query } from '../contract/pages.ts';
import { dateSchema, idSchema, textSchema } from '../contract/quantities.ts';

/** Labels of packs in JSON, and how they are wanted on paper. */

const whole = (what: string, most: number) =>
  z
    .string(remedy(`must be ${what}`))
    .regex(/^\d{1,4}$/, remedy(`must be ${what}`))
    .transform(Number)
    .refine((value) => value >= 1 && value <= most, remedy(`must be ${what}`));

const MOST_COPIES = 200;

const print = {
  stock: choiceField(LABEL_STOCKS.map(({ id }) => id))
    .optional()
    .meta({ description: "For a PDF: id of the label stock; the pack's or the plant's own when absent." }),
  part: choiceField(LABEL_PARTS).default('whole').meta({
    description:
      'For a PDF: front is the principal panel, back the information panel, for packs that take two smaller labels. Both go onto every pack.',
  }),
  copies: whole(`a whole number from 1 to ${MOST_COPIES}`, MOST_COPIES)
    .default(1)
    .meta({ description: 'Labels in the PDF.' }),
  start: whole('the number of a label on the sheet, 1 for the first', 100)
    .default(1)
    .meta({ description: 'On a sheet that was begun: the label to start at.' }),
  guides: choiceField(['true', 'false'])
    .default('false')
    .meta({ description: 'On a sheet: fine lines to cut along.' }),
};

export const printQuery = query(print);

export const lotLabelQuery = query({
  ...print,
  net: z
    .string(remedy('must be what the pack weighs, such as 1.23'))
    .regex(/^(?=.*[1-9])\d{1,6}(?:\.\d{1,6})?$/, remedy('must be what the pack weighs, such as 1.23'))
    .optional()
    .meta({ description: 'What the pack weighs, of packs that are weighed one by one.' }),
  unit: choiceField(MASS_UNITS).optional().meta({ description: "Unit of net; the plant's own when absent." }),
}).refine(({ net, unit }) => net !== undefined || unit === undefined, {
  path: ['net'],
  error: 'is missing; unit stands there without a weight',
});

export const packLabelRequestSchema = record(
  {
    blend: blendRequestSchema.meta({
      description: 'What goes into the batch, as POST /v1/blends takes it.',
    }),
    format: idSchema
      .optional()
      .meta({ description: "Id of one of the product's packs; the first of them when absent." }),
    lotId: textSchema(64).meta({ description: 'The lot as it stands on the label.' }),
    packedDate: dateSchema.optional(),
    useByDate: dateSchema.optional(),
    bestBeforeDate: dateSchema.optional(),
    net: scaleWeightSchema
      .optional()
      .meta({ description: 'What the pack weighs, of packs that are weighed one by one.' }),
  },
  'must be an object with blend and lotId',
)
  .refine(({ useByDate, bestBeforeDate }) => useByDate === undefined || bestBeforeDate === undefined, {
    path: ['bestBeforeDate'],
    error: 'stands beside useByDate; a pack has one of the two',
  })
  .meta({ id: 'PackLabelRequest' });

const weight = z.object({ value: z.string(), unit: z.enum(MASS_UNITS) });

export const packLabelAnswer = z
  .object({
    jurisdiction: z.string(),
    name: z.string(),
    leanPair: z.string().optional(),
    qualifiers: z.array(z.string()),
    claims: z.array(z.string()),
    origin: z.array(z.string()),
    ingredients: z
      .array(z.object({ text: z.string(), emphasized: z.boolean() }))
      .meta({ description: 'Joined they are the statement; empty where none is needed.' }),
    allergens: z.string().optional(),
    meatContent: z.string().optional(),
    storage: z.string(),
    handling: z.string().optional(),
    pieces: z.string().optional(),
    netWeight: z.object({ text: z.string(), printed: weight, citation: z.string() }),
    tare: z.string().optional(),
    price: z.object({ unit: z.string(), total: z.string() }).optional(),
    dates: z.array(z.object({ says: z.string(), day: z.string(), text: z.string() })),
    lotId: z.string(),
    plant: z.object({ name: z.string(), address: z.array(z.string()), establishment: z.string() }),
    inspection: z
      .string()
      .optional()
      .meta({ description: 'What the place of the official mark is called; the mark itself is not drawn.' }),
    safeHandling: z
      .object({
        heading: z.string(),
        rationale: z.string(),
        statements: z.array(z.object({ text: z.string(), pictogram: z.string() })),
        citation: z.string(),
      })
      .optional(),
    nutrition: nutritionSchema.shape.panel,
    codes: z.array(z.object({ symbology: z.enum(SYMBOLOGIES), data: z.string(), says: z.string() })),
    labelStock: z.string().optional(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'PackLabel', description: 'Everything that stands on one pack, in final words and figures.' });

export const labelStocksAnswer = z.object({
  items: z.array(
    z.object({
      id: z.string(),
      says: z.string(),
      widthMm: z.number(),
      heightMm: z.number(),
      sheet: z
        .object({
          paper: z.enum(PAPERS),
          columns: z.int(),
          rows: z.int(),
          leftMm: z.number(),
          topMm: z.number(),
          pitchXMm: z.number(),
          pitchYMm: z.number(),
        })
        .optional(),
    }),
  ),
});

export type PrintQuery = z.output<typeof printQuery>;
export type LotLabelQuery = z.output<typeof lotLabelQuery>;
