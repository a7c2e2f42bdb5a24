import { type Exact, exact, toText } from '../../exact.ts';
import { columnLetters, SheetError } from './grid.ts';
import type { WrittenCell } from './write-csv.ts';
import { type ArchiveFile, zipped } from './zip.ts';

/** A sheet to be written, row by row; the first row has the names of the columns. */
export interface WrittenSheet {
  readonly name: string;
  /** In order: which columns hold calendar days, to be written as dates. */
  readonly columns: readonly { readonly name: string; readonly kind: string }[];
  readonly rows: AsyncIterable<readonly WrittenCell[]> | Iterable<readonly WrittenCell[]>;
  /** Whether a text that is too long for a cell may be cut; refused otherwise. */
  readonly mayCut?: boolean;
}

/** What a cell, and a sheet, can hold (ECMA-376 states none; these are what the common programs open). */
export const LONGEST_TEXT = 32_767;
const MOST_SHEET_ROWS = 1_048_576;

/**
 * A workbook in Office Open XML (ECMA-376 part 1), piece by piece. Text is written as text and never as a formula,
 * numbers as numbers, calendar days as dates.
 * @throws SheetError for a text that is too long for a cell, and for more rows than a sheet can have.
 */
export function writeWorkbook(sheets: readonly WrittenSheet[]): AsyncIterable<Uint8Array> {
  return zipped(partsOf(sheets));
}

function* partsOf(sheets: readonly WrittenSheet[]): Generator<ArchiveFile> {
  const numbered = sheets.map(({ name }, index) => ({ name, number: index + 1 }));
  yield part('[Content_Types].xml', contentTypes(numbered));
  yield part('_rels/.rels', relations([['officeDocument', 'xl/workbook.xml']]));
  yield part('xl/workbook.xml', workbook(numbered));
  yield part(
    'xl/_rels/workbook.xml.rels',
    relations([
      ...numbered.map(({ number }) => ['worksheet', `worksheets/sheet${number}.xml`] as const),
      ['styles', 'styles.xml'],
    ]),
  );
  yield part('xl/styles.xml', STYLES);
  for (const [index, sheet] of sheets.entries()) {
    yield { name: `xl/worksheets/sheet${index + 1}.xml`, content: sheetXml(sheet) };
  }
}

const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const TYPES = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
/** Cell formats in STYLES: the header is bold, days are dates. */
const BOLD = 1;
const DAY = 2;

/** 164 is the first number that a workbook may give to a format of its own. */
const STYLES = `<styleSheet xmlns="${MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf xfId="0"/><xf xfId="0" fontId="1" applyFont="1"/><xf xfId="0" numFmtId="164" applyNumberFormat="1"/></cellXfs></styleSheet>`;

function part(name: string, xml: string): ArchiveFile {
  return { name, content: [XML, xml] };
}

function contentTypes(sheets: readonly { readonly number: number }[]): string {
  const overrides = sheets.map(
    ({ number }) =>
      `<Override PartName="/xl/worksheets/sheet${number}.xml" ContentType="${TYPES}.worksheet+xml"/>`,
  );
  return `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPES}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPES}.styles+xml"/>${overrides.join('')}</Types>`;
}

function relations(targets: readonly (readonly [type: string, target: string])[]): string {
  const all = targets.map(
    ([type, target], index) =>
      `<Relationship Id="rId${index + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${all.join('')}</Relationships>`;
}

function workbook(sheets: readonly { readonly name: string; readonly number: number }[]): string {
  const all = sheets.map(
    ({ name, number }) => `<sheet name="${xmlText(name)}" sheetId="${number}" r:id="rId${number}"/>`,
  );
  return `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${all.join('')}</sheets></workbook>`;
}

async function* sheetXml({ name, columns, rows, mayCut = false }: WrittenSheet): AsyncGenerator<string> {
  const letters = columns.map((_, index) => columnLetters(index));
  const days = columns.map(({ kind }) => kind === 'date');
  yield `${XML}<worksheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><sheetData>`;
  yield `<row r="1">${columns.map((column, index) => textCell(`${letters[index]}1`, column.name, BOLD)).join('')}</row>`;
  let row = 1;
  for await (const cells of rows) {
    row += 1;
    if (row > MOST_SHEET_ROWS) {
      throw new SheetError(`"${name}" has more rows than a sheet can have. Take it as CSV.`);
    }
    let xml = '';
    for (const [index, cell] of cells.entries()) {
      if (cell === undefined || cell === '') continue;
      xml += cellXml(`${letters[index]}${row}`, cell, days[index] ?? false, mayCut);
    }
    yield `<row r="${row}">${xml}</row>`;
  }
  yield '</sheetData></worksheet>';
}

function cellXml(at: string, cell: string | number | Exact, isDay: boolean, mayCut: boolean): string {
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  if (typeof cell === 'object') return exactXml(at, toText(cell));
  const serial = isDay ? serialOf(cell) : 0;
  if (serial >= FIRST_DAY) return `<c r="${at}" s="${DAY}"><v>${serial}</v></c>`;
  if (cell.length <= LONGEST_TEXT) return textCell(at, cell);
  if (mayCut) return textCell(at, `${cell.slice(0, LONGEST_TEXT - CUT.length)}${CUT}`);
  throw new SheetError(
    `A text of ${cell.length} characters ("${cell.slice(0, 30)}…") is too long for a cell of a workbook. Take it as CSV.`,
  );
}

/** Digits that no double holds stand as text: a number would come back as another one. */
function exactXml(at: string, digits: string): string {
  const isHeld = toText(exact(Number(digits))) === digits;
  return isHeld ? `<c r="${at}"><v>${digits}</v></c>` : textCell(at, digits);
}

const CUT = ' … [cut here; the CSV has all of it]';

function textCell(at: string, text: string, style = 0): string {
  const styled = style > 0 ? ` s="${style}"` : '';
  return `<c r="${at}"${styled} t="inlineStr"><is><t xml:space="preserve">${xmlText(text)}</t></is></c>`;
}

/** 1 March 1900; the programs do not agree about earlier days. */
const FIRST_DAY = 61;

/** Days since the last but one of 1899, as workbooks count them. */
function serialOf(day: string): number {
  return (Date.parse(`${day}T00:00:00Z`) - Date.parse('1899-12-30T00:00:00Z')) / 86_400_000;
}

const MARKUP: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/**
 * Characters that XML has no place for, or would change, as _xHHHH_ (ECMA-376 part 1, 22.9.2.19); a text that looks like
 * that gets its underscore written so.
 */
function xmlText(text: string): string {
  return text
    .replaceAll(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')
    .replaceAll(/[^\P{Cc}\t\n]|[\uFFFE\uFFFF]/gu, hexOf)
    .replaceAll(/[&<>"]/g, (character) => MARKUP[character] ?? character);
}

function hexOf(character: string): string {
  return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;
}
