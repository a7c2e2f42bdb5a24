import { z } from 'zod';
import { isMeat, type Material, MEAT_KINDS, SPECIES } from '../batch/material.ts';
import {
  CLAIMS,
  COOKINGS,
  type Form,
  type MeatPart,
  type Product,
  SEASONING_BASES,
  type SeasoningLine,
  TARGET_MEASURES,
} from '../batch/product.ts';
import { add, compare, exact, ONE, sum, toText } from '../exact.ts';
import {
  aboveOne,
  choiceField,
  type FieldIssue,
  fractionField,
  idField,
  massField,
  nameField,
  parseFields,
  readJson,
  record,
  refuseRepeats,
  remedy,
  shown,
} from './json.ts';
import { packSchema } from './packs.ts';

/** What became of a JSON value: a product, or everything wrong with it. */
export type ParsedProduct =
  | { readonly ok: true; readonly product: Product }
  | { readonly ok: false; readonly issues: readonly FieldIssue[] };

type Materials = ReadonlyMap<string, Material>;

const materialIdField = z
  .string(remedy('must be the id of a material'))
  .regex(/\S/, remedy('must be the id of a material'));

const meatPartSchema = record(
  {
    name: nameField,
    materialIds: z
      .array(materialIdField, remedy('must be a list of material ids'))
      .min(1, remedy('must name a material, or leave the field out'))
      .exactOptional(),
    kinds: z
      .array(choiceField(MEAT_KINDS), remedy('must be a list of kinds'))
      .min(1, remedy('must name a kind, or leave the field out'))
      .exactOptional(),
    species: z
      .array(choiceField(SPECIES), remedy('must be a list of species'))
      .min(1, remedy('must name a species, or leave the field out'))
      .exactOptional(),
    minFraction: fractionField.exactOptional(),
    maxFraction: fractionField.exactOptional(),
  },
  'must be a part of the meat block with a name',
)
  .refine((part) => part.materialIds ?? part.kinds ?? part.species, {
    error: 'says not what may fill it; add materialIds, kinds or species',
  })
  .superRefine(refuseCrossed('minFraction', 'maxFraction'));

const seasoningSchema = record(
  {
    materialId: materialIdField,
    basis: choiceField(SEASONING_BASES),
    fraction: fractionField.exactOptional(),
    minFraction: fractionField.exactOptional(),
    maxFraction: fractionField.exactOptional(),
  },
  'must be a seasoning line with materialId, basis and fraction',
)
  .superRefine((line, context) => {
    const fixed = line.fraction !== undefined;
    const ends = [line.minFraction, line.maxFraction].filter((end) => end !== undefined).length;
    if (fixed ? ends === 0 : ends === 2) return;
    context.addIssue({
      code: 'custom',
      path: ['fraction'],
      message: fixed
        ? `${line.fraction} stands beside minFraction or maxFraction; keep the fixed rate or the two ends`
        : 'is missing; write a fixed rate, or both minFraction and maxFraction',
    });
  })
  .superRefine(refuseCrossed('minFraction', 'maxFraction'))
  .transform(
    ({ materialId, basis, fraction = 0, minFraction = fraction, maxFraction = fraction }): SeasoningLine => ({
      materialId,
      basis,
      minFraction,
      maxFraction,
    }),
  );

const reworkSchema = record(
  {
    productIds: z
      .array(idField, remedy('must be a list of product ids'))
      .min(1, remedy('must name the products whose rework may go in, or leave rework out'))
      .superRefine(refuseSame),
    maxFraction: fractionField.refine(
      (most) => most > 0 && most < 1,
      remedy('must be above 0 and below 1, such as 0.1 for 10 % of the batch'),
    ),
  },
  'must say whose rework may go in and how much: productIds and maxFraction',
);

const targetSchema = record(
  {
    measure: choiceField(TARGET_MEASURES),
    min: z.number(remedy('must be a number')).min(0, remedy('must not be negative')).exactOptional(),
    max: z.number(remedy('must be a number')).min(0, remedy('must not be negative')).exactOptional(),
  },
  'must be a target with measure and min or max',
)
  .superRefine((target, context) => {
    if (target.min === undefined && target.max === undefined) {
      context.addIssue({ code: 'custom', message: 'aims at nothing; add min or max' });
    }
    if (target.measure === 'cost per kg') return;
    for (const end of ['min', 'max'] as const) {
      const value = target[end];
      if (value === undefined || value <= 1) continue;
      context.addIssue({ code: 'custom', path: [end], message: aboveOne(value) });
    }
  })
  .superRefine(refuseCrossed('min', 'max'));

const processSchema = record(
  {
    cooking: choiceField(COOKINGS),
    smoked: z.boolean(remedy('must be true or false')),
    yieldFraction: fractionField.refine((yielded) => yielded >= 0.05, remedy('must be at least 0.05')),
    fatLossFraction: fractionField,
    grindPlates: z.array(nameField, remedy('must be a list such as ["3/8 in", "3/16 in"]')),
    mixing: z.array(nameField, remedy('must be a list of steps')),
  },
  'must say the cooking, smoking, yield, grinding and mixing',
).superRefine(({ yieldFraction, fatLossFraction }, context) => {
  if (compare(add(exact(yieldFraction), exact(fatLossFraction)), ONE) <= 0) return;
  context.addIssue({
    code: 'custom',
    path: ['fatLossFraction'],
    message: `${fatLossFraction} is more than the whole loss that yieldFraction ${yieldFraction} leaves; lower one of the two`,
  });
});

const formSchema = record(
  {
    shape: choiceField(['bulk', 'chub', 'link', 'patty']),
    pieceMass: massField.exactOptional(),
    casingMaterialId: materialIdField.exactOptional(),
  },
  'must say the shape: bulk, chub, link or patty',
)
  .refine(({ shape, pieceMass }) => shape !== 'patty' || pieceMass !== undefined, {
    path: ['pieceMass'],
    error: 'is missing; a patty has a weight, such as {"value": 4, "unit": "oz"}',
  })
  .transform(
    ({ pieceMass, ...form }): Form => ({ ...form, ...(pieceMass !== undefined && { pieceKg: pieceMass }) }),
  );

/** The JSON form of a product. It gives masses with their unit; the product has them in kilograms. */
export const productSchema = record(
  {
    id: idField,
    name: nameField,
    standard: record(
      { jurisdiction: idField, productClass: idField },
      'must name the standard of the product, such as {"jurisdiction": "us", "productClass": "ground-beef"}',
    ),
    meatBlock: z
      .array(meatPartSchema, remedy('must be a list of the parts of the meat block'))
      .min(1, remedy('must hold at least one part; say which meat goes in'))
      .superRefine(refuseRepeats('name', 'give each part its own name'))
      .superRefine(refuseImpossibleShares),
    seasoning: z
      .array(seasoningSchema, remedy('must be a list of seasoning lines, [] for none'))
      .superRefine(refuseRepeats('materialId', 'make it one line')),
    rework: reworkSchema.exactOptional(),
    targets: z
      .array(targetSchema, remedy('must be a list of targets, [] for none'))
      .superRefine(refuseRepeats('measure', 'make it one target with min and max')),
    process: processSchema,
    form: formSchema,
    label: record(
      {
        leanPercent: z
          .number(remedy('must be a number'))
          .gt(1, remedy('must be a percent such as 80'))
          .max(100, remedy('must be a percent such as 80'))
          .exactOptional(),
        storage: choiceField(['keep refrigerated', 'keep frozen']),
        packs: z
          .array(packSchema, remedy('must be a list of packs'))
          .min(1, remedy('must hold a pack, or be left out'))
          .max(50, remedy('must hold at most 50 packs'))
          .superRefine(refuseRepeats('id', 'give each pack its own id'))
          .exactOptional(),
        claims: z
          .array(choiceField(CLAIMS), remedy('must be a list of claims'))
          .superRefine(refuseSame)
          .exactOptional(),
        nutritionExemption: nameField.max(300, remedy('must have at most 300 signs')).exactOptional(),
      },
      'must say at least the storage',
    ),
  },
  'must be an object that describes the product',
) satisfies z.ZodType<Product>;

/**
 * Parses the JSON form of a product. With the materials of the plant, every id it names is looked up too.
 */
export function parseProduct(value: unknown, materials?: Materials): ParsedProduct {
  const parsed = parseFields<Product>(productSchema, value);
  if (!parsed.ok) return parsed;
  const issues = materials ? materialIssues(parsed.value, materials) : [];
  return issues.length > 0 ? { ok: false, issues } : { ok: true, product: parsed.value };
}

/**
 * Reads the file of a product and looks up every material it names.
 * @throws TableError naming the file and the field of every fault.
 */
export function readProduct(file: string, text: string, materials: Materials): Product {
  return readJson(file, text, (value) => {
    const parsed = parseProduct(value, materials);
    return parsed.ok ? { ok: true, value: parsed.product } : parsed;
  });
}

function refuseSame(texts: readonly string[], context: z.RefinementCtx): void {
  texts.forEach((text, index) => {
    if (texts.indexOf(text) === index) return;
    context.addIssue({ code: 'custom', path: [index], message: `${shown(text)} stands twice; keep it once` });
  });
}

function refuseCrossed<Low extends string, High extends string>(low: Low, high: High) {
  return (entry: { readonly [key in Low | High]?: number | undefined }, context: z.RefinementCtx): void => {
    const smallest = entry[low];
    const largest = entry[high];
    if (smallest === undefined || largest === undefined || smallest <= largest) return;
    context.addIssue({
      code: 'custom',
      path: [low],
      message: `${smallest} is above ${high} ${largest}; swap or correct the two`,
    });
  };
}

/** Parts whose smallest shares exceed the whole, or whose largest cannot fill it, fit no batch at all. */
function refuseImpossibleShares(parts: readonly MeatPart[], context: z.RefinementCtx): void {
  const smallest = sum(parts.map((part) => exact(part.minFraction ?? 0)));
  if (compare(smallest, ONE) > 0) {
    context.addIssue({
      code: 'custom',
      message: `the minFraction of its parts add up to ${toText(smallest)}; lower them to 1 or less together`,
    });
  }
  const largest = sum(parts.map((part) => exact(part.maxFraction ?? 1)));
  if (compare(largest, ONE) < 0) {
    context.addIssue({
      code: 'custom',
      message: `the maxFraction of its parts add up to ${toText(largest)}; raise them to 1 or more together`,
    });
  }
}

/** Materials that a product names and that are not there, or do not belong where it names them. */
export function materialIssues(product: Product, materials: Materials): FieldIssue[] {
  const check = (
    id: string,
    path: FieldIssue['path'],
    fits: (material: Material) => boolean,
    misfit: string,
  ): FieldIssue[] => {
    const material = materials.get(id);
    if (!material) {
      const message = `${shown(id)}: no such material; correct the id or add the material to the materials tables`;
      return [{ path, message }];
    }
    return fits(material) ? [] : [{ path, message: `${shown(id)} is ${material.kind}; ${misfit}` }];
  };

  const { casingMaterialId } = product.form;
  return [
    ...product.meatBlock.flatMap((part, partIndex) =>
      (part.materialIds ?? []).flatMap((id, index) =>
        check(
          id,
          ['meatBlock', partIndex, 'materialIds', index],
          isMeat,
          'only meat and fat belong to the meat block; make it a seasoning line',
        ),
      ),
    ),
    ...product.seasoning.flatMap(({ materialId }, index) =>
      check(
        materialId,
        ['seasoning', index, 'materialId'],
        (material) => !isMeat(material) && material.kind !== 'casing',
        'meat goes into the meat block and a casing into form.casingMaterialId',
      ),
    ),
    ...(casingMaterialId === undefined
      ? []
      : check(
          casingMaterialId,
          ['form', 'casingMaterialId'],
          (material) => material.kind === 'casing',
          'name a casing',
        )),
  ];
}
