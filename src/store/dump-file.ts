import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { promises, Readable } from 'node:stream';
import { createGunzip, createGzip } from 'node:zlib';
import { CopyRefused } from './copy-refused.ts';
import { canonicalRow } from './hash.ts';
import { type Page, summed, summing, sumsDiffer, type TableSums } from './table-sums.ts';

/**
 * A store as one file, the same from either database: lines of JSON, packed by gzip. The first line says what follows,
 * then comes one line [table, row] for each row, and the last line has the sums of the tables and the SHA-256 of every
 * line before it, each with its line end.
 */

const FORMAT = 'meatblock store';
const VERSION = 1;

/** What a copy of a store says of itself before its rows. */
export interface DumpHeader {
  /** Names of the steps that its tables have seen. */
  readonly migrations: readonly string[];
  /** Number of rows of each table, in the order in which they follow. */
  readonly tables: Readonly<Record<string, number>>;
  readonly head: { readonly length: number; readonly hash: string };
}

/** A store on its way: what it says of itself, and its rows. */
export interface Source {
  readonly header: DumpHeader;
  readonly pages: AsyncIterable<Page>;
}

const PAGE_ROWS = 500;
const PAGE_CHARACTERS = 4_000_000;

/**
 * Writes a file that is on the disk when this returns.
 * @returns the sums of the tables that were written.
 */
export async function writeDump(file: string, { header, pages }: Source): Promise<TableSums> {
  const sums = summing(Object.keys(header.tables));
  const output = createWriteStream(file, { mode: 0o600, flush: true });
  await promises.pipeline(
    Readable.from(linesOut(header, summed(pages, sums), sums.sums)),
    createGzip(),
    output,
  );
  return sums.sums();
}

async function* linesOut(
  header: DumpHeader,
  pages: AsyncIterable<Page>,
  sums: () => TableSums,
): AsyncGenerator<string> {
  const whole = createHash('sha256');
  const hashed = (text: string) => {
    whole.update(text);
    return text;
  };
  yield hashed(`${JSON.stringify({ format: FORMAT, version: VERSION, ...header })}\n`);
  for await (const { table, rows } of pages) {
    const name = JSON.stringify(table);
    yield hashed(rows.map((row) => `[${name},${canonicalRow({ ...row })}]\n`).join(''));
  }
  yield `${JSON.stringify({ end: FORMAT, tables: sums(), sha256: whole.digest('hex') })}\n`;
}

/**
 * Reads the file, and compares it with itself: a cut, damaged or edited one ends in an error, after pages that must
 * then not be used.
 * @throws CopyRefused that says what is wrong.
 */
export async function readDump(file: string): Promise<Source> {
  const lines = linesIn(file);
  try {
    const { value: first = '' } = await lines.next();
    const header = headerOf(first);
    if (header) return { header, pages: pagesIn(file, header, first, lines) };
  } catch (error) {
    await lines.return(undefined);
    throw error;
  }
  await lines.return(undefined);
  throw new CopyRefused(`${file} is no backup of this program: its first line does not say so.`);
}

/** Reads the whole file for nothing but its faults. @returns what it says of itself, and the sums of its tables. */
export async function checkDump(file: string): Promise<{ header: DumpHeader; sums: TableSums }> {
  const { header, pages } = await readDump(file);
  const sums = summing(Object.keys(header.tables));
  for await (const page of pages) sums.add(page);
  return { header, sums: sums.sums() };
}

interface Line {
  readonly text: string;
  readonly number: number;
}

async function* pagesIn(
  file: string,
  header: DumpHeader,
  first: string,
  lines: AsyncIterable<string>,
): AsyncGenerator<Page> {
  const sums = summing(Object.keys(header.tables));
  let page: { table: string; rows: object[]; characters: number } | undefined;
  for await (const { table, row, characters } of rowsIn(file, header, first, lines, sums.sums)) {
    const full = page && (page.rows.length === PAGE_ROWS || page.characters > PAGE_CHARACTERS);
    if (page && (full || page.table !== table)) {
      yield page;
      page = undefined;
    }
    page ??= { table, rows: [], characters: 0 };
    page.rows.push(row);
    page.characters += characters;
    sums.add({ table, rows: [row] });
  }
  if (page) yield page;
}

interface FoundRow {
  readonly table: string;
  readonly row: object;
  readonly characters: number;
}

/** @param sums of the rows so far, to be compared with the last line. */
async function* rowsIn(
  file: string,
  header: DumpHeader,
  first: string,
  lines: AsyncIterable<string>,
  sums: () => TableSums,
): AsyncGenerator<FoundRow> {
  const whole = createHash('sha256').update(`${first}\n`);
  let end: Trailer | undefined;
  let number = 1;
  for await (const text of lines) {
    number += 1;
    if (end) throw damaged(file, `there is more after its last line, from line ${number}`);
    const content = contentOf(file, { text, number });
    if ('end' in content) {
      end = content;
      continue;
    }
    whole.update(`${text}\n`);
    if (!Object.hasOwn(header.tables, content.table)) {
      throw damaged(file, `line ${number} is of a table ${content.table} that its first line does not name`);
    }
    yield { ...content, characters: text.length };
  }
  compareWithEnd(file, header, sums(), whole.digest('hex'), end);
}

function compareWithEnd(
  file: string,
  header: DumpHeader,
  found: TableSums,
  sha256: string,
  end: Trailer | undefined,
): void {
  if (!end) throw damaged(file, 'its last line is missing: it was cut short');
  const difference = sumsDiffer(end.tables, found);
  if (difference) throw damaged(file, difference);
  for (const [table, count] of Object.entries(header.tables)) {
    if (found[table]?.count === count) continue;
    throw damaged(
      file,
      `its first line counts ${count} rows of ${table}, but there are ${found[table]?.count}`,
    );
  }
  if (end.sha256 !== sha256) throw damaged(file, 'its lines are not those that were written');
}

interface Trailer {
  readonly end: typeof FORMAT;
  readonly tables: TableSums;
  readonly sha256: string;
}

function contentOf(file: string, { text, number }: Line): Omit<FoundRow, 'characters'> | Trailer {
  const content = parsed(text);
  if (Array.isArray(content)) {
    const [table, row] = content;
    if (typeof table === 'string' && isRow(row)) return { table, row };
  } else if (isRecord(content) && content.end === FORMAT && isRecord(content.tables)) {
    return content as unknown as Trailer;
  }
  throw damaged(file, `line ${number} cannot be read`);
}

function headerOf(text: string): DumpHeader | undefined {
  const content = parsed(text);
  if (!isRecord(content) || content.format !== FORMAT) return undefined;
  const { version, migrations, tables, head } = content;
  if (version !== VERSION) {
    throw new CopyRefused(
      `The backup has version ${version} of its format, this program reads ${VERSION}: restore it with the version that wrote it.`,
    );
  }
  if (!Array.isArray(migrations) || !isRecord(tables) || !isRecord(head)) return undefined;
  return { migrations, tables, head } as unknown as DumpHeader;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isRow(value: unknown): value is Record<string, string | number | null> {
  return (
    isRecord(value) &&
    Object.values(value).every((each) => each === null || ['string', 'number'].includes(typeof each))
  );
}

/** The lines of the file without their ends; a last line without an end counts as one. */
async function* linesIn(file: string): AsyncGenerator<string, undefined> {
  const input = createReadStream(file);
  const text = input.pipe(createGunzip()).setEncoding('utf8');
  input.on('error', (error) => text.destroy(error));
  let rest = '';
  try {
    for await (const chunk of text as AsyncIterable<string>) {
      const lines = (rest + chunk).split('\n');
      rest = lines.pop() ?? '';
      yield* lines;
    }
  } catch (error) {
    throw readingFault(file, error);
  } finally {
    input.destroy();
    text.destroy();
  }
  if (rest !== '') yield rest;
  return undefined;
}

function readingFault(file: string, error: unknown): CopyRefused {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'Z_BUF_ERROR') return damaged(file, 'it was cut short', error);
  if (code === 'Z_DATA_ERROR')
    return damaged(file, `it is no gzip file, or bytes of it were changed (${message})`, error);
  if (code === 'ENOENT') return new CopyRefused(`There is no file ${file}.`, error);
  return new CopyRefused(`${file} cannot be read (${message}).`, error);
}

function damaged(file: string, what: string, cause?: unknown): CopyRefused {
  return new CopyRefused(
    `The backup ${file} is damaged: ${what}. Nothing was restored from it. Take another backup.`,
    cause,
  );
}
