import type { CellKind } from './columns.ts';

/**
 * A product as rows: one of the product itself, and one for each part of it. The fields of the JSON form that each part
 * has, in the order of the columns.
 */

/** How a value of the JSON form stands in a cell. */
export type FieldForm = 'text' | 'word' | 'number' | 'percent' | 'digits' | 'truth' | 'list';

export interface PartField {
  readonly column: string;
  readonly form: FieldForm;
  /** The way to the value within the part. */
  readonly path: readonly string[];
}

const field = (column: string, form: FieldForm, ...path: string[]): PartField => ({ column, form, path });

export const PARTS = ['product', 'meat', 'seasoning', 'rework', 'target', 'pack'] as const;
export type PartName = (typeof PARTS)[number];

/** Where in the JSON form the parts stand: the product itself, one object, or a list. */
export const PART_PLACES: Readonly<
  Record<PartName, { readonly path: readonly string[]; readonly isList: boolean }>
> = {
  product: { path: [], isList: false },
  meat: { path: ['meatBlock'], isList: true },
  seasoning: { path: ['seasoning'], isList: true },
  rework: { path: ['rework'], isList: false },
  target: { path: ['targets'], isList: true },
  pack: { path: ['label', 'packs'], isList: true },
};

const SHARES = [
  field('min_percent', 'percent', 'minFraction'),
  field('max_percent', 'percent', 'maxFraction'),
];

/** Targets are shares, but for the cost: its ends stand in columns of their own. */
export const COST_MEASURE = 'cost per kg';

export const PART_FIELDS: Readonly<Record<PartName, readonly PartField[]>> = {
  product: [
    field('name', 'text', 'name'),
    field('jurisdiction', 'word', 'standard', 'jurisdiction'),
    field('product_class', 'word', 'standard', 'productClass'),
    field('cooking', 'word', 'process', 'cooking'),
    field('smoked', 'truth', 'process', 'smoked'),
    field('yield_percent', 'percent', 'process', 'yieldFraction'),
    field('fat_loss_percent', 'percent', 'process', 'fatLossFraction'),
    field('grind_plates', 'list', 'process', 'grindPlates'),
    field('mixing', 'list', 'process', 'mixing'),
    field('shape', 'word', 'form', 'shape'),
    field('piece_weight', 'number', 'form', 'pieceMass', 'value'),
    field('piece_unit', 'word', 'form', 'pieceMass', 'unit'),
    field('casing_material_id', 'word', 'form', 'casingMaterialId'),
    field('lean_percent', 'number', 'label', 'leanPercent'),
    field('storage', 'word', 'label', 'storage'),
    field('claims', 'list', 'label', 'claims'),
    field('nutrition_exemption', 'text', 'label', 'nutritionExemption'),
  ],
  meat: [
    field('name', 'text', 'name'),
    field('material_ids', 'list', 'materialIds'),
    field('kinds', 'list', 'kinds'),
    field('species', 'list', 'species'),
    ...SHARES,
  ],
  seasoning: [
    field('material_ids', 'word', 'materialId'),
    field('basis', 'word', 'basis'),
    field('percent', 'percent', 'fraction'),
    ...SHARES,
  ],
  rework: [field('product_ids', 'list', 'productIds'), field('max_percent', 'percent', 'maxFraction')],
  target: [
    field('measure', 'word', 'measure'),
    field('min_percent', 'percent', 'min'),
    field('max_percent', 'percent', 'max'),
    field('min_cost_per_kg', 'number', 'min'),
    field('max_cost_per_kg', 'number', 'max'),
  ],
  pack: [
    field('pack_id', 'word', 'id'),
    field('gtin', 'word', 'gtin'),
    field('item_number', 'word', 'itemNumber'),
    field('net_weight', 'digits', 'netWeight', 'value'),
    field('net_unit', 'word', 'netWeight', 'unit'),
    field('pieces', 'number', 'pieces'),
    field('tare', 'digits', 'tare', 'value'),
    field('tare_unit', 'word', 'tare', 'unit'),
    field('price', 'digits', 'price', 'amount'),
    field('price_per', 'word', 'price', 'per'),
    field('label_stock', 'word', 'labelStock'),
  ],
};

/** Lists that the JSON form always has, empty ones too. */
export const ALWAYS_LISTS: readonly string[] = ['grind_plates', 'mixing'];

/** Which field of a target a column is: shares and costs share a path. */
export function isOfMeasure({ column }: PartField, measure: unknown): boolean {
  if (column.endsWith('_cost_per_kg')) return measure === COST_MEASURE;
  return !column.endsWith('_percent') || measure !== COST_MEASURE;
}

export const CELL_KIND: Readonly<Record<FieldForm, CellKind>> = {
  text: 'text',
  word: 'word',
  number: 'number',
  percent: 'percent',
  digits: 'digits',
  truth: 'word',
  list: 'text',
};
