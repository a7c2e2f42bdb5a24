import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import writeExcelFile from 'write-excel-file/node';
import { z } from 'zod';
import { optionalDecimalCell, optionalTextCell, textCell } from '../../../src/tables/cells.ts';
import { columnsOf } from '../../../src/tables/sheets/columns.ts';
import { decodeText } from '../../../src/tables/sheets/decode.ts';
import { readDelimited } from '../../../src/tables/sheets/delimited.ts';
import { columnLetters, columnNumber } from '../../../src/tables/sheets/grid.ts';
import { parseTable, readSheetTable } from '../../../src/tables/sheets/read-sheet.ts';
import { readWorkbook } from '../../../src/tables/sheets/read-workbook.ts';
import { unzip } from '../../../src/tables/sheets/unzip.ts';
import { csvLine, unguarded } from '../../../src/tables/sheets/write-csv.ts';
import { writeWorkbook } from '../../../src/tables/sheets/write-workbook.ts';
import { readNumber, withDecimalComma } from '../../../src/tables/sheets/written-number.ts';
import { storedZip } from '../../../src/tables/sheets/zip.ts';
import { textOfWords, wordsOf } from '../../../src/tables/words.ts';
import { bytesOf, inline, NASTY, rawWorkbook, textRow, workbookOf } from './made.ts';

const COLUMNS = columnsOf({ id: 'word', note: 'text', fat_percent: 'percent', mass: 'number', day: 'date' });
const SCHEMA = z.object({
  id: textCell,
  note: optionalTextCell,
  fat_percent: optionalDecimalCell,
  mass: optionalDecimalCell,
  day: optionalTextCell,
});

async function read(bytes: Buffer | string) {
  const table = await readSheetTable(Buffer.from(bytes as string), 'lots', COLUMNS, SCHEMA);
  const { rows, faults } = parseTable(table, SCHEMA);
  return { file: table.file, rows: rows.map(({ row, cells }) => [row, cells]), faults };
}

describe('bytes to text', () => {
  const TEXT = 'id,note\r\nA,“Käse” – 5 €\r\n';
  const utf16be = () => {
    const bytes = Buffer.from(`\uFEFF${TEXT}`, 'utf16le');
    return bytes.swap16();
  };

  test.each([
    ['UTF-8', Buffer.from(TEXT, 'utf8')],
    ['UTF-8 with its mark', Buffer.from(`\uFEFF${TEXT}`, 'utf8')],
    ['UTF-16, little end first', Buffer.from(`\uFEFF${TEXT}`, 'utf16le')],
    ['UTF-16, big end first', utf16be()],
    ['windows-1252', Buffer.from('id,note\r\nA,\x93K\xe4se\x94 \x96 5 \x80\r\n', 'latin1')],
  ])('%s', (_name, bytes) => {
    expect(decodeText(bytes)).toBe(TEXT);
  });

  test.each([
    ['a byte that windows-1252 has not', Buffer.from([0x61, 0x81])],
    ['UTF-16 without a mark', Buffer.from('id', 'utf16le')],
    ['UTF-8 that is cut off behind its mark', Buffer.from([0xef, 0xbb, 0xbf, 0xc3])],
  ])('%s is refused', (_name, bytes) => {
    expect(() => decodeText(bytes)).toThrow(/Save it/);
  });
});

describe('the form of a CSV file', () => {
  test.each([
    ['a comma', 'id,mass\nA,"12,5"', ','],
    ['a semicolon, with commas in numbers', 'id;mass\nA;12,5', ';'],
    ['a tab', 'id\tmass\nA\t12.5', '\t'],
    ['a semicolon, though the header has quoted commas', '"id";"mass"\n"A";12,5', ';'],
    ['blank rows and columns before it', '\n,,\n,Id,MASS\n,A,12.5', ','],
  ])('%s', async (_name, text, delimiter) => {
    const { file, rows, faults } = await read(text);
    expect(faults).toEqual([]);
    expect(file).toEqual({ form: 'csv', delimiter });
    expect(rows).toMatchObject([[expect.any(Number), { id: 'A', mass: 12.5 }]]);
  });

  test('rows count as a spreadsheet counts them, whatever lines a cell has', async () => {
    const { rows } = await read('id,note\n\nA,"two\nlines"\nB,\n');
    expect(rows.map(([row]) => row)).toEqual([3, 4]);
  });

  test('a quote without a partner and a file of nothing say so', async () => {
    await expect(read('id,note\nA,"x')).rejects.toThrow(/no partner/);
    await expect(read('\n , \n')).rejects.toThrow(/The file is empty/);
    await expect(read(Buffer.from([0xd0, 0xcf, 0x11, 0xe0]))).rejects.toThrow(/\.xls\)/);
  });

  test('a comma in a number that is not quoted is found by the count of cells', async () => {
    const { faults } = await read('id,mass\nA,12,5');
    expect(faults).toMatchObject([{ row: 2, message: expect.stringContaining('3 cells and the header 2') }]);
  });
});

describe('names of columns', () => {
  test('stand in any order and case, with spaces for underscores', async () => {
    const { rows, faults } = await read('Fat Percent, NOTE ,Id\n12,x,A');
    expect(faults).toEqual([]);
    expect(rows).toMatchObject([[2, { id: 'A', note: 'x', fat_percent: 12 }]]);
  });

  test('unknown, missing and repeated ones are named with their places', async () => {
    const { faults } = await read('note,Colour,note\nx,red,y');
    expect(faults.map(({ address, field, message }) => [address, field, message.split(';')[0]])).toEqual([
      [undefined, 'id', 'this column is missing'],
      ['C1', 'note', 'this column stands twice'],
      ['B1', 'colour', 'unknown column'],
    ]);
  });

  test('a value in a column without a name is named', async () => {
    const { faults } = await read('id,,note\nA,5,x');
    expect(faults).toMatchObject([
      { address: 'B2', value: '5', message: expect.stringContaining('without a name') },
    ]);
  });
});

test('letters of columns', () => {
  expect([0, 25, 26, 701, 702].map(columnLetters)).toEqual(['A', 'Z', 'AA', 'ZZ', 'AAA']);
  fc.assert(fc.property(fc.nat(20_000), (column) => columnNumber(columnLetters(column)) === column));
});

describe('numbers as people write them', () => {
  test.each([
    ['12.5', '12.5'],
    ['12,5', '12.5'],
    ['1.234,56', '1234.56'],
    ['1,234.56', '1234.56'],
    ['1,234,567', '1234567'],
    ['1.234.567', '1234567'],
    ['0,123', '0.123'],
    ['1,2345', '1.2345'],
    ['1.234', '1.234'],
    ['12 lb', '12 lb'],
    ['1,23,456', '1,23,456'],
  ])('%s is %s', (written, text) => {
    expect(readNumber(written, true)).toEqual({ text });
  });

  test('what can be read in two ways is refused, with both', () => {
    expect(readNumber('1,234', true)).toEqual({
      fault: expect.stringMatching(/1234 or as 1\.234; write 1234 .* or 1,2340/),
    });
    expect(readNumber('1.234', false)).toEqual({ fault: expect.stringContaining('1234 or as 1.234') });
  });

  test('written with a decimal comma they are read as the same number', () => {
    const number = fc.double({ min: 0, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(number, (value) => {
        const line = csvLine([value], { decimal: 'comma' }).trim();
        const found = readNumber(line, false);
        expect('text' in found && Number(found.text)).toBe(value);
      }),
    );
    expect(withDecimalComma('1.234')).toBe('1,2340');
  });

  test('a percent sign counts in a column of percent, and nowhere else', async () => {
    const { rows, faults } = await read('id,fat_percent,mass\nA,27.5 %,12%');
    expect(rows).toEqual([]);
    expect(faults.map(({ address }) => address)).toEqual(['C2']);
  });
});

describe('workbooks', () => {
  test('written by another program: numbers, days, truths, texts and nothing', async () => {
    const day = new Date('2026-11-25T00:00:00Z');
    const bytes = await writeExcelFile([
      [null, null, null, null, null, null],
      [null, 'Id', 'Mass', 'Day', 'Note', 'Fat percent'],
      [null, '00123', 0.1 + 0.2, { value: day, type: Date, format: 'dd/mm/yyyy' }, true, 27.5],
      [null, ' B ', 1e-7, { value: day, type: Date, format: 'mmm d, yyyy' }, '=1+1', null],
    ]).toBuffer();
    const { file, rows, faults } = await read(bytes as Buffer);
    expect(faults).toEqual([]);
    expect(file).toEqual({ form: 'xlsx', sheet: 'Sheet1' });
    expect(rows).toEqual([
      [3, { id: '00123', mass: 0.30000000000000004, day: '2026-11-25', note: 'true', fat_percent: 27.5 }],
      [4, { id: 'B', mass: 1e-7, day: '2026-11-25', note: '=1+1', fat_percent: undefined }],
    ]);
  });

  test('the sheet that is named like the table is read, or else the first', async () => {
    const bytes = await rawWorkbook([
      { name: 'Notes', data: textRow(1, 'id') + textRow(2, 'N') },
      { name: 'LOTS', data: textRow(1, 'id') + textRow(2, 'L') },
    ]);
    expect((await readWorkbook(bytes, 'lots')).sheet).toBe('LOTS');
    expect((await readWorkbook(bytes, 'prices')).sheet).toBe('Notes');
  });

  test('formulas count by their values; errors and formulas without a value are named', async () => {
    const { rows, faults } = await read(
      await rawWorkbook([
        {
          name: 'lots',
          data: `${textRow(1, 'id', 'mass', 'note')}<row r="2">${inline('A2', 'A')}<c r="B2"><f>6*7</f><v>42</v></c><c r="C2" t="str"><f>"x"</f><v>x</v></c></row><row r="3">${inline('A3', 'B')}<c r="B3"><f>6*7</f></c><c r="C3" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>`,
        },
      ]),
    );
    expect(rows[0]).toEqual([2, expect.objectContaining({ id: 'A', mass: 42, note: 'x' })]);
    expect(faults.map(({ address, message }) => [address, message.split(';')[0]])).toEqual([
      ['B3', 'holds a formula without its value'],
      ['C3', 'holds an error of a formula'],
    ]);
  });

  test('a share that the sheet shows in percent is that percent', async () => {
    const bytes = await rawWorkbook(
      [
        {
          name: 'lots',
          data: `${textRow(1, 'id', 'fat_percent')}<row r="2">${inline('A2', 'A')}<c r="B2" s="1"><v>0.275</v></c></row><row r="3">${inline('A3', 'B')}<c r="B3" s="2"><v>0.275</v></c></row><row r="4">${inline('A4', 'C')}<c r="B4" s="3"><v>0.29</v></c></row>`,
        },
      ],
      { cellFormats: '<xf numFmtId="0"/><xf numFmtId="10"/><xf numFmtId="170"/><xf numFmtId="171"/>' },
    );
    const { rows, faults } = await read(bytes);
    expect(faults).toEqual([]);
    expect(rows.map(([, cells]) => (cells as { fat_percent: number }).fat_percent)).toEqual([
      27.5, 0.275, 29,
    ]);
  });

  // Day 46351 of the one count and day 44889 of the other (ECMA-376 part 1, 18.17.4.1) are 25 November 2026.
  test.each([
    ['', 46351],
    ['<workbookPr date1904="1"/>', 44889],
  ])('a bare number in a column of days is the day that it counts %s', async (workbookPr, serial) => {
    const data = `${textRow(1, 'id', 'day')}<row r="2">${inline('A2', 'A')}<c r="B2"><v>${serial}</v></c></row>`;
    const { rows } = await read(await rawWorkbook([{ name: 'lots', data }], { workbookPr }));
    expect(rows).toMatchObject([[2, { day: '2026-11-25' }]]);
  });

  test('a bomb is refused before it is unpacked, and so is one that lies about its size', async () => {
    const million = deflateRawSync(Buffer.alloc(200_000_000));
    expect(million.length).toBeLessThan(300_000);
    const lying = await zipOf('xl/worksheets/sheet1.xml', million, 1000);
    await expect(unzip(lying, 1_000_000, () => true)).rejects.toThrow(/too many bytes/);
    const honest = await zipOf('xl/worksheets/sheet1.xml', million, 200_000_000);
    await expect(unzip(honest, 150_000_000, () => true)).rejects.toThrow(/unpacks to more than 150 MB/);
  });

  test('a file that the directory does not list is not unpacked', async () => {
    const bytes = await rawWorkbook([{ name: 'lots', data: textRow(1, 'id') + textRow(2, 'A') }]);
    const hidden = await zipOf(
      'xl/worksheets/sheet1.xml',
      deflateRawSync(Buffer.alloc(50_000_000)),
      50_000_000,
    );
    // Local headers alone, in front of the workbook, whose offsets are put right.
    const front = hidden.subarray(0, hidden.length - 22 - 46 - 'xl/worksheets/sheet1.xml'.length);
    const shifted = Buffer.concat([front, bytes]);
    const end = shifted.length - 22;
    shifted.writeUInt32LE(shifted.readUInt32LE(end + 16) + front.length, end + 16);
    for (let at = shifted.readUInt32LE(end + 16); at < end; at += 46 + shifted.readUInt16LE(at + 28))
      shifted.writeUInt32LE(shifted.readUInt32LE(at + 42) + front.length, at + 42);
    expect((await read(shifted)).rows).toMatchObject([[2, { id: 'A' }]]);
  });

  test.each([
    ['a row far down', textRow(1, 'id') + textRow(1_000_000, 'A'), /more than 100000 rows/],
    [
      'a cell far right',
      `${textRow(1, 'id')}<row r="2">${inline('XFD2', 'A')}</row>`,
      /more than 200 columns/,
    ],
    [
      'a cell whose tag hides its place',
      `<row r="1"><c a=">" r="XFD1"><v>1</v></c></row>`,
      /200 columns|not known/,
    ],
    ['an entity for a place', '<row r="1"><c r="&#88;FD1"><v>1</v></c></row>', /not known here/],
  ])('%s does not fill the memory', async (_name, data, message) => {
    await expect(read(await rawWorkbook([{ name: 'lots', data }]))).rejects.toThrow(message);
  });

  test.each([
    ['cut off', (bytes: Buffer) => bytes.subarray(0, bytes.length / 2)],
    ['no workbook', () => storedZip(new Map([['a.txt', Buffer.from('x')]]))],
    ['spoilt in its middle', (bytes: Buffer) => Buffer.from(bytes).fill(0, 100, 2000)],
  ])('what is %s is refused with words', async (_name, spoil) => {
    const bytes = await workbookOf('lots', COLUMNS, [['A']]);
    await expect(read(await spoil(bytes))).rejects.toThrow(/workbook|Save it again/);
  });

  test('bytes that are changed anywhere give rows or words, and nothing else', async () => {
    const bytes = await workbookOf('lots', COLUMNS, [['A', 'note', 27.5, 1, '2026-11-25']]);
    await fc.assert(
      fc.asyncProperty(fc.nat(bytes.length - 1), fc.nat(255), async (at, byte) => {
        const spoilt = Buffer.from(bytes);
        spoilt[at] = byte;
        await read(spoilt).catch((error: Error) => expect(error.name).toBe('SheetError'));
      }),
      { numRuns: 150 },
    );
  });
});

/** One packed file in an archive that declares whatever size it is told. */
async function zipOf(name: string, packed: Buffer, size: number): Promise<Buffer> {
  const archive = await storedZip(new Map([[name, packed]]));
  const entry = archive.readUInt32LE(archive.length - 22 + 16);
  archive.writeUInt16LE(8, entry + 10);
  archive.writeUInt32LE(size, entry + 24);
  archive.writeUInt16LE(8, 8);
  archive.writeUInt32LE(size, 22);
  return archive;
}

describe('what is written is read as it was', () => {
  const text = fc.oneof(
    fc.constantFrom(...NASTY),
    fc
      .string({ unit: 'grapheme', minLength: 1 })
      .filter((given) => given.trim() !== '' && !given.includes('\0')),
  );

  test('as CSV, with either sign', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 5 }), fc.boolean(), (cells, isComma) => {
        const form = { decimal: isComma ? ('comma' as const) : ('point' as const) };
        const header = csvLine(
          cells.map((_, index) => `c${index}`),
          form,
        );
        const [, row] = readDelimited(header + csvLine(cells, form)).rows;
        expect(row?.cells).toEqual(cells);
      }),
    );
  });

  test('as a workbook', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(text, { minLength: 1, maxLength: 30 }), async (texts) => {
        const bytes = await workbookOf(
          'lots',
          columnsOf({ note: 'text' }),
          texts.map((one) => [one]),
        );
        const { rows } = await readWorkbook(bytes, 'lots');
        expect(rows.slice(1).map(({ cells }) => cells[0])).toEqual(texts);
      }),
      { numRuns: 40 },
    );
  });

  test('no text begins as a formula would, and no number is taken for a text', () => {
    fc.assert(
      fc.property(text, (given) => {
        const cell = readRaw(csvLine([given]));
        expect(cell).toMatch(/^(?:[^=+\-@\t\r]|-\d+(?:[.,]\d+)?$)/);
        expect(unguarded(cell)).toBe(given);
      }),
    );
    expect(csvLine([-5, '-5', '-5x', "'=x", "it's", 1e-7])).toBe(`-5,-5,'-5x,''=x,it's,0.0000001\r\n`);
  });

  test('a list of words', () => {
    fc.assert(
      fc.property(fc.array(text.filter((word) => word.trim() !== '')), (words) => {
        expect(wordsOf(textOfWords(words))).toEqual(words);
      }),
    );
    expect(wordsOf(' milk ;wheat;; ')).toEqual(['milk', 'wheat']);
    expect(wordsOf('salt\\; iodized; water')).toEqual(['salt; iodized', 'water']);
  });
});

/** The one cell of a line, without quotes. */
function readRaw(line: string): string {
  const cell = line.slice(0, -2);
  return cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell;
}

test('a text that is too long for a cell of a workbook is refused, or cut where that is said', async () => {
  const long = 'x'.repeat(40_000);
  await expect(workbookOf('lots', COLUMNS, [[long]])).rejects.toThrow(/too long for a cell/);
  const sheet = { name: 'lots', columns: COLUMNS, rows: [[long]], mayCut: true };
  const { rows } = await readWorkbook(await bytesOf(writeWorkbook([sheet])), 'lots');
  // What one cell holds, as the common programs have it.
  expect(rows[1]?.cells[0]).toHaveLength(32_767);
  expect(rows[1]?.cells[0]).toMatch(/^x+ … \[cut here/);
});
