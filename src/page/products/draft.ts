import type { ProductInput } from '../../api/contract/line-limits.ts';
import { exact, toText } from '../../exact.ts';
import { type DecimalMark, withMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import { digitsOf, type RateUnit } from './rates.ts';

/** A product as it stands in the form: every figure as it was typed. */
export interface ProductDraft {
  readonly id: string;
  readonly name: string;
  readonly jurisdiction: string;
  readonly productClass: string;
  readonly meatBlock: readonly PartDraft[];
  readonly seasoning: readonly LineDraft[];
  readonly rework: { readonly isOn: boolean; readonly productIds: readonly string[]; readonly max: string };
  readonly targets: readonly TargetDraft[];
  readonly cooking: Process['cooking'];
  readonly smoked: boolean;
  /** Percents. */
  readonly yielded: string;
  readonly fatLoss: string;
  /** One a line. */
  readonly grindPlates: string;
  readonly mixing: string;
  readonly shape: ProductInput['form']['shape'];
  readonly piece: TypedMass;
  readonly casing: string;
  readonly leanPercent: string;
  readonly storage: ProductInput['label']['storage'];
  readonly packs: readonly PackDraft[];
  readonly claims: readonly string[];
  readonly nutritionExemption: string;
  /** The version of the saved product that this was begun from. */
  readonly begunFrom?: number;
}

type Process = ProductInput['process'];
export type Measure = ProductInput['targets'][number]['measure'];

export interface PartDraft {
  readonly name: string;
  readonly kinds: readonly string[];
  readonly species: readonly string[];
  readonly materialIds: readonly string[];
  readonly min: string;
  readonly max: string;
}

export interface LineDraft {
  readonly materialId: string;
  readonly basis: ProductInput['seasoning'][number]['basis'];
  readonly unit: RateUnit;
  readonly isRange: boolean;
  readonly rate: string;
  readonly min: string;
  readonly max: string;
}

export interface TargetDraft {
  readonly measure: Measure;
  readonly min: string;
  readonly max: string;
  /** Of a cost. */
  readonly per: 'lb' | 'kg';
}

export interface PackDraft {
  readonly id: string;
  readonly gtin: string;
  readonly itemNumber: string;
  readonly netWeight: TypedMass;
  readonly pieces: string;
  readonly tare: TypedMass;
  readonly price: TypedMass;
  readonly labelStock: string;
}

export const newPart = (name: string): PartDraft => ({
  name,
  kinds: ['skeletal meat'],
  species: [],
  materialIds: [],
  min: '',
  max: '',
});

export const newLine = (materialId: string): LineDraft => ({
  materialId,
  basis: 'green weight',
  unit: '%',
  isRange: false,
  rate: '',
  min: '',
  max: '',
});

export const newPack = (units: 'lb' | 'kg'): PackDraft => ({
  id: '',
  gtin: '',
  itemNumber: '',
  netWeight: { text: '', unit: units },
  pieces: '',
  tare: { text: '', unit: units },
  price: { text: '', unit: units },
  labelStock: '',
});

/** What a new product starts with: fresh, in bulk, of one kind of meat. @param part name of its meat. */
export function newDraft(jurisdiction: string, units: 'lb' | 'kg', part: string): ProductDraft {
  return {
    id: '',
    name: '',
    jurisdiction,
    productClass: '',
    meatBlock: [newPart(part)],
    seasoning: [],
    rework: { isOn: false, productIds: [], max: '' },
    targets: [],
    cooking: 'raw',
    smoked: false,
    yielded: '100',
    fatLoss: '0',
    grindPlates: '',
    mixing: '',
    shape: 'bulk',
    piece: { text: '', unit: units === 'lb' ? 'oz' : 'g' },
    casing: '',
    leanPercent: '',
    storage: 'keep refrigerated',
    packs: [],
    claims: [],
    nutritionExemption: '',
  };
}

/** A saved product as it is typed: nothing of it is rounded. */
export function draftOf(product: ProductInput, mark: DecimalMark, units: 'lb' | 'kg'): ProductDraft {
  const { standard, meatBlock, seasoning, rework, targets, process, form, label } = product;
  const number = (value: number | undefined) =>
    value === undefined ? '' : withMark(toText(exact(value)), mark);
  const percent = (fraction: number | undefined) =>
    fraction === undefined ? '' : withMark(digitsOf(fraction), mark);
  const weight = (given: { value: string; unit: TypedMass['unit'] } | undefined): TypedMass =>
    given ? { text: withMark(given.value, mark), unit: given.unit } : { text: '', unit: units };
  return {
    ...newDraft(standard.jurisdiction, units, ''),
    id: product.id,
    name: product.name,
    productClass: standard.productClass,
    meatBlock: meatBlock.map(
      ({ name, kinds = [], species = [], materialIds = [], minFraction, maxFraction }) => ({
        name,
        kinds,
        species,
        materialIds,
        min: percent(minFraction),
        max: percent(maxFraction),
      }),
    ),
    seasoning: seasoning.map(({ materialId, basis, fraction, minFraction, maxFraction }) => ({
      ...newLine(materialId),
      basis,
      isRange: fraction === undefined,
      rate: percent(fraction),
      min: percent(minFraction),
      max: percent(maxFraction),
    })),
    ...(rework && {
      rework: { isOn: true, productIds: rework.productIds, max: percent(rework.maxFraction) },
    }),
    targets: targets.map(({ measure, min, max }) => {
      const shown = measure === 'cost per kg' ? number : percent;
      return { measure, min: shown(min), max: shown(max), per: 'kg' };
    }),
    cooking: process.cooking,
    smoked: process.smoked,
    yielded: percent(process.yieldFraction),
    fatLoss: percent(process.fatLossFraction),
    grindPlates: process.grindPlates.join('\n'),
    mixing: process.mixing.join('\n'),
    shape: form.shape,
    ...(form.pieceMass && { piece: { text: number(form.pieceMass.value), unit: form.pieceMass.unit } }),
    casing: form.casingMaterialId ?? '',
    leanPercent: number(label.leanPercent),
    storage: label.storage,
    packs: (label.packs ?? []).map(
      ({ id, gtin = '', itemNumber = '', netWeight, pieces, tare, price, labelStock = '' }) => ({
        id,
        gtin,
        itemNumber,
        netWeight: weight(netWeight),
        pieces: number(pieces),
        tare: weight(tare),
        price: weight(price && { value: price.amount, unit: price.per }),
        labelStock,
      }),
    ),
    claims: label.claims ?? [],
    nutritionExemption: label.nutritionExemption ?? '',
  };
}
