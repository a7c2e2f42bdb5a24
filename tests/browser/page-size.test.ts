import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';

const FOLDER = process.env.PAGE_FOLDER ?? fileURLToPath(new URL('../../dist/page', import.meta.url));

/** Zipped bytes: of one file, which a tablet with poor reception waits for, and of all of them together. */
const MOST_OF_ONE = 30_000;
const MOST_OF_ALL = 170_000;

const files = readdirSync(FOLDER).map((name) => {
  const bytes = readFileSync(join(FOLDER, name));
  return { name, text: bytes.toString(), zipped: gzipSync(bytes, { level: 9 }).length };
});

it('the page is light', () => {
  expect(files.length).toBeGreaterThan(8);
  expect(files.filter(({ zipped }) => zipped > MOST_OF_ONE).map(({ name }) => name)).toEqual([]);
  expect(files.reduce((sum, { zipped }) => sum + zipped, 0)).toBeLessThan(MOST_OF_ALL);
});

it('the page takes the types of the contract alone, and nothing of what checks it', () => {
  const words = ['ZodError', 'invalid_type', 'safeParse'];
  const isIn = (word: string) => files.some(({ text }) => text.includes(word));
  expect(words.filter(isIn)).toEqual([]);
});
