import type { ProductInput } from '../../api/contract/line-limits.ts';
import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import type { LineDraft, PackDraft, PartDraft, ProductDraft, TargetDraft } from './draft.ts';
import { fractionOf, perKilogramOf, type RateUnit } from './rates.ts';

export interface Typed {
  /** As the service takes it; what is left empty is left out, and the service says where it is needed. */
  readonly product: ProductInput;
  /** Pointers of figures that cannot be read. */
  readonly unreadable: readonly string[];
}

/** What is typed as a product in JSON. */
export function productOf(draft: ProductDraft, mark: DecimalMark): Typed {
  const unreadable: string[] = [];
  const read = <Value>(pointer: string, typed: string, as: (digits: string) => Value): Value | undefined => {
    const parsed = parseNumber(typed, mark);
    if (parsed.kind === 'number') return as(parsed.text);
    if (parsed.kind !== 'empty') unreadable.push(pointer);
    return undefined;
  };
  const readers = {
    number: (pointer: string, typed: string) => read(pointer, typed, Number),
    text: (pointer: string, typed: string) => read(pointer, typed, (digits) => digits),
    fraction: (pointer: string, typed: string, unit?: RateUnit) =>
      read(pointer, typed, (digits) => fractionOf(digits, unit)),
    mass: (pointer: string, { text, unit }: TypedMass) => {
      const parsed = parseMass(text, unit, mark);
      if (parsed.kind === 'mass') return { value: parsed.text, unit: parsed.unit };
      if (parsed.kind !== 'empty') unreadable.push(pointer);
      return undefined;
    },
  };
  const pieceMass = readers.mass('/form/pieceMass', draft.piece);
  const product = {
    id: draft.id.trim(),
    name: draft.name.trim(),
    standard: { jurisdiction: draft.jurisdiction, productClass: draft.productClass },
    meatBlock: draft.meatBlock.map((part, at) => partOf(part, `/meatBlock/${at}`, readers)),
    seasoning: draft.seasoning.map((line, at) => lineOf(line, `/seasoning/${at}`, readers)),
    ...(draft.rework.isOn && {
      rework: {
        productIds: draft.rework.productIds,
        ...given({ maxFraction: readers.fraction('/rework/maxFraction', draft.rework.max) }),
      },
    }),
    targets: draft.targets.flatMap((target, at) => targetOf(target, `/targets/${at}`, readers)),
    process: {
      cooking: draft.cooking,
      smoked: draft.smoked,
      ...given({
        yieldFraction: readers.fraction('/process/yieldFraction', draft.yielded),
        fatLossFraction: readers.fraction('/process/fatLossFraction', draft.fatLoss),
      }),
      grindPlates: linesOf(draft.grindPlates),
      mixing: linesOf(draft.mixing),
    },
    form: {
      shape: draft.shape,
      ...given({
        pieceMass: pieceMass && { ...pieceMass, value: Number(pieceMass.value) },
        casingMaterialId: draft.casing || undefined,
      }),
    },
    label: {
      ...given({ leanPercent: readers.number('/label/leanPercent', draft.leanPercent) }),
      storage: draft.storage,
      ...given({
        packs:
          draft.packs.length > 0
            ? draft.packs.map((pack, at) => packOf(pack, `/label/packs/${at}`, readers))
            : undefined,
        claims: draft.claims.length > 0 ? draft.claims : undefined,
        nutritionExemption: draft.nutritionExemption.trim() || undefined,
      }),
    },
  };
  return { product: product as ProductInput, unreadable };
}

interface Readers {
  readonly number: (pointer: string, typed: string) => number | undefined;
  readonly text: (pointer: string, typed: string) => string | undefined;
  readonly fraction: (pointer: string, typed: string, unit?: RateUnit) => number | undefined;
  readonly mass: (pointer: string, typed: TypedMass) => { value: string; unit: string } | undefined;
}

function partOf({ name, kinds, species, materialIds, min, max }: PartDraft, at: string, read: Readers) {
  return {
    name: name.trim(),
    ...(materialIds.length > 0 && { materialIds }),
    ...(kinds.length > 0 && { kinds }),
    ...(species.length > 0 && { species }),
    ...given({
      minFraction: read.fraction(`${at}/minFraction`, min),
      maxFraction: read.fraction(`${at}/maxFraction`, max),
    }),
  };
}

function lineOf({ materialId, basis, unit, isRange, rate, min, max }: LineDraft, at: string, read: Readers) {
  return {
    materialId,
    basis,
    ...(isRange
      ? given({
          minFraction: read.fraction(`${at}/minFraction`, min, unit),
          maxFraction: read.fraction(`${at}/maxFraction`, max, unit),
        })
      : given({ fraction: read.fraction(`${at}/fraction`, rate, unit) })),
  };
}

function targetOf({ measure, min, max, per }: TargetDraft, at: string, read: Readers) {
  const end = (name: string, typed: string) =>
    measure === 'cost per kg'
      ? digitsPer(read.text(`${at}/${name}`, typed), per)
      : read.fraction(`${at}/${name}`, typed);
  const ends = given({ min: end('min', min), max: end('max', max) });
  return Object.keys(ends).length > 0 ? [{ measure, ...ends }] : [];
}

const digitsPer = (digits: string | undefined, per: 'lb' | 'kg') =>
  digits === undefined ? undefined : perKilogramOf(digits, per);

function packOf(pack: PackDraft, at: string, read: Readers) {
  const price = read.mass(`${at}/price`, pack.price);
  return {
    id: pack.id.trim(),
    ...given({
      gtin: pack.gtin.trim() || undefined,
      itemNumber: pack.itemNumber.trim() || undefined,
      netWeight: read.mass(`${at}/netWeight`, pack.netWeight),
      pieces: read.number(`${at}/pieces`, pack.pieces),
      tare: read.mass(`${at}/tare`, pack.tare),
      price: price && { amount: price.value, per: price.unit },
      labelStock: pack.labelStock || undefined,
    }),
  };
}

/** Names that a product has not got yet stand in until it has. */
const STAND_IN = 'not-named-yet';

/**
 * The product to try while it is typed: names and rates that are not there yet stand in, and what no blend depends on is
 * left out.
 */
export function forTrial(product: ProductInput): ProductInput {
  const { label, seasoning, meatBlock } = product;
  return {
    ...product,
    id: /^[a-z0-9]+(?:[.-][a-z0-9]+)*$/.test(product.id) ? product.id : STAND_IN,
    name: product.name || STAND_IN,
    meatBlock: meatBlock.map((part, at) => ({ ...part, name: part.name || `${at + 1}` })),
    seasoning: seasoning.map((line) => {
      const { fraction, minFraction = 0, maxFraction = minFraction } = line;
      const isRange = line.minFraction !== undefined || line.maxFraction !== undefined;
      const { materialId, basis } = line;
      return isRange
        ? { materialId, basis, minFraction, maxFraction }
        : { materialId, basis, fraction: fraction ?? 0 };
    }),
    label: { storage: label.storage, ...given({ leanPercent: label.leanPercent }) },
  };
}

const linesOf = (typed: string): string[] =>
  typed
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** Without what was left empty. */
export function given<Fields extends object>(fields: Fields): Partial<Fields> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as Partial<Fields>;
}
