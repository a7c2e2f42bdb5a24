import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { writeWhole, writeWholeInPieces } from '../../src/cli/whole-file.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'meatblock-whole-'));
  file = join(folder, 'out.csv');
});
afterEach(() => rmSync(folder, { recursive: true }));

async function* pieces(...all: (string | Uint8Array | Error)[]): AsyncGenerator<string | Uint8Array> {
  for (const piece of all) {
    if (piece instanceof Error) throw piece;
    yield piece;
  }
}

test('what comes in pieces is written in their order, and its bytes are counted', async () => {
  const large = new Uint8Array(3_000_000).fill(65);
  const count = await writeWholeInPieces(file, pieces('Würste\n', large, '', 'end'));
  expect(readFileSync(file)).toEqual(Buffer.concat([Buffer.from('Würste\n'), large, Buffer.from('end')]));
  expect([count, readdirSync(folder)]).toEqual([3_000_000 + 8 + 3, ['out.csv']]);
});

test('an older file is there until the new one is whole', async () => {
  writeFileSync(file, 'old');
  const seen: string[] = [];
  const watched = async function* () {
    yield 'ne';
    seen.push(readFileSync(file, 'utf8'));
    yield 'w';
    seen.push(readFileSync(file, 'utf8'));
  };
  await writeWholeInPieces(file, watched());
  expect([seen, readFileSync(file, 'utf8')]).toEqual([['old', 'old'], 'new']);
  await writeWhole(file, Buffer.from('newer'));
  expect(readFileSync(file, 'utf8')).toBe('newer');
});

test('what cannot be made leaves the older file, nothing half-written, and its own fault', async () => {
  writeFileSync(file, 'old');
  // A fault of another file, such as the store, is not one of this file.
  const fault = Object.assign(new Error('the store is gone'), { code: 'EIO', syscall: 'read' });
  await expect(writeWholeInPieces(file, pieces('half', fault))).rejects.toBe(fault);
  expect([readFileSync(file, 'utf8'), readdirSync(folder)]).toEqual(['old', ['out.csv']]);
  const fresh = join(folder, 'fresh.csv');
  await expect(writeWholeInPieces(fresh, pieces(fault))).rejects.toBe(fault);
  expect(existsSync(fresh)).toBe(false);
});

test('a place that cannot be written is named as it was given', async () => {
  const nowhere = join(folder, 'no', 'such', 'out.pdf');
  await expect(writeWhole(nowhere, Buffer.from('x'))).rejects.toMatchObject({
    message: `${nowhere} cannot be written (ENOENT).`,
    code: 'ENOENT',
  });
  mkdirSync(file);
  await expect(writeWhole(file, Buffer.from('x'))).rejects.toThrow(`${file} cannot be written (EISDIR).`);
  expect(readdirSync(folder)).toEqual(['out.csv']);
});

test('what another writer has begun is neither written over nor taken away', async () => {
  const part = `${file}.${process.pid}.part`;
  writeFileSync(part, 'begun');
  await expect(writeWhole(file, Buffer.from('x'))).rejects.toThrow('(EEXIST)');
  expect([readFileSync(part, 'utf8'), existsSync(file)]).toEqual(['begun', false]);
});
