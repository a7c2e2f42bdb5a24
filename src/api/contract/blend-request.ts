import { z } from 'zod';
import { LOT_STATES } from '../../batch/lot.ts';
import { ALLERGENS, MATERIAL_KINDS, SPECIES, SUBSTANCES } from '../../batch/material.ts';
import { floorSchema, shareField } from '../../tables/floor.ts';
import { certainLimitSchema, houseRulesSchema } from '../../tables/house-rules.ts';
import { choiceField, fractionField, record, refuseRepeats, remedy, shown } from '../../tables/json.ts';
import { productSchema } from '../../tables/products.ts';
import { compositionSchema } from './composition.ts';
import { countrySchema, originSchema } from './origin.ts';
import {
  dateSchema,
  idSchema,
  listSchema,
  massSchema,
  priceSchema,
  stockSchema,
  textSchema,
} from './quantities.ts';

/** Most lots, materials or entries in one request. */
const MOST = 500;

const sdField = z
  .number(remedy('must be a number'))
  .gt(0, remedy('must be above 0; leave it out to take the default of the method'))
  .max(0.1, remedy('must be at most 0.1, ten points of fat'))
  .meta({ description: "Standard deviation of the lot's true fat about the result, as a fraction." });

export const lotSchema = record(
  {
    id: idSchema,
    materialId: idSchema,
    onHand: stockSchema,
    cost: priceSchema,
    measuredFat: record(
      { fatFraction: fractionField, method: textSchema(80), sdFraction: sdField.optional() },
      'must be a result such as {"fatFraction": 0.21, "method": "NIR"}',
    )
      .optional()
      .meta({ description: 'Fat found by a test of this lot.' }),
    receivedDate: dateSchema.optional(),
    packedDate: dateSchema.optional(),
    useByDate: dateSchema.optional(),
    state: choiceField(LOT_STATES).default('chilled'),
    box: massSchema.optional(),
    supplierEstablishment: textSchema(40).optional(),
    supplierLot: textSchema(80).optional(),
    location: textSchema(80).optional(),
    origin: originSchema.optional(),
  },
  'must be a lot with id, materialId, onHand and cost',
).meta({ id: 'LotInput', description: 'A lot on hand.' });

export const materialSchema = record(
  {
    id: idSchema,
    name: textSchema(120),
    declaredName: textSchema(120).meta({ description: 'Common or usual name on an ingredient statement.' }),
    kind: choiceField(MATERIAL_KINDS),
    species: choiceField(SPECIES).optional(),
    composition: compositionSchema,
    substances: z
      .partialRecord(
        choiceField(SUBSTANCES),
        fractionField,
        remedy('must be an object such as {"sodium nitrite": 0.0625}'),
      )
      .default({}),
    allergens: listSchema(choiceField(ALLERGENS), ALLERGENS.length, 'allergens').default([]),
    subIngredients: listSchema(textSchema(200), MOST, 'names').default([]),
    madeIn: countrySchema.optional().meta({ description: 'Where it was made, for what is no meat.' }),
    source: textSchema(300).default('given with the request'),
  },
  'must be a material with id, name, declaredName, kind and composition',
).meta({ id: 'MaterialInput', description: 'A material of your own, used beside or instead of the tables.' });

const ONE_SIZE =
  'write exactly one of total, meat, finished or pieces, such as {"total": {"value": 500, "unit": "lb"}}';

export const batchSizeSchema = z
  .union(
    [
      z.strictObject({ total: massSchema }),
      z.strictObject({ meat: massSchema }),
      z.strictObject({ finished: massSchema }),
      z.strictObject({
        pieces: z
          .int(remedy('must be a whole number'))
          .min(1, remedy('must be at least 1'))
          .max(1e6, remedy('must be at most 1000000')),
      }),
    ],
    {
      error: ({ input }) =>
        input === undefined ? `is missing; ${ONE_SIZE}` : `${sizesGiven(input)}; ${ONE_SIZE}`,
    },
  )
  .meta({
    id: 'BatchSize',
    description:
      'Raw batch weight, weight of meat to use, finished weight wanted, or count of patties or links.',
  });

function sizesGiven(input: unknown): string {
  if (typeof input !== 'object' || input === null || Array.isArray(input)) return shown(input);
  const names = Object.keys(input).slice(0, 5).map(shown);
  return names.length === 0 ? 'has no size' : `has ${names.join(', ')}`;
}

export const blendRequestSchema = record(
  {
    product: z
      .union([idSchema, productSchema], remedy('must be the id of a product, or a whole product'))
      .meta({ description: 'Id of a product of the plant, or a whole product.' }),
    batchSize: batchSizeSchema,
    date: dateSchema.optional().meta({ description: 'Day of the batch; today at the plant when absent.' }),
    lots: z
      .union(
        [
          z.literal('inventory'),
          listSchema(lotSchema, MOST, 'lots').superRefine(refuseRepeats('id', 'give each lot its own id')),
        ],
        remedy('must be "inventory" or a list of lots'),
      )
      .default('inventory')
      .meta({ description: "The plant's lots on hand, or lots given here." }),
    use: listSchema(
      record(
        {
          lotId: idSchema,
          min: massSchema.optional(),
          max: massSchema.optional(),
          leastIfUsed: massSchema.optional(),
        },
        'must name a lot and its min, max or leastIfUsed',
      ),
      MOST,
      'entries such as {"lotId": "…", "min": {"value": 60, "unit": "lb"}}',
    )
      .superRefine(refuseRepeats('lotId', 'make it one entry with min and max'))
      .default([])
      .meta({
        description: 'The least or the most to use of a lot in this batch, or the least if any is used.',
      }),
    excludeLots: listSchema(idSchema, MOST, 'lot ids').default([]),
    materials: listSchema(materialSchema, MOST, 'materials')
      .superRefine(refuseRepeats('id', 'give each material its own id'))
      .default([]),
    prices: listSchema(
      record({ materialId: idSchema, cost: priceSchema }, 'must be a price with materialId and cost'),
      MOST,
      'prices',
    )
      .superRefine(refuseRepeats('materialId', 'keep one price for each material'))
      .default([])
      .meta({ description: 'Prices of materials that have no lot, beside those the plant knows.' }),
    trial: record(
      {
        bounds: listSchema(
          record(
            {
              limitId: textSchema(120),
              bound: z.number(remedy('must be a number')).min(0, remedy('must not be negative')),
            },
            'must name a limitId and its bound',
          ),
          100,
          'bounds such as {"limitId": "house-fat-max", "bound": 22}',
        )
          .superRefine(refuseRepeats('limitId', 'keep one bound for each limit'))
          .default([])
          .meta({
            description: 'Other bounds for limits of the house, in the unit of the limit: 22 with percent.',
          }),
        prices: listSchema(
          record({ lotId: idSchema, cost: priceSchema }, 'must be a price with lotId and cost'),
          MOST,
          'prices such as {"lotId": "…", "cost": {"amount": 3.1, "per": "lb"}}',
        )
          .superRefine(refuseRepeats('lotId', 'keep one price for each lot'))
          .default([])
          .meta({ description: 'What lots would cost in place of what they did.' }),
      },
      'must be an object with bounds and prices',
    )
      .optional()
      .meta({
        description: 'What if: figures to try in this one blend. A batch is planned without them.',
      }),
    houseRules: houseRulesSchema.optional().meta({
      description:
        "Limits of your own, tighter ones than the law's, and limits switched off with a reason; the plant's own when absent.",
    }),
    certainty: listSchema(certainLimitSchema, 20, 'limits to be sure of')
      .superRefine(refuseRepeats('limitId', 'keep one confidence for each limit'))
      .default([])
      .meta({
        description:
          'Limits that must hold with this probability though the fat of the lots is uncertain, beside those of the house rules.',
      }),
    floor: floorSchema.optional().meta({
      description: "What the floor asks of the choice of lots; the plant's own habit when absent.",
    }),
    nearBest: record(
      {
        count: z
          .int(remedy('must be a whole number'))
          .min(1, remedy('must be at least 1'))
          .max(10, remedy('must be at most 10')),
        within: shareField,
      },
      'must have count and within, such as {"count": 5, "within": 0.02}',
    )
      .optional()
      .meta({
        description: 'Other blends of other lots, the cheapest first, within this share of the cost.',
      }),
    worth: choiceField(['all', 'none']).default('all').meta({
      description:
        'Whether to say what limits, fixed lines and lots are worth; "none" leaves worth out of the answer, which is then quicker with many lots.',
    }),
    units: choiceField(['lb', 'kg'])
      .optional()
      .meta({ description: "Units shown; the plant's own when absent." }),
  },
  'must be an object with product and batchSize',
).meta({ id: 'BlendRequest' });

export type BlendRequest = z.output<typeof blendRequestSchema>;
export type LotInput = z.output<typeof lotSchema>;
export type MaterialInput = z.output<typeof materialSchema>;
export type HouseRulesBody = z.output<typeof houseRulesSchema>;
export type FloorBody = z.output<typeof floorSchema>;
