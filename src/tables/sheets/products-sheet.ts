import { exact, multiply } from '../../exact.ts';
import { fractionOfPercent } from '../../units.ts';
import { textOfWords, wordsOf } from '../words.ts';
import { type CellKind, type Column, columnsOf } from './columns.ts';
import {
  ALWAYS_LISTS,
  CELL_KIND,
  type FieldForm,
  isOfMeasure,
  PART_FIELDS,
  PART_PLACES,
  PARTS,
  type PartField,
  type PartName,
} from './product-parts.ts';
import type { WrittenCell } from './write-csv.ts';

export const PRODUCT_COLUMNS: readonly Column[] = columnsOf(productKinds());

/** The columns of all parts, each once. */
function productKinds(): Record<string, CellKind> {
  const kinds: Record<string, CellKind> = { product_id: 'word', part: 'word' };
  for (const { column, form } of PARTS.flatMap((part) => PART_FIELDS[part])) {
    kinds[column] = kinds[column] === 'text' ? 'text' : CELL_KIND[form];
  }
  return kinds;
}

type Json = Readonly<Record<string, unknown>>;

/** The JSON form of a product as its rows, the product itself first. */
export function productRows(json: unknown): WrittenCell[][] {
  const product = json as Json;
  return PARTS.flatMap((part) => {
    const { path, isList } = PART_PLACES[part];
    const there = valueAt(product, path);
    const entries = there === undefined ? [] : isList ? (there as Json[]) : [there as Json];
    return entries.map((entry) => partRow(product.id as string, part, entry));
  });
}

function partRow(productId: string, part: PartName, entry: Json): WrittenCell[] {
  const cells = new Map<string, WrittenCell>([
    ['product_id', productId],
    ['part', part],
  ]);
  for (const field of PART_FIELDS[part]) {
    if (part === 'target' && !isOfMeasure(field, entry.measure)) continue;
    const value = valueAt(entry, field.path);
    if (value !== undefined) cells.set(field.column, WRITE[field.form](value));
  }
  return PRODUCT_COLUMNS.map(({ name }) => cells.get(name));
}

function valueAt(json: Json, path: readonly string[]): unknown {
  return path.reduce<unknown>((at, step) => (at as Json | undefined)?.[step], json);
}

const WRITE: Readonly<Record<FieldForm, (value: unknown) => WrittenCell>> = {
  text: (value) => String(value),
  word: (value) => String(value),
  digits: (value) => String(value),
  number: (value) => value as number,
  percent: (value) => multiply(exact(value as number), exact(100)),
  truth: (value) => (value === true ? 'yes' : 'no'),
  list: (value) => textOfWords(value as string[]),
};

/** Rows of one product put together: its JSON form, and where each value of it came from. */
export interface ReadProductRows {
  readonly id: string;
  /** The row of the product itself, or the first there is. */
  readonly row: number;
  readonly json: unknown;
  /** The cell that a fault of the JSON form is about. */
  readonly cellOf: (path: readonly PropertyKey[]) => { readonly row: number; readonly column: string };
}

type Row = { readonly row: number; readonly cells: Readonly<Record<string, string>> };
export interface ProductFault {
  readonly row: number;
  readonly column: string;
  readonly value?: string;
  readonly message: string;
}

/** Puts the rows of each product together. What cannot be told apart is a fault; everything else its schema decides. */
export function readProductRows(rows: readonly Row[]): {
  readonly products: ReadProductRows[];
  readonly faults: ProductFault[];
} {
  const faults: ProductFault[] = [];
  const byId = new Map<string, Row[]>();
  for (const row of rows) {
    const { product_id: id = '', part = '' } = row.cells;
    if (id === '') faults.push({ row: row.row, column: 'product_id', message: 'is empty; fill it in' });
    else if (!isPart(part))
      faults.push({ row: row.row, column: 'part', value: part, message: `is none of: ${PARTS.join(', ')}` });
    else byId.set(id, [...(byId.get(id) ?? []), row]);
  }
  const products = [...byId].map(([id, own]) => productOf(id, own, faults));
  return { products, faults };
}

function isPart(text: string): text is PartName {
  return (PARTS as readonly string[]).includes(text);
}

function productOf(id: string, rows: readonly Row[], faults: ProductFault[]): ReadProductRows {
  const [first] = rows;
  if (!first) throw new Error(`product ${id} has no rows`);
  const json: Record<string, unknown> = { id };
  const own = rows.filter(({ cells }) => cells.part === 'product');
  for (const { row } of own.slice(1)) {
    faults.push({
      row,
      column: 'part',
      value: 'product',
      message: `${id} has a row of its own already; keep one`,
    });
  }
  if (own.length === 0) {
    const message = `${id} has no row of its own; add one with the part "product"`;
    faults.push({ row: first.row, column: 'part', message });
  }
  const places = new Map<string, Row>();
  for (const part of PARTS) {
    const ofPart = rows.filter(({ cells }) => cells.part === part);
    const { path, isList } = PART_PLACES[part];
    if (!isList) {
      for (const { row } of part === 'product' ? [] : ofPart.slice(1))
        faults.push({ row, column: 'part', value: part, message: `${id} has two rows of this; keep one` });
      const [only] = ofPart;
      if (!only) continue;
      places.set(path.join('/'), only);
      const value = partValue(part, only, faults);
      if (part === 'product') Object.assign(json, value);
      else put(json, path, value);
      continue;
    }
    const values = ofPart.map((row, index) => {
      places.set([...path, index].join('/'), row);
      return partValue(part, row, faults);
    });
    // A product without packs says nothing of them; the other lists may be empty, not absent.
    if (values.length > 0 || part !== 'pack') put(json, path, values);
  }
  const head = own[0] ?? first;
  return { id, row: head.row, json, cellOf: cellFinder(head, places) };
}

function partValue(part: PartName, { row, cells }: Row, faults: ProductFault[]): Record<string, unknown> {
  const value: Record<string, unknown> = {};
  const fields = PART_FIELDS[part].filter((field) => part !== 'target' || isOfMeasure(field, cells.measure));
  const own = new Set(fields.map(({ column }) => column));
  for (const [column, text] of Object.entries(cells)) {
    if (text === '' || own.has(column) || column === 'product_id' || column === 'part') continue;
    const what =
      part === 'target' ? `a target for ${cells.measure || 'nothing'}` : `a row of the part "${part}"`;
    faults.push({ row, column, value: text, message: `does not belong to ${what}; leave it empty` });
  }
  for (const field of fields) {
    const text = cells[field.column] ?? '';
    if (text === '' && !ALWAYS_LISTS.includes(field.column)) continue;
    const read = READ[field.form](text);
    if (typeof read === 'object' && !Array.isArray(read))
      faults.push({ row, column: field.column, value: text, ...read });
    else put(value, field.path, read);
  }
  return value;
}

const PLAIN_NUMBER = /^\d+(?:\.\d+)?$/;
const NO_NUMBER = { message: 'is not a plain number; write digits with a decimal point, such as 12.5' };
const TRUTHS: Readonly<Record<string, boolean>> = { yes: true, true: true, no: false, false: false };

const READ: Readonly<
  Record<FieldForm, (text: string) => string | number | boolean | string[] | { message: string }>
> = {
  text: (text) => text,
  word: (text) => text.trim(),
  digits: (text) => text.trim(),
  number: (text) => (PLAIN_NUMBER.test(text) ? Number(text) : NO_NUMBER),
  percent: (text) => (PLAIN_NUMBER.test(text) ? fractionOfPercent(text) : NO_NUMBER),
  truth: (text) => TRUTHS[text.toLowerCase()] ?? { message: 'is neither yes nor no' },
  list: (text) => wordsOf(text),
};

function put(json: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const last = path.at(-1) ?? '';
  let at = json;
  for (const step of path.slice(0, -1)) {
    at[step] ??= {};
    at = at[step] as Record<string, unknown>;
  }
  at[last] = value;
}

/** The longest way that a part stands at, and within it the field that the rest of the way leads to. */
function cellFinder(head: Row, places: ReadonlyMap<string, Row>): ReadProductRows['cellOf'] {
  return (path) => {
    for (const part of [...PARTS].reverse()) {
      const { path: place, isList } = PART_PLACES[part];
      if (place.some((step, index) => path[index] !== step)) continue;
      const length = place.length + (isList ? 1 : 0);
      const row = places.get(path.slice(0, length).join('/'));
      if (!row) continue;
      return { row: row.row, column: columnOf(PART_FIELDS[part], path.slice(length), row) };
    }
    return { row: head.row, column: path[0] === 'id' ? 'product_id' : 'part' };
  };
}

function columnOf(fields: readonly PartField[], path: readonly PropertyKey[], { cells }: Row): string {
  if (path[0] === 'id' && cells.part === 'product') return 'product_id';
  const fitting = fields.filter(
    (field) =>
      (cells.part !== 'target' || isOfMeasure(field, cells.measure)) &&
      field.path.every((step, index) => index >= path.length || path[index] === step),
  );
  return path.length === 0 ? 'part' : (fitting[0]?.column ?? 'part');
}
