import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { printCommand } from '../../../src/cli/print-command.ts';
import { backup, restore } from '../../../src/store/copy.ts';
import { ROOT } from '../../built.ts';
import { lb, type Mixer, mixerAt } from '../batches/mixer.ts';
import { demoProduct, type Json, send, startDemo } from '../running.ts';
import { type Ask, clientOf, good, verifiedStop } from '../stock/client.ts';

/** What a closed batch printed it prints for as long as it is kept, whatever became of the plant since. */

let folder: string;
let store: string;
let service: Service;
let ask: Ask;
let id: string;
let before: Buffer[];

const SETTINGS = { paper: 'letter', language: 'en' } as const;
const papers = () => [
  `/batches/${id}/sheet?paper=${SETTINGS.paper}&language=${SETTINGS.language}&cost=true`,
  `/batches/${id}/label?paper=${SETTINGS.paper}`,
  `/lots/${id}-P1/label`,
  `/lots/${id}-P2/label?net=1.238&part=back&stock=roll-102x127`,
];

async function printed(): Promise<Buffer[]> {
  const all: Buffer[] = [];
  for (const path of papers()) {
    const headers = { accept: 'application/pdf' };
    const { status, bytes, text } = await send(service.address, {
      method: 'GET',
      path: `/v1${path}`,
      headers,
    });
    expect(status, text.slice(0, 300)).toBe(200);
    all.push(bytes);
  }
  return all;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'meatblock-years-'));
  store = join(folder, 'plant.sqlite');
  service = await startDemo({ storeUrl: store });
  ask = clientOf(service);
  const mixer: Mixer = mixerAt(service.address);
  id = (await mixer.weighed('ground-beef-80-20', 100)).id;
  const output = { weight: lb('99.5'), useByDate: '2026-12-09' };
  await mixer.done(`/batches/${id}/finish`, { output });
  const packs = [
    { count: 20, format: 'brick-1-lb' },
    { count: 10, format: 'tray', filled: lb('12.55') },
  ];
  await mixer.done(`/batches/${id}/packs`, { packs });
  await mixer.done(`/batches/${id}/closing`, {});
  before = await printed();
}, 60_000);
afterAll(async () => {
  await verifiedStop(service);
  rmSync(folder, { recursive: true });
});

describe('sheet, declaration and labels of a closed batch are the same bytes', () => {
  test('after product, plant and prices were changed', async () => {
    const product = demoProduct('ground-beef-80-20');
    product.name = 'Chuck, ground';
    product.label.storage = 'keep frozen';
    product.label.packs = [{ id: 'brick-1-lb', netWeight: { value: '2', unit: 'lb' } }];
    await good(ask('PUT /products/ground-beef-80-20', { body: product, ifMatch: '*' }));
    const { body } = await good(ask('GET /plant'));
    const settings = {
      ...body.settings,
      name: 'Another Demo Plant',
      address: ['9 Moved Street', 'Newtown, ZZ 00001'],
      printing: { paper: 'a4', language: 'es', labelStock: 'roll-58x40' },
    };
    await good(ask('PUT /plant', { body: settings, ifMatch: '*' }));
    const { body: prices } = await good(ask('GET /prices'));
    for (const { materialId } of prices.items as Json[]) {
      await good(ask(`PUT /prices/${materialId}`, { body: { cost: { amount: 99, per: 'lb' } } }));
    }
    same(await printed());
    // New batches are of the plant as it is now.
    const { body: next } = await good(
      ask('POST /batches', {
        body: { product: 'ground-beef-80-20', batchSize: { total: { value: 50, unit: 'lb' } } },
      }),
    );
    const { body: sheet } = await good(ask(`GET /batches/${next.id}/sheet`));
    expect([sheet.plant.name, sheet.product.name]).toEqual(['Another Demo Plant', 'Chuck, ground']);
  });

  test('after a backup was restored beside other ingredient tables, from the terminal', async () => {
    const [file, restored] = [join(folder, 'plant.gz'), join(folder, 'restored.sqlite')];
    await backup(store, file);
    await restore(file, restored);
    const tablesFolder = join(folder, 'tables');
    cpSync(join(ROOT, 'ingredient-tables'), tablesFolder, { recursive: true });
    const trims = join(tablesFolder, 'materials/trims.csv');
    const table = readFileSync(trims, 'utf8');
    const renamed = table.replaceAll('Beef trim', 'Beef cuts');
    expect(renamed).not.toBe(table);
    writeFileSync(trims, renamed);
    const print = (what: string, of: string, query: Record<string, string>) =>
      printCommand(what, of, { storeUrl: restored, tablesFolder, query, form: 'pdf' });
    same([
      await print('sheet', id, { ...SETTINGS, cost: 'true' }),
      await print('label', id, { paper: SETTINGS.paper }),
      await print('pack-label', `${id}-P1`, {}),
      await print('pack-label', `${id}-P2`, { net: '1.238', part: 'back', stock: 'roll-102x127' }),
    ]);
  });
});

function same(now: readonly (Uint8Array | string)[]): void {
  expect(now.length).toBe(before.length);
  for (const [at, bytes] of now.entries()) {
    expect(Buffer.from(bytes).equals(before[at] as Buffer), `paper ${at} differs`).toBe(true);
  }
}
