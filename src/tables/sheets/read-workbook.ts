import { readSheet } from 'read-excel-file/node';
import { exact, multiply, toText } from '../../exact.ts';
import { tooMany } from './delimited.ts';
import { columnNumber, type Grid, MOST_COLUMNS, MOST_ROWS, SheetError, type Unreadable } from './grid.ts';
import { unzip } from './unzip.ts';
import { storedZip } from './zip.ts';

/** What one sheet and what it needs may unpack to. 50,000 lots are some 40 MB. */
const MOST_UNPACKED_BYTES = 150_000_000;

const NEEDED = [
  '[Content_Types].xml',
  '_rels/.rels',
  'xl/workbook.xml',
  'xl/_rels/workbook.xml.rels',
  'xl/styles.xml',
  'xl/sharedStrings.xml',
];

/**
 * Rows of one sheet of a workbook (Office Open XML): the one that is named like what is asked for, or the first. Values
 * of formulas are read, not the formulas; days become YYYY-MM-DD, shares shown in percent get their sign.
 * @throws SheetError for what is no workbook, and for more than can be read.
 */
export async function readWorkbook(bytes: Uint8Array, wanted: string): Promise<Grid> {
  const parts = await unzip(bytes, MOST_UNPACKED_BYTES, (name) => NEEDED.includes(name));
  const { sheet, file } = sheetOf(parts, wanted);
  const left = MOST_UNPACKED_BYTES - [...parts.values()].reduce((total, { length }) => total + length, 0);
  const own = (await unzip(bytes, left, (name) => name === file)).get(file);
  if (!own)
    throw new SheetError(`The workbook names the sheet "${sheet}" and does not hold it. Save it again.`);
  const { unreadable, percents } = look(textOf(own), percentStyles(xmlOf(parts, 'xl/styles.xml')));
  const rows = await valuesOf(await storedZip(new Map([...parts, [file, own]])), sheet);
  return {
    sheet,
    rows: rows.map((values, index) => ({
      row: index + 1,
      cells: values.map((value, column) => cellText(value, percents.has(placeOf(index + 1, column)))),
    })),
    unreadable,
    dayZero: /\bdate1904\s*=\s*["'](?:1|true)["']/.test(xmlOf(parts, 'xl/workbook.xml'))
      ? '1904-01-01'
      : '1899-12-30',
  };
}

type Value = string | number | boolean | Date | null;

async function valuesOf(archive: Buffer, sheet: string): Promise<readonly (readonly Value[])[]> {
  try {
    return (await readSheet(archive, sheet, { trim: false })) as Value[][];
  } catch (error) {
    throw new SheetError(
      `The workbook cannot be read: ${(error as Error).message}. Save it again, or send CSV.`,
    );
  }
}

function cellText(value: Value, isPercent: boolean): string {
  if (value === null) return '';
  if (value instanceof Date) return dayText(value);
  if (typeof value !== 'number') return String(value);
  return isPercent ? `${toText(multiply(exact(value), exact(100)))}%` : toText(exact(value));
}

/** Days are kept as midnight in UTC, whatever the zone. */
function dayText(date: Date): string {
  if (Number.isNaN(date.getTime())) return 'no date';
  const text = date.toISOString();
  return text.endsWith('T00:00:00.000Z') ? text.slice(0, 10) : text;
}

interface SheetPlace {
  readonly sheet: string;
  /** In the archive. */
  readonly file: string;
}

function sheetOf(parts: ReadonlyMap<string, Uint8Array>, wanted: string): SheetPlace {
  const targets = new Map(
    tags(xmlOf(parts, 'xl/_rels/workbook.xml.rels'), 'Relationship').map(({ Id, Target }) => [Id, Target]),
  );
  const sheets = tags(xmlOf(parts, 'xl/workbook.xml'), 'sheet').flatMap(({ name, id }) => {
    const target = targets.get(id);
    if (name === undefined || target === undefined) return [];
    const file = target.startsWith('/') ? target.slice(1) : `xl/${target}`;
    return [{ sheet: name, file }];
  });
  const named = sheets.find(({ sheet }) => nameKey(sheet) === nameKey(wanted));
  const [first] = sheets;
  const found = named ?? first;
  if (!found) throw new SheetError('The file is no .xlsx workbook, or one without a sheet. Save it again.');
  return found;
}

function nameKey(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '-');
}

function xmlOf(parts: ReadonlyMap<string, Uint8Array>, name: string): string {
  const bytes = parts.get(name);
  return bytes ? textOf(bytes) : '';
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8').decode(bytes);
}

const ATTRIBUTES = String.raw`(?:\s+[\w:.-]+\s*=\s*(?:"[^"]*"|'[^']*'))*`;

/** Every opening tag of a name, with its attributes; prefixes of names do not count. */
function tags(xml: string, name: string): Record<string, string | undefined>[] {
  const found = xml.matchAll(new RegExp(`<(?:\\w+:)?${name}(${ATTRIBUTES})\\s*/?>`, 'g'));
  return [...found].map(([, attributes = '']) => attributesOf(attributes));
}

function attributesOf(text: string): Record<string, string | undefined> {
  const pairs = text.matchAll(/(?:[\w.-]+:)?([\w.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g);
  return Object.fromEntries(
    [...pairs].map(([, name = '', double, single]) => [name, unescaped(double ?? single ?? '')]),
  );
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function unescaped(text: string): string {
  return text.replaceAll(/&(\w+);/g, (whole, name: string) => ENTITIES[name] ?? whole);
}

/** Numbers of the cell formats that show percent: 9 and 10 are built in (ECMA-376 part 1, 18.8.30). */
function percentStyles(styles: string): Set<number> {
  const own = tags(styles, 'numFmt').filter(({ formatCode = '' }) =>
    formatCode.replaceAll(/"[^"]*"|\\./g, '').includes('%'),
  );
  const formats = new Set(['9', '10', ...own.map(({ numFmtId }) => numFmtId)]);
  const cellFormats = /<(?:\w+:)?cellXfs\b[\s\S]*?<\/(?:\w+:)?cellXfs>/.exec(styles)?.[0] ?? '';
  return new Set(
    tags(cellFormats, 'xf').flatMap(({ numFmtId }, index) => (formats.has(numFmtId ?? '') ? [index] : [])),
  );
}

const CELL_OR_ROW = /<(?:\w+:)?(?:c|row)[\s/>]/g;
const WHOLE_TAG = new RegExp(`<(?:\\w+:)?(c|row)(${ATTRIBUTES})\\s*(/?)>`, 'g');

function placeOf(row: number, column: number): number {
  return row * MOST_COLUMNS + column;
}

/**
 * What the values alone do not tell: cells with errors, formulas that were never worked out, shares shown in percent. And
 * that no cell lies so far out that the rows and columns before it would fill the memory.
 */
function look(xml: string, percentStyle: ReadonlySet<number>) {
  const unreadable: Unreadable[] = [];
  const percents = new Set<number>();
  let count = 0;
  for (const { 1: tag, 2: text = '', 3: closed, index, 0: whole } of xml.matchAll(WHOLE_TAG)) {
    count += 1;
    const address = /\sr\s*=\s*["']([A-Z]{0,3})(\d{1,7})["']/.exec(text);
    if (tag === 'row') {
      if (address && Number(address[2]) > MOST_ROWS) throw tooMany(`more than ${MOST_ROWS} rows`);
      continue;
    }
    if (!address) throw unknownForm();
    const row = Number(address[2]);
    const column = columnNumber(address[1] ?? '');
    if (row > MOST_ROWS) throw tooMany(`more than ${MOST_ROWS} rows`);
    if (column < 0 || column >= MOST_COLUMNS) throw tooMany(`more than ${MOST_COLUMNS} columns`);
    const style = /\ss\s*=\s*["'](\d+)["']/.exec(text)?.[1];
    if (style !== undefined && percentStyle.has(Number(style))) percents.add(placeOf(row, column));
    if (closed === '/') continue;
    const after = index + whole.length;
    if (/\st\s*=\s*["']e["']/.test(text)) {
      unreadable.push({ row, column, message: 'holds an error of a formula; correct it or write the value' });
    } else if (/^\s*<(?:\w+:)?f[\s/>]/.test(xml.slice(after, after + 20)) && !hasValue(xml, after)) {
      unreadable.push({
        row,
        column,
        message:
          'holds a formula without its value; open the file in a spreadsheet program and save it again',
      });
    }
  }
  // A tag that was not understood might be the one that lies far out.
  if (count !== (xml.match(CELL_OR_ROW) ?? []).length) throw unknownForm();
  return { unreadable, percents };
}

function hasValue(xml: string, from: number): boolean {
  const end = /<\/(?:\w+:)?c\s*>/g;
  end.lastIndex = from;
  return /<(?:\w+:)?v[\s/>]/.test(xml.slice(from, end.exec(xml)?.index ?? from));
}

function unknownForm(): SheetError {
  return new SheetError(
    'The workbook is written in a way that is not known here. Save it again, or send CSV.',
  );
}
