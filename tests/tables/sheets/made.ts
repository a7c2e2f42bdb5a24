import type { Column } from '../../../src/tables/sheets/columns.ts';
import type { WrittenCell } from '../../../src/tables/sheets/write-csv.ts';
import { writeWorkbook } from '../../../src/tables/sheets/write-workbook.ts';
import { storedZip } from '../../../src/tables/sheets/zip.ts';

/** Spreadsheets that tests make. */

export async function bytesOf(pieces: AsyncIterable<string | Uint8Array>): Promise<Buffer> {
  const all: Buffer[] = [];
  for await (const piece of pieces) all.push(Buffer.from(piece as Uint8Array));
  return Buffer.concat(all);
}

export function workbookOf(
  name: string,
  columns: readonly Column[],
  rows: readonly (readonly WrittenCell[])[],
): Promise<Buffer> {
  return bytesOf(writeWorkbook([{ name, columns, rows }]));
}

const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const R = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

export interface RawSheet {
  readonly name: string;
  /** What stands between the tags sheetData. */
  readonly data: string;
}

/** A workbook written by hand, as a program that is not this one might. */
export function rawWorkbook(
  sheets: readonly RawSheet[],
  { cellFormats = '<xf numFmtId="0"/>', sharedStrings = '', workbookPr = '' } = {},
): Promise<Buffer> {
  const text = (xml: string) => Buffer.from(`<?xml version="1.0" encoding="UTF-8"?>${xml}`, 'utf8');
  const relation = (id: number, type: string, target: string) =>
    `<Relationship Id="rId${id}" Type="${R}/${type}" Target="${target}"/>`;
  const relations = (all: string) =>
    text(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${all}</Relationships>`,
    );
  return storedZip(
    new Map<string, Uint8Array>([
      [
        '[Content_Types].xml',
        text('<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'),
      ],
      ['_rels/.rels', relations(relation(1, 'officeDocument', 'xl/workbook.xml'))],
      [
        'xl/workbook.xml',
        text(
          `<workbook ${MAIN} xmlns:r="${R}">${workbookPr}<sheets>${sheets.map(({ name }, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`).join('')}</sheets></workbook>`,
        ),
      ],
      [
        'xl/_rels/workbook.xml.rels',
        relations(
          [
            ...sheets.map((_, index) => relation(index + 1, 'worksheet', `worksheets/sheet${index + 1}.xml`)),
            relation(90, 'styles', 'styles.xml'),
            relation(91, 'sharedStrings', 'sharedStrings.xml'),
          ].join(''),
        ),
      ],
      [
        'xl/styles.xml',
        text(
          `<styleSheet ${MAIN}><numFmts count="2"><numFmt numFmtId="170" formatCode="0.00\\ &quot;% fat&quot;"/><numFmt numFmtId="171" formatCode="0.0%"/></numFmts><cellXfs>${cellFormats}</cellXfs></styleSheet>`,
        ),
      ],
      ['xl/sharedStrings.xml', text(`<sst ${MAIN}>${sharedStrings}</sst>`)],
      ...sheets.map(
        ({ data }, index) =>
          [
            `xl/worksheets/sheet${index + 1}.xml`,
            text(`<worksheet ${MAIN}><sheetData>${data}</sheetData></worksheet>`),
          ] as const,
      ),
    ]),
  );
}

export const inline = (at: string, text: string) => `<c r="${at}" t="inlineStr"><is><t>${text}</t></is></c>`;

/** A row of texts. */
export function textRow(row: number, ...cells: readonly string[]): string {
  return `<row r="${row}">${cells.map((text, index) => inline(`${String.fromCharCode(65 + index)}${row}`, text)).join('')}</row>`;
}

/** Texts that a spreadsheet, a CSV reader or an XML reader could take for something else. */
export const NASTY = [
  '=HYPERLINK("http://example.test","x")',
  "'=1+1",
  "''@x",
  "'quoted'",
  '+1',
  '-5',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  'two\r\nlines',
  'one\nline and "quotes", commas; semicolons',
  ' spaces at both ends ',
  '00123',
  '1e5',
  '1.234,56',
  '2026-11-25',
  '11/25/2026',
  'TRUE',
  '🥩 naïve ő ñ ½',
  'a sign that was lost: \uFFFD',
  '\uFEFFa mark before it',
  '_x0041_ is not A',
  '<b>&amp;</b>',
  'back\\slash; and \\; more',
  ';',
  '\\',
  'x'.repeat(5000),
] as const;
