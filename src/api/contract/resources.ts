import { z } from 'zod';
import { MATERIAL_KINDS, SPECIES } from '../../batch/material.ts';
import { LANGUAGES, PAPERS } from '../../batch/plant.ts';
import { COOKINGS } from '../../batch/product.ts';
import { choiceField } from '../../tables/json.ts';
import { laboratoryAnswer, limitAnswer } from './blend-answer.ts';
import { compositionAnswer } from './composition.ts';
import { page, paged, query } from './pages.ts';
import { dateSchema, idSchema, textSchema } from './quantities.ts';

/** What can be read: the plant and what it has. */

export const materialsQuery = query({
  kind: choiceField(MATERIAL_KINDS).optional(),
  species: choiceField(SPECIES).optional(),
  search: textSchema(60).optional().meta({ description: 'Part of the name or the id.' }),
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

export const materialAnswer = z
  .object({
    id: z.string(),
    name: z.string(),
    declaredName: z.string(),
    kind: z.string(),
    species: z.string().optional(),
    composition: compositionAnswer,
    substances: z.record(z.string(), z.number()),
    allergens: z.array(z.string()),
    subIngredients: z.array(z.string()),
    madeIn: z.string().optional().meta({ description: 'Country in which it was made.' }),
    source: z.string(),
    own: z.boolean().meta({ description: "Whether it is the plant's own; the others stand in the tables." }),
    version: z.int().optional().meta({ description: 'Of a material of the plant.' }),
    reworkOf: z.string().optional().meta({ description: 'Product that left it over, for rework.' }),
    madeOf: z
      .array(
        z.object({
          materialId: z.string(),
          material: z.string(),
          fraction: z.string().meta({ description: 'Kilograms that went in for a kilogram of it.' }),
        }),
      )
      .optional(),
  })
  .meta({ id: 'Material' });

export const materialsAnswer = paged(materialAnswer);
export const productAnswer = z
  .unknown()
  .meta({ description: 'A product in the form that POST /v1/blends accepts.' });
export const productsAnswer = paged(productAnswer).extend({
  versions: z.record(z.string(), z.int()).meta({ description: 'The version of each product, by its id.' }),
});

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

export const ruleSetsAnswer = z.object({
  items: z.array(
    z.object({
      jurisdiction: z.string(),
      says: z.string(),
      edition: z.string().meta({ description: 'Which text was read.' }),
      knownFrom: z.string().meta({ description: 'First day for which these rules are known.' }),
      classes: z.array(
        z.object({
          productClass: z.string(),
          says: z.string(),
          citation: z.string(),
          cooking: z.array(z.enum(COOKINGS)),
        }),
      ),
    }),
  ),
  forms: z
    .array(z.object({ name: z.string(), says: z.string(), canBeBasis: z.boolean() }))
    .meta({ description: "What the plant's own limits may count, and what they may count it against." }),
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
  address: z.array(z.string()).optional().meta({ description: 'As it stands on labels, line by line.' }),
  printing: z
    .object({
      paper: z.enum(PAPERS).optional(),
      language: z.enum(LANGUAGES).optional(),
      labelStock: z.string().optional(),
      priceCode: z.object({ numberSystem: z.literal('2'), priceVerifier: z.boolean() }).optional(),
    })
    .optional()
    .meta({ description: 'How the plant prints, where a request says nothing else.' }),
  version: z.int(),
  settings: z.unknown().meta({ description: 'All of it in the form that PUT /v1/plant takes.' }),
});

/** What is left of something that was taken away; its past stays. */
export const withdrawnAnswer = z.object({
  id: z.string(),
  withdrawn: z.literal(true),
  version: z.int(),
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
export type RulesAnswer = z.output<typeof rulesAnswer>;
export type RuleSetsAnswer = z.output<typeof ruleSetsAnswer>;
