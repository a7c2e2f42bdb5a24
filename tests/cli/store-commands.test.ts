import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startDemo } from '../api/running.ts';
import { build, ROOT } from '../built.ts';
import { meatblockIn } from './meatblock.ts';

let folder: string;
beforeAll(() => {
  build();
  folder = mkdtempSync(join(tmpdir(), 'meatblock-store-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const meatblock = meatblockIn(ROOT);

const head = (text: string) => /Head: entry \d+, ([0-9a-f]{64})/.exec(text)?.[1] ?? '';

test('a live store is verified, backed up while the service runs, restored, moved and verified against its head', async () => {
  const store = join(folder, 'plant.sqlite');
  const service = await startDemo({ storeUrl: store });
  try {
    const verified = await meatblock('verify', '--store', store);
    expect(verified).toMatchObject({ code: 0, err: '' });
    expect(verified.out).toMatch(/plant\.sqlite: whole\. 1 entries, \d+ rows checked/);
    const file = join(folder, 'backup.gz');
    const backedUp = await meatblock('backup', file, '--store', store);
    expect(backedUp).toMatchObject({ code: 0, err: '' });
    expect(backedUp.out).toMatch(/lots +26 /);
    const twice = await meatblock('backup', file, '--store', store);
    expect(twice.code).toBe(3);
    expect(twice.err).toContain('There is a file');

    const restored = join(folder, 'restored.sqlite');
    expect((await meatblock('restore', file, '--store', restored)).code).toBe(0);
    const again = await meatblock('restore', file, '--store', restored);
    expect(again.code).toBe(3);
    const moved = join(folder, 'moved.sqlite');
    expect((await meatblock('move', moved, '--store', restored)).code).toBe(0);
    const anchored = await meatblock('verify', '--store', moved, '--head', head(verified.out));
    expect(anchored).toMatchObject({ code: 0, err: '' });
    const other = await meatblock('verify', '--store', moved, '--head', 'f'.repeat(64), '--json');
    expect(other.code).toBe(5);
    expect(JSON.parse(other.out).findings).toHaveLength(1);
    expect((await meatblock('verify', '--store', moved, '--head', 'soup')).code).toBe(3);

    const bytes = readFileSync(file);
    bytes[Math.floor(bytes.length / 2)] = (bytes[Math.floor(bytes.length / 2)] ?? 0) ^ 0xff;
    writeFileSync(join(folder, 'spoilt.gz'), bytes);
    const spoilt = await meatblock(
      'restore',
      join(folder, 'spoilt.gz'),
      '--store',
      join(folder, 'new.sqlite'),
    );
    expect(spoilt.code).toBe(3);
    expect(spoilt.err).not.toContain('at ');
  } finally {
    await service.stop();
  }
});

test('the terminal works on what is free in the live store', async () => {
  const store = join(folder, 'live.sqlite');
  const service = await startDemo({ storeUrl: store });
  try {
    const planned = await fetch(`${service.address}/v1/batches`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        product: 'ground-beef-80-20',
        batchSize: { total: { value: 500, unit: 'lb' } },
      }),
    });
    const { lines } = (await planned.json()) as { lines: { lotId: string; perLoad: { value: string } }[] };
    const taken = lines[0]?.lotId ?? '';
    const ask = join(folder, 'ask.json');
    writeFileSync(
      ask,
      JSON.stringify({ product: 'ground-beef-80-20', batchSize: { total: { value: 800, unit: 'lb' } } }),
    );
    const blendFrom = async (...args: string[]) => {
      const { out } = await meatblock('blend', ask, ...args);
      const blend = JSON.parse(out) as { lines: { lotId: string; mass: { lb: number } }[] };
      return blend.lines.find(({ lotId }) => lotId === taken)?.mass.lb ?? 0;
    };
    const [files, live] = await Promise.all([blendFrom(), blendFrom('--store', store)]);
    expect(files).toBeGreaterThan(live);
  } finally {
    await service.stop();
  }
});

test('a store that is not there, an operand that is missing and a person nobody knows are said in words', async () => {
  const nowhere = join(folder, 'nothing.sqlite');
  for (const command of [['verify'], ['reset-password', 'Ana'], ['products']]) {
    const nothing = await meatblock(...command, '--store', nowhere);
    expect(nothing.code, command[0]).toBe(3);
    expect(nothing.err, command[0]).toContain(`There is no store ${nowhere}`);
  }
  expect(existsSync(nowhere)).toBe(false);
  expect((await meatblock('backup', '--store', join(folder, 'plant.sqlite'))).code).toBe(2);
  expect((await meatblock('move', '--store', join(folder, 'plant.sqlite'))).code).toBe(2);
  const nobody = await meatblock('reset-password', 'Nobody', '--store', join(folder, 'plant.sqlite'));
  expect(nobody.code).toBe(3);
  expect(nobody.err).toContain('nobody called "Nobody"');
});
