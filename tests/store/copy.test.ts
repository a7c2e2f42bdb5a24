import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backup, move, restore } from '../../src/store/copy.ts';
import { CopyRefused } from '../../src/store/copy-refused.ts';
import { checkDump } from '../../src/store/dump-file.ts';
import { book, editLot, findLot, openLot } from '../../src/store/lots.ts';
import { snapshot } from '../../src/store/snapshot.ts';
import { openStore, type Store } from '../../src/store/store.ts';
import type { StoreUrl } from '../../src/store/store-url.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { newPostgresUrl, newSqliteUrl, onEachDatabase, postgresIsHere } from './databases.ts';
import { act, fillSmallPlant, receiveLot, statements, tamper } from './small-plant.ts';

const folder = mkdtempSync(join(tmpdir(), 'meatblock-copies-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let files = 0;
function newFile(): string {
  files += 1;
  return join(folder, `backup-${files}.gz`);
}

async function storeWith(url: StoreUrl, fill: (store: Store) => Promise<void>): Promise<StoreUrl> {
  const store = await openStore(url);
  await fill(store);
  await store.close();
  return url;
}

/** Writes lots one after the other, as requests would. @returns what ends it and tells how many were written. */
function keepWriting(store: Store, name: string): () => Promise<number> {
  let going = true;
  const written = (async () => {
    let count = 0;
    for (; going && count < 2_000; count += 1) {
      await receiveLot(store, `${name} ${count}`);
      await setTimeout(2);
    }
    return count;
  })();
  return () => {
    going = false;
    return written;
  };
}

async function refusal(copying: Promise<unknown>): Promise<string> {
  const error = await copying.then(
    () => undefined,
    (reason) => reason,
  );
  expect(error).toBeInstanceOf(CopyRefused);
  return (error as Error).message;
}

const countLots = (url: StoreUrl) =>
  snapshot(url, async (db) => (await db.selectFrom('lots').select('id').execute()).length);

onEachDatabase((newStoreUrl, dialect) => {
  let url: StoreUrl;
  beforeAll(async () => {
    url = await storeWith(await newStoreUrl(), fillSmallPlant);
  });

  it('goes to a file and back, and works on', async () => {
    const file = newFile();
    const saved = await backup(url, file);
    expect(saved.verdict.findings).toEqual([]);
    expect(saved.head.length).toBe(7);
    expect(statSync(file).mode & 0o077).toBe(0);
    expect(existsSync(`${file}.partial`)).toBe(false);
    const target = await newStoreUrl();
    const restored = await restore(file, target, { expectHead: saved.head.hash });
    expect(restored.tables).toEqual(saved.tables);
    expect(restored.tables.movements?.count).toBe(8);
    await storeWith(target, (store) => receiveLot(store, 'after'));
    expect((await snapshot(target, (db) => verifyStore(db))).findings).toEqual([]);
    await expect(snapshot(target, (db) => db.selectFrom('sessions').selectAll().execute())).resolves.toEqual(
      [],
    );
  });

  it('goes into a store that was opened but not used', async () => {
    const file = newFile();
    const { tables } = await backup(url, file);
    const target = await storeWith(await newStoreUrl(), async () => {});
    expect((await restore(file, target)).tables).toEqual(tables);
  });

  it('is refused by a store that has something in it, which stays as it is', async () => {
    const file = newFile();
    await backup(url, file);
    const target = await storeWith(await newStoreUrl(), (store) => receiveLot(store, 'mine'));
    expect(await refusal(restore(file, target))).toMatch(
      /is not empty: there are rows in entries\. Give a new file/,
    );
    expect(await refusal(move(url, target))).toMatch(/is not empty/);
    expect(await refusal(move(url, url))).toMatch(/is not empty/);
    expect(await countLots(target)).toBe(1);
  });

  it('is taken while writers are busy, as it was at one moment', async () => {
    const busy = await openStore(await newStoreUrl());
    for (let number = 0; number < 30; number += 1) await receiveLot(busy, `before ${number}`);
    const writers = [1, 2].map((writer) => keepWriting(busy, `writer ${writer} lot`));
    const file = newFile();
    const saved = await backup(busy.url, file);
    const counts = await Promise.all(writers.map((stop) => stop()));
    const written = counts.reduce((sum, count) => sum + count, 30);
    await busy.close();
    expect(saved.verdict.findings).toEqual([]);
    expect(saved.tables.lots?.count).toBe(saved.head.length);
    expect(saved.head.length).toBeLessThan(written);
    expect((await restore(file, await newStoreUrl())).verdict.head).toEqual(saved.head);
  });

  it('of a store with a fault is made, told of, and restored only when that is wanted', async () => {
    const faulty = await storeWith(await newStoreUrl(), fillSmallPlant);
    await tamper(faulty, statements("update lots set on_hand_ug = 1 where id = 'B'"));
    const file = newFile();
    expect((await backup(faulty, file)).verdict.findingsCount).toBe(1);
    const target = await newStoreUrl();
    expect(await refusal(restore(file, target))).toMatch(
      /does not hold together \(1 findings\): Lot B says 1 µg/,
    );
    if (dialect === 'SQLite')
      expect(readdirSync(join(target, '..')).join()).not.toContain(target.split('/').at(-1));
    const { verdict } = await restore(file, target, { despiteFindings: true });
    expect(verdict.findingsCount).toBe(1);
  });

  it('misses a head that was written down when entries were cut off', async () => {
    const file = newFile();
    await backup(url, file);
    expect(await refusal(restore(file, await newStoreUrl(), { expectHead: 'ab'.repeat(32) }))).toMatch(
      /No entry has the hash abab/,
    );
  });
});

describe.skipIf(!postgresIsHere)('between the databases', () => {
  it('a store goes from SQLite to PostgreSQL and back without a difference', async () => {
    const first = await storeWith(await newSqliteUrl(), fillSmallPlant);
    const there = await newPostgresUrl();
    const moved = await move(first, there);
    const back = await newSqliteUrl();
    const returned = await move(there, back);
    expect(moved.verdict.findings).toEqual([]);
    expect(returned.tables).toEqual(moved.tables);
    expect(await backup(first, newFile())).toMatchObject({ tables: returned.tables, head: returned.head });
    await storeWith(there, (store) => receiveLot(store, 'after'));
    expect((await snapshot(there, (db) => verifyStore(db))).findings).toEqual([]);
  });

  it('is refused while someone writes, and leaves nothing behind', async () => {
    const from = await openStore(await newSqliteUrl());
    for (let number = 0; number < 300; number += 1) await receiveLot(from, `L${number}`);
    const to = await newPostgresUrl();
    const stop = keepWriting(from, 'meanwhile');
    expect(await refusal(move(from.url, to)).finally(stop)).toMatch(/was written to while it was moved/);
    await from.close();
    await expect(countLots(to)).rejects.toMatchObject({ kind: 'unprepared' });
  });

  const LOT_IDS = ['A', 'a', 'Ä', 'b-1', 'ß/ü', '10', '9', '牛肉', "o'clock", ' '];
  interface Deed {
    readonly lotId: string;
    readonly massUg: number;
    readonly takes: boolean;
    readonly note: string;
  }
  const deed: fc.Arbitrary<Deed> = fc.record({
    lotId: fc.constantFrom(...LOT_IDS),
    massUg: fc.oneof(fc.integer({ min: 0, max: 10_000 }), fc.integer({ min: 0, max: 4_000_000_000_000 })),
    takes: fc.boolean(),
    note: fc.oneof(fc.string(), fc.string({ unit: 'grapheme' })),
  });

  it('any ledger goes from SQLite to PostgreSQL, to a file and back', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { maxLength: 40 }), async (deeds) => {
        const first = await storeWith(await newSqliteUrl(), async (store) => {
          for (const one of deeds) await doDeed(store, one);
        });
        const there = await newPostgresUrl();
        const moved = await move(first, there);
        const file = newFile();
        const saved = await backup(there, file);
        const restored = await restore(file, await newSqliteUrl());
        expect(moved.verdict.findings).toEqual([]);
        expect(saved.tables).toEqual(moved.tables);
        expect(restored.tables).toEqual(moved.tables);
      }),
      { numRuns: 4 },
    );
  });

  async function doDeed(store: Store, { lotId, massUg, takes, note }: Deed): Promise<void> {
    await store.write(act('lot', lotId), async (writing) => {
      const lot = await findLot(writing.db, lotId);
      const body = { note };
      if (lot) await editLot(writing, lotId, { body, held: takes });
      else
        await openLot(writing, { id: lotId, kind: 'material', ofId: 'm', body, receivedDay: '2026-03-02' });
      const there = lot?.onHandUg ?? 0;
      const taken = takes ? Math.min(massUg, there) : 0;
      const booked = taken > 0 ? -taken : massUg + 1;
      await book(writing, {
        lotId,
        kind: 'adjusted',
        massUg: booked,
        reservedUg: 0,
        reason: 'counted',
        details: body,
      });
      return { says: JSON.stringify(note), result: null };
    });
  }
});

describe('a backup that is not whole', () => {
  let file: string;
  let bytes: Buffer;
  let lines: string[];
  beforeAll(async () => {
    const url = await storeWith(await newSqliteUrl(), fillSmallPlant);
    file = newFile();
    await backup(url, file);
    bytes = readFileSync(file);
    lines = gunzipSync(bytes).toString('utf8').trimEnd().split('\n');
  });

  const packed = (all: readonly string[]) => gzipSync(`${all.join('\n')}\n`);
  const isMovement = (line: string) => line.startsWith('["movements"');

  const DAMAGES: readonly (readonly [what: string, spoil: () => Buffer, says: RegExp])[] = [
    ['cut in the middle', () => bytes.subarray(0, bytes.length / 2), /is damaged: it was cut short/],
    ['cut by its last byte', () => bytes.subarray(0, -1), /is damaged: it was cut short/],
    ['empty', () => Buffer.alloc(0), /is damaged: it was cut short|is no backup of this program/],
    ['another file', () => Buffer.from('id,name\n1,beef\n'), /is damaged: it is no gzip file/],
    ['another gzip file', () => gzipSync('{"a":1}\n'), /is no backup of this program: its first line/],
    ['a byte changed', () => withByte(bytes, bytes.length >> 1), /is damaged/],
    ['without its last line', () => packed(lines.slice(0, -1)), /its last line is missing: it was cut short/],
    [
      'without one row',
      () => packed(lines.filter((line) => line !== lines.find(isMovement))),
      /table movements has 7 rows where 8 are expected/,
    ],
    [
      'with a row twice',
      () => packed(lines.flatMap((line) => (line === lines.find(isMovement) ? [line, line] : [line]))),
      /table movements has 9 rows where 8 are expected/,
    ],
    [
      'with a row edited',
      () => packed(lines.map((line) => (isMovement(line) ? line.replace('"ana"', '"tomas"') : line))),
      /rows of table movements were changed/,
    ],
    [
      'with its first line edited',
      () =>
        packed(lines.map((line, index) => (index === 0 ? line.replace('"length":7', '"length":6') : line))),
      /its lines are not those that were written/,
    ],
    [
      'with two rows exchanged',
      () => packed(exchanged(lines, isMovement)),
      /its lines are not those that were/,
    ],
    [
      'with a line broken',
      () => packed(lines.map((line) => (isMovement(line) ? 'x' : line))),
      /line \d+ cannot be read/,
    ],
    [
      'with something behind its end',
      () => packed([...lines, lines.find(isMovement) ?? '']),
      /more after its last line/,
    ],
    [
      'of a later format',
      () => packed(lines.map((line) => line.replace('"version":1,"mig', '"version":2,"mig'))),
      /has version 2 of its format, this program reads 1/,
    ],
  ];

  it.each(DAMAGES)('%s is refused, and no store is made', async (_, spoil, says) => {
    const spoiled = newFile();
    writeFileSync(spoiled, spoil());
    const target = await newSqliteUrl();
    expect(await refusal(restore(spoiled, target))).toMatch(says);
    expect(existsSync(target)).toBe(false);
  });

  it('reads as it was when it is whole', async () => {
    expect((await checkDump(file)).header.head.length).toBe(7);
  });

  it('that is not there is named', async () => {
    expect(await refusal(restore(join(folder, 'none.gz'), await newSqliteUrl()))).toMatch(
      /There is no file .*none\.gz/,
    );
  });

  it('of a newer version is refused', async () => {
    const url = await storeWith(await newSqliteUrl(), fillSmallPlant);
    const newer = newFile();
    await backup(url, newer);
    await tamper(url, statements("insert into kysely_migration values ('9999-later', '2030-01-01')"));
    await expect(backup(url, newFile())).rejects.toMatchObject({ kind: 'newer' });
  });

  it('never takes the name of one that is there', async () => {
    const url = await storeWith(await newSqliteUrl(), fillSmallPlant);
    const taken = newFile();
    copyFileSync(file, taken);
    expect(await refusal(backup(url, taken))).toMatch(
      /There is a file .* already; give each backup a name of its own/,
    );
    expect(readFileSync(taken)).toEqual(bytes);
  });

  it('says why a file cannot be written', async () => {
    const url = await storeWith(await newSqliteUrl(), fillSmallPlant);
    expect(await refusal(backup(url, join(folder, 'no such folder', 'a.gz')))).toMatch(
      /The backup .* cannot be written: ENOENT.*The store is untouched/,
    );
  });
});

function withByte(bytes: Buffer, at: number): Buffer {
  const copy = Buffer.from(bytes);
  copy[at] = (copy[at] ?? 0) ^ 0xff;
  return copy;
}

function exchanged(lines: readonly string[], matches: (line: string) => boolean): string[] {
  const at = lines.findIndex(matches);
  const copy = [...lines];
  copy.splice(at, 2, lines[at + 1] ?? '', lines[at] ?? '');
  return copy;
}
