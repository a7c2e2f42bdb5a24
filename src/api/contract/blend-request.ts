import { z } from 'zod';
import { LOT_STATES } from '../../batch/lot.ts';
import { ALLERGENS, MATERIAL_KINDS, SPECIES, SUBSTANCES } from '../../batch/material.ts';
import { productSchema } from '../../tables/products.ts';
import {
  choiceSchema,
  dateSchema,
  fractionSchema,
  idSchema,
  massSchema,
  priceSchema,
  stockSchema,
  textSchema,
  unknownOr,
} from './quantities.ts';

/** Most lots, materials or lines in one request. */
const MOST = 500;

export const lotSchema = z
  .strictObject(
    {
      id: idSchema,
      materialId: idSchema,
      onHand: stockSchema,
      cost: priceSchema,
      measuredFat: z
        .strictObject({ fatFraction: fractionSchema, method: textSchema(80) })
        .optional()
        .meta({ description: 'Fat found by a test of this lot.' }),
      receivedDate: dateSchema.optional(),
      packedDate: dateSchema.optional(),
      useByDate: dateSchema.optional(),
      state: choiceSchema(LOT_STATES).default('chilled'),
      box: massSchema.optional(),
      supplierEstablishment: textSchema(40).optional(),
      supplierLot: textSchema(80).optional(),
      location: textSchema(80).optional(),
    },
    { error: (issue) => unknownOr(issue, 'write a lot with id, materialId, onHand and cost') },
  )
  .meta({ id: 'LotInput', description: 'A lot on hand.' });

const compositionSchema = z
  .strictObject({
    waterFraction: fractionSchema,
    fatFraction: fractionSchema,
    proteinFraction: fractionSchema,
    carbohydrateFraction: fractionSchema.default(0),
    ashFraction: fractionSchema.default(0),
    saltFraction: fractionSchema.default(0),
    collagenFraction: fractionSchema.optional(),
    saturatedFatFraction: fractionSchema.optional(),
    cholesterolMgPerKg: z.number().min(0).max(1e6).optional(),
    sodiumMgPerKg: z.number().min(0).max(1e6).optional(),
  })
  .superRefine(({ waterFraction, fatFraction, proteinFraction }, context) => {
    const sum = waterFraction + fatFraction + proteinFraction;
    if (sum <= 1 + 1e-9) return;
    context.addIssue({
      code: 'custom',
      message: `water ${waterFraction}, fat ${fatFraction} and protein ${proteinFraction} add up to ${Number(sum.toPrecision(6))}, more than the whole; correct one of them`,
    });
  })
  .meta({
    id: 'Composition',
    description: 'Shares of one kilogram; water, fat and protein together at most 1.',
  });

export const materialSchema = z
  .strictObject(
    {
      id: idSchema,
      name: textSchema(120),
      declaredName: textSchema(120).meta({ description: 'Common or usual name on an ingredient statement.' }),
      kind: choiceSchema(MATERIAL_KINDS),
      species: choiceSchema(SPECIES).optional(),
      composition: compositionSchema,
      substances: z.partialRecord(choiceSchema(SUBSTANCES), fractionSchema).default({}),
      allergens: z.array(choiceSchema(ALLERGENS)).default([]),
      subIngredients: z.array(textSchema(200)).max(MOST).default([]),
      source: textSchema(300).default('given with the request'),
    },
    {
      error: (issue) =>
        unknownOr(issue, 'write a material with id, name, declaredName, kind and composition'),
    },
  )
  .meta({
    id: 'MaterialInput',
    description: 'A material of your own, used beside or instead of the tables.',
  });

const one = 'write exactly one of total, meat, finished or pieces';
export const batchSizeSchema = z
  .union(
    [
      z.strictObject({ total: massSchema }),
      z.strictObject({ meat: massSchema }),
      z.strictObject({ finished: massSchema }),
      z.strictObject({ pieces: z.int().min(1).max(1e6) }),
    ],
    { error: (issue) => sizeProblem(issue.input) },
  )
  .meta({
    id: 'BatchSize',
    description:
      'Raw batch weight, weight of meat to use, finished weight wanted, or count of patties or links.',
  });

/** A union reports nothing useful by itself: the one branch that was meant is tried again for its message. */
function sizeProblem(input: unknown): string {
  if (typeof input !== 'object' || input === null) return `${JSON.stringify(input) ?? 'is missing'}; ${one}`;
  const keys = Object.keys(input);
  const [key] = keys;
  if (keys.length !== 1 || key === undefined || !['total', 'meat', 'finished', 'pieces'].includes(key)) {
    return `has ${keys.length === 0 ? 'no field' : keys.join(', ')}; ${one}`;
  }
  const value = (input as Record<string, unknown>)[key];
  if (key === 'pieces') return `pieces ${JSON.stringify(value)} must be a whole number from 1 to 1000000`;
  const problems = massSchema.safeParse(value).error?.issues ?? [];
  return problems.map(({ path, message }) => `${[key, ...path].join('.')} ${message}`).join('; ');
}

export const blendRequestSchema = z
  .strictObject(
    {
      product: z.union([idSchema, productSchema]).meta({
        description: 'Id of a product of the plant, or a whole product.',
      }),
      batchSize: batchSizeSchema,
      date: dateSchema.optional().meta({ description: 'Day of the batch; today at the plant when absent.' }),
      lots: z
        .union([z.literal('inventory'), z.array(lotSchema).max(MOST)])
        .default('inventory')
        .meta({ description: "The plant's lots on hand, or lots given here." }),
      use: z
        .array(z.strictObject({ lotId: idSchema, min: massSchema.optional(), max: massSchema.optional() }))
        .max(MOST)
        .default([])
        .meta({ description: 'The least or the most to use of a lot in this batch.' }),
      excludeLots: z.array(idSchema).max(MOST).default([]),
      materials: z.array(materialSchema).max(MOST).default([]),
      prices: z
        .array(z.strictObject({ materialId: idSchema, cost: priceSchema }))
        .max(MOST)
        .default([])
        .meta({ description: 'Prices of materials that have no lot, beside those the plant knows.' }),
      units: choiceSchema(['lb', 'kg'])
        .optional()
        .meta({ description: "Units shown; the plant's own when absent." }),
    },
    { error: (issue) => unknownOr(issue, 'write an object with product and batchSize') },
  )
  .meta({ id: 'BlendRequest' });

export type BlendRequest = z.output<typeof blendRequestSchema>;
export type LotInput = z.output<typeof lotSchema>;
export type MaterialInput = z.output<typeof materialSchema>;
