import { z } from 'zod';
import { LOT_STATES } from '../../batch/lot.ts';
import { LOT_KINDS } from '../../store/lots.ts';
import { choiceField, isSensibleMass, record, remedy, shown } from '../../tables/json.ts';
import { kilograms } from '../../units.ts';
import { lotSchema } from './blend-request.ts';
import { fatTestAnswer, testSchema } from './fat-tests.ts';
import { originSchema } from './origin.ts';
import { page, paged, query } from './pages.ts';
import { dateSchema, idSchema, massSchema, priceSchema, reasonSchema, textSchema } from './quantities.ts';

/** Lots as they are asked for, received, changed and shown. */

export const lotsQuery = query({
  materialId: idSchema.optional(),
  productId: idSchema.optional().meta({ description: 'Of bulk and packs.' }),
  batchId: idSchema.optional().meta({ description: 'The batch that made it.' }),
  kind: choiceField(LOT_KINDS)
    .default('material')
    .meta({ description: 'material: received, or rework. bulk: as produced. pack: as packed.' }),
  onHand: choiceField(['true', 'false', 'any']).default('true'),
  held: choiceField(['true', 'false']).optional(),
  usableOn: dateSchema.optional().meta({ description: 'Only lots within their use-by date on this day.' }),
  after: idSchema.optional().meta({ description: 'The next of the page before; in place of offset.' }),
  ...page,
});

const weight = z.object({ kg: z.number(), lb: z.number() });

export const lotAnswer = z
  .object({
    id: z.string(),
    kind: z.enum(LOT_KINDS),
    materialId: z.string().optional(),
    productId: z.string().optional().meta({ description: 'Of bulk and packs.' }),
    product: z.string().optional(),
    batchId: z.string().optional().meta({ description: 'The batch that made it.' }),
    onHand: weight,
    reserved: weight.meta({ description: 'Promised to batches.' }),
    free: weight,
    costPerKg: z.number(),
    costPerLb: z.number(),
    measuredFat: z
      .object({ fatFraction: z.number(), method: z.string(), sdFraction: z.number().optional() })
      .optional()
      .meta({ description: 'By tests of the lot here, or else the figure that it came with.' }),
    receivedDate: z.string(),
    packedDate: z.string().optional(),
    useByDate: z.string().optional(),
    state: z.string(),
    boxKg: z.number().optional(),
    supplierEstablishment: z.string().optional(),
    supplierLot: z.string().optional(),
    location: z.string().optional(),
    origin: z
      .object({ bornIn: z.string(), raisedIn: z.string(), slaughteredIn: z.string() })
      .optional()
      .meta({ description: 'Countries through which its animals went; absent when not told.' }),
    held: z.string().optional().meta({ description: 'Why it is on hold; absent when it may be used.' }),
    packs: z
      .object({
        packed: z.int(),
        onHand: z.int(),
        net: z.object({ value: z.string(), unit: z.string() }),
        format: z
          .string()
          .optional()
          .meta({ description: "Which of the product's packs; its label is at /lots/:id/label." }),
      })
      .optional(),
    version: z.int(),
  })
  .meta({ id: 'Lot' });

export const lotsAnswer = paged(lotAnswer).extend({
  next: z.string().optional().meta({ description: 'Ask for more with after; absent on the last page.' }),
});

export const wholeLotAnswer = lotAnswer
  .extend({
    tests: z.array(fatTestAnswer),
    movements: z.string().meta({ description: 'Where its movements are.' }),
  })
  .meta({ id: 'WholeLot' });

const boxes = record(
  {
    count: z
      .int(remedy('must be a whole number'))
      .min(1, remedy('must be at least 1'))
      .max(10_000, remedy('must be at most 10000')),
    mass: massSchema,
  },
  'must be the boxes, such as {"count": 12, "mass": {"value": 60, "unit": "lb"}}',
);

const { cost, measuredFat, receivedDate, packedDate, useByDate, state } = lotSchema.shape;
const { supplierEstablishment, supplierLot, location, origin, materialId } = lotSchema.shape;

export const receiveSchema = record(
  {
    id: idSchema.optional().meta({ description: 'Made of the day and a number when absent: L261125-003.' }),
    materialId,
    mass: massSchema.optional().meta({ description: 'All of it; or give boxes.' }),
    boxes: boxes.optional().meta({ description: 'Full boxes of one weight; or give mass.' }),
    box: massSchema.optional().meta({ description: 'Weight of one full box, beside mass.' }),
    cost,
    receivedDate: receivedDate.meta({ description: 'Today at the plant when absent.' }),
    packedDate,
    useByDate,
    state,
    supplierEstablishment,
    supplierLot,
    location,
    origin,
    measuredFat: measuredFat.meta({ description: 'The figure that it came with.' }),
    test: testSchema.optional().meta({ description: 'A fat test made here on its receipt.' }),
    hold: reasonSchema.optional().meta({ description: 'Why it is put on hold at once.' }),
  },
  'must be a lot with materialId, mass or boxes, and cost',
)
  .superRefine(({ mass, boxes: counted, box }, context) => {
    const refuse = (path: string, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message });
    if (!mass && !counted) refuse('mass', 'is missing; give mass or boxes');
    if (mass && counted) refuse('boxes', 'stands beside mass; keep one of the two');
    if (box && counted) refuse('box', 'stands beside boxes, which say it already; take it out');
    if (counted && !isSensibleMass(kilograms(counted.mass) * counted.count))
      refuse('boxes', 'are more than 1000000 kg together; correct count or mass');
  })
  .meta({ id: 'Receipt' });

const erasable = <Field extends z.ZodType>(field: Field) => field.nullable().optional();

export const lotChangeSchema = record(
  {
    useByDate: erasable(dateSchema),
    packedDate: erasable(dateSchema),
    state: choiceField(LOT_STATES).optional(),
    note: textSchema(300).optional().meta({ description: 'Why the state changed; needed with state.' }),
    location: erasable(textSchema(80)),
    cost: priceSchema.optional().meta({ description: 'Only for those who may plan.' }),
    supplierEstablishment: erasable(textSchema(40)),
    supplierLot: erasable(textSchema(80)),
    origin: erasable(originSchema),
    box: erasable(massSchema),
  },
  'must be an object with the fields to change; null takes a field away',
)
  .superRefine(({ note, ...change }, context) => {
    const refuse = (path: string[], message: string) => context.addIssue({ code: 'custom', path, message });
    if (Object.values(change).every((value) => value === undefined))
      refuse([], 'changes nothing; give at least one field besides note');
    if (change.state !== undefined && note === undefined)
      refuse(['note'], `is missing; say why the state is ${shown(change.state)} from now on`);
    if (change.state === undefined && note !== undefined)
      refuse(['note'], 'stands without state; it says why the state changed');
  })
  .meta({ id: 'LotChange' });

export const reasonedSchema = record({ reason: reasonSchema }, 'must be an object with reason');

export type Receipt = z.output<typeof receiveSchema>;
export type LotChangeRequest = z.output<typeof lotChangeSchema>;
export type LotAnswer = z.output<typeof lotAnswer>;
export type WholeLotAnswer = z.output<typeof wholeLotAnswer>;
