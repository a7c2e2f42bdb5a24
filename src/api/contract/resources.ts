import { z } from 'zod';
import { MATERIAL_KINDS, SPECIES } from '../../batch/material.ts';
import { COOKINGS } from '../../batch/product.ts';
import { choiceField, record, remedy } from '../../tables/json.ts';
import { laboratoryAnswer, limitAnswer } from './blend-answer.ts';
import { dateSchema, idSchema, textSchema } from './quantities.ts';

/** What can be read: the plant and what it has. */

const whole = (most: number) =>
  z
    .string(remedy(`must be one whole number from 0 to ${most}`))
    .regex(/^\d{1,6}$/, remedy(`must be a whole number from 0 to ${most}`))
    .transform(Number)
    .refine((value) => value <= most, remedy(`must be a whole number from 0 to ${most}`));

const query = <Shape extends z.ZodRawShape>(shape: Shape) => record(shape, 'must be query parameters');

const page = { limit: whole(500).default(100), offset: whole(100_000).default(0) };

export const materialsQuery = query({
  kind: choiceField(MATERIAL_KINDS).optional(),
  species: choiceField(SPECIES).optional(),
  search: textSchema(60).optional().meta({ description: 'Part of the name or the id.' }),
  ...page,
});

export const lotsQuery = query({
  materialId: idSchema.optional(),
  usableOn: dateSchema.optional().meta({ description: 'Only lots within their use-by date on this day.' }),
  ...page,
});

export const rulesQuery = query({
  jurisdiction: textSchema(20)
    .optional()
    .meta({ description: "The market: us, eu, gb, ca, codex or anz; the plant's own when absent." }),
  productClass: textSchema(60).optional(),
  product: idSchema
    .optional()
    .meta({ description: "A product of the plant: its class, with the house's own limits." }),
  date: dateSchema.optional(),
}).refine(({ product, productClass }) => product === undefined || productClass === undefined, {
  path: ['productClass'],
  error: 'stands beside product, which has a class of its own; leave one of the two out',
});

export const productsQuery = query({ ...page });

const paged = <Item extends z.ZodType>(item: Item) =>
  z.object({ total: z.int(), limit: z.int(), offset: z.int(), items: z.array(item) });

export const materialAnswer = z
  .object({
    id: z.string(),
    name: z.string(),
    declaredName: z.string(),
    kind: z.string(),
    species: z.string().optional(),
    composition: z.object({
      waterFraction: z.number(),
      fatFraction: z.number(),
      proteinFraction: z.number(),
      carbohydrateFraction: z.number(),
      ashFraction: z.number(),
      saltFraction: z.number(),
      collagenFraction: z.number().optional(),
      saturatedFatFraction: z.number().optional(),
      cholesterolMgPerKg: z.number().optional(),
      sodiumMgPerKg: z.number().optional(),
    }),
    substances: z.record(z.string(), z.number()),
    allergens: z.array(z.string()),
    subIngredients: z.array(z.string()),
    source: z.string(),
  })
  .meta({ id: 'Material' });

export const lotAnswer = z
  .object({
    id: z.string(),
    materialId: z.string(),
    onHand: z.object({ kg: z.number(), lb: z.number() }),
    costPerKg: z.number(),
    costPerLb: z.number(),
    measuredFat: z
      .object({ fatFraction: z.number(), method: z.string(), sdFraction: z.number().optional() })
      .optional(),
    receivedDate: z.string(),
    packedDate: z.string().optional(),
    useByDate: z.string().optional(),
    state: z.string(),
    boxKg: z.number().optional(),
    supplierEstablishment: z.string().optional(),
    supplierLot: z.string().optional(),
    location: z.string().optional(),
  })
  .meta({ id: 'Lot' });

export const materialsAnswer = paged(materialAnswer);
export const lotsAnswer = paged(lotAnswer);
export const productsAnswer = paged(
  z.unknown().meta({ description: 'A product in the form that POST /v1/blends accepts.' }),
);

export const rulesAnswer = z.object({
  jurisdiction: z.string(),
  says: z.string(),
  date: z.string(),
  edition: z.string().meta({ description: 'Which text was read.' }),
  product: z.string().optional(),
  standards: z.array(
    z.object({
      productClass: z.string(),
      says: z.string(),
      citation: z.string(),
      cooking: z.array(z.enum(COOKINGS)),
      limits: z.array(limitAnswer),
      switchedOff: z.array(z.object({ limit: limitAnswer, reason: z.string() })),
      laboratory: z.array(laboratoryAnswer),
    }),
  ),
});

export const plantAnswer = z.object({
  name: z.string(),
  establishment: z.string(),
  jurisdiction: z.string(),
  currency: z.string(),
  units: z.enum(['lb', 'kg']),
  timeZone: z.string(),
  today: z.string(),
  mixerCapacityKg: z.number(),
  scales: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      unit: z.string(),
      division: z.string(),
      capacity: z.number(),
    }),
  ),
});

export const trimAnswer = z.object({
  items: z.array(
    z.object({
      materialId: z.string(),
      supplierEstablishment: z.string(),
      tests: z.int(),
      lots: z.int(),
      classMeanFraction: z.number(),
      testedMeanFraction: z.number(),
      meanFraction: z.number().meta({ description: 'Fat expected of the next lot.' }),
      shrinkage: z.number().meta({ description: 'Weight of the class figure in it.' }),
      sdFraction: z.number().meta({ description: 'Standard deviation of the next lot.' }),
      latestDate: z.string(),
    }),
  ),
});

export const healthAnswer = z.object({
  status: z.literal('ok'),
  version: z.string(),
  doubtedAnswers: z.record(z.string(), z.int()).meta({
    description: 'Answers of each engine that were not believed since the start; another was taken.',
  }),
});

export type MaterialAnswer = z.output<typeof materialAnswer>;
export type LotAnswer = z.output<typeof lotAnswer>;
