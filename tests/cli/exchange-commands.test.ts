import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { exportCommand, importCommand } from '../../src/cli/exchange-commands.ts';
import { startDemo } from '../api/running.ts';
import { clientOf, good, verifiedStop } from '../api/stock/client.ts';
import { build, ROOT } from '../built.ts';
import { meatblockIn } from './meatblock.ts';

let folder: string;
beforeAll(() => {
  build();
  folder = mkdtempSync(join(tmpdir(), 'meatblock-exchange-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const meatblock = meatblockIn(ROOT);

test('tables go out of a live store and into it while the service runs on it', async () => {
  const store = join(folder, 'plant.sqlite');
  const service = await startDemo({ storeUrl: store });
  const onStore = ['--store', store];
  const prices = join(folder, 'prices.csv');
  const exported = await meatblock('export', 'prices', prices, ...onStore, '--decimal', 'comma');
  expect(exported).toEqual({ code: 0, out: `Written: ${prices}\n`, err: '' });
  const text = readFileSync(prices, 'utf8');
  expect(text).toMatch(/^material_id;cost;cost_per\r\n/);

  writeFileSync(prices, text.replace(/^water;0;kg/m, 'water;0,01;kg'));
  const dry = await meatblock('import', 'prices', prices, ...onStore, '--dry-run');
  expect(dry).toMatchObject({ code: 0, err: '' });
  expect(dry.out).toMatch(
    /^DRY RUN, nothing written: prices, \d+ rows \(csv\)\n0 new, 1 changed, \d+ unchanged, 0 faults\n {2}row \d+ {2}changed {2}water: 0\.01 USD per kg\n$/,
  );
  const real = await meatblock('import', 'prices', prices, ...onStore, '--json');
  expect(JSON.parse(real.out)).toMatchObject({ written: true, counts: { changed: 1 } });
  const { body } = await good(clientOf(service)('GET /entries?order=newest&limit=1'));
  expect(body.items[0]).toMatchObject({ person: { name: 'meatblock' }, action: 'prices imported' });

  const wrong = join(folder, 'wrong.csv');
  writeFileSync(wrong, 'material_id,cost,cost_per\nno-such,1,lb\nsalt,-1,lb\n');
  const refused = await meatblock('import', 'prices', wrong, ...onStore);
  expect(refused).toMatchObject({ code: 3, out: '' });
  expect(refused.err).toMatch(
    /2 cells are wrong in the file; nothing was taken in\.\n.*A2, material_id, "no-such"/,
  );
  expect((await meatblock('import', 'prices', wrong, ...onStore, '--dry-run')).code).toBe(3);

  const all = join(folder, 'all.xlsx');
  expect((await meatblock('export', 'all', all, ...onStore)).code).toBe(0);
  expect((await meatblock('import', 'lots', all, ...onStore)).out).toMatch(
    /^NOTHING TO DO: lots, 26 rows \(xlsx, sheet "lots"\)/,
  );
  await verifiedStop(service);
}, 60_000);

test('what cannot be done is said, and leaves no half of a file', async () => {
  const storeUrl = join(folder, 'other.sqlite');
  await verifiedStop(await startDemo({ storeUrl }));
  const options = { storeUrl, tablesFolder: join(ROOT, 'ingredient-tables') };
  const out = (dataset: string, name: string) =>
    exportCommand(dataset, join(folder, name), { ...options, decimal: 'point' });
  const into = (dataset: string, name: string) =>
    importCommand(dataset, join(folder, name), { ...options, dryRun: false });
  await expect(out('lots', 'lots.pdf')).rejects.toThrow('write .csv or .xlsx');
  await expect(out('soup', 'soup.csv')).rejects.toThrow('There is no table "soup"');
  await expect(out('all', 'soup.csv')).rejects.toThrow('ending .xlsx');
  await expect(out('lots', 'no/such/lots.csv')).rejects.toThrow('ENOENT');
  await expect(into('soup', 'soup.csv')).rejects.toThrow('one of lots, materials, prices, products');
  await expect(into('lots', 'soup.csv')).rejects.toThrow('ENOENT');
  expect(readdirSync(folder).filter((name) => /lots|soup|part/.test(name))).toEqual([]);
  const usage = await meatblock('export', 'lots', '--store', storeUrl);
  expect([usage.code, usage.err]).toEqual([2, expect.stringContaining('name a dataset and a file')]);
}, 60_000);
