import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { PRINTED_DOCUMENTS, type PrintOptions, printCommand } from '../../src/cli/print-command.ts';
import { lb, mixerAt } from '../api/batches/mixer.ts';
import { send, startDemo } from '../api/running.ts';
import { clientOf, good, verifiedStop } from '../api/stock/client.ts';
import { build, ROOT } from '../built.ts';
import { meatblockIn } from './meatblock.ts';

/** Everything that the books hold comes out of a terminal as the service gives it, while it runs. */

let folder: string;
let storeUrl: string;
let service: Service;
let batch: string;
let drill: string;

beforeAll(async () => {
  build();
  folder = mkdtempSync(join(tmpdir(), 'meatblock-print-'));
  storeUrl = join(folder, 'plant.sqlite');
  service = await startDemo({ storeUrl });
  const [mixer, ask] = [mixerAt(service.address), clientOf(service)];
  batch = (await mixer.weighed('ground-beef-80-20', 100)).id;
  await mixer.done(`/batches/${batch}/finish`, {
    output: { weight: lb('99.5'), useByDate: '2026-12-09' },
  });
  const packs = [{ count: 10, format: 'tray', filled: lb('12.55') }];
  await mixer.done(`/batches/${batch}/packs`, { packs });
  const body = { lotId: batch, reason: 'yearly drill' };
  drill = (await good(ask('POST /recall-drills', { body }))).body.id;
}, 60_000);
afterAll(async () => {
  await verifiedStop(service);
  rmSync(folder, { recursive: true });
});

const days = { fromDay: '2026-11-20', toDay: '2026-11-25' };
const print = (what: string, id?: string, query = {}, form: PrintOptions['form'] = 'pdf') =>
  printCommand(what, id, { storeUrl, tablesFolder: join(ROOT, 'ingredient-tables'), query, form });

/** Each document with its id, its query and where the service has it. */
const DOCUMENTS = (): [
  what: string,
  id: string | undefined,
  query: Record<string, string>,
  path: string,
][] => [
  ['sheet', batch, { paper: 'a4', language: 'es', cost: 'true' }, `/batches/${batch}/sheet`],
  ['label', batch, { paper: 'a4' }, `/batches/${batch}/label`],
  [
    'pack-label',
    `${batch}-P1`,
    { net: '1.238', part: 'front', stock: 'roll-76x51' },
    `/lots/${batch}-P1/label`,
  ],
  ['grinding-log', undefined, days, '/logs/grinding'],
  ['fat-test-log', undefined, days, '/logs/fat-tests'],
  ['restricted-ingredient-log', undefined, days, '/logs/restricted-ingredients'],
  ['cleaning-log', undefined, days, '/logs/cleanings'],
  ['recall-drill', drill, { paper: 'letter' }, `/recall-drills/${drill}`],
  ['cost-report', undefined, days, '/reports/costs'],
];

test('each document is the one that the service prints, byte for byte', async () => {
  expect(DOCUMENTS().map(([what]) => what)).toEqual(PRINTED_DOCUMENTS);
  for (const [what, id, query, path] of DOCUMENTS()) {
    const { status, bytes } = await send(service.address, {
      method: 'GET',
      path: `/v1${path}?${new URLSearchParams(query)}`,
      headers: { accept: 'application/pdf' },
    });
    expect(status, what).toBe(200);
    const printed = await print(what, id, query);
    expect(Buffer.from(printed).equals(bytes), what).toBe(true);
    const { pdf: _, ...text } = { pdf: 0, ...query };
    expect(String(await print(what, id, text, 'text')).length, what).toBeGreaterThan(40);
    expect(JSON.parse(String(await print(what, id, text, 'json'))), what).toBeTypeOf('object');
  }
});

describe('what cannot be printed is refused in words', () => {
  test.each([
    ['another document', 'invoice', undefined, {}, '"invoice" cannot be printed; write one of sheet, label'],
    ['a batch that is not named', 'sheet', undefined, {}, 'Say which sheet to print, by its id.'],
    ['a batch that is not there', 'sheet', 'nope', {}, 'There is no batch "nope".'],
    ['a log of one batch', 'grinding-log', 'nope', {}, 'A grinding-log has no id'],
    ['days of a sheet', 'sheet', 'nope', { fromDay: '2026-11-25' }, '--from is not for a sheet.'],
    ['label paper of a log', 'cleaning-log', undefined, { stock: 'roll-76x51' }, '--stock is not for a'],
    ['a lot that is no packs', 'pack-label', 'B85-1119', {}, 'is no packs'],
  ])('%s', async (_, what, id, query, words) => {
    await expect(print(what, id, query)).rejects.toThrow(words);
  });

  test('a value that is wrong is named by its option', async () => {
    const wrong = print('cost-report', undefined, { fromDay: 'Monday', paper: 'a3' });
    await expect(wrong).rejects.toMatchObject({
      errors: [{ pointer: '--from' }, { pointer: '--paper' }],
    });
  });
});

test('the terminal writes a PDF whole and prints a text, and changes nothing in the books', async () => {
  const meatblock = meatblockIn(ROOT);
  const entries = async () =>
    (await send(service.address, { method: 'GET', path: '/v1/entries?order=newest&limit=1' })).text;
  const before = await entries();
  const out = join(folder, 'drill.pdf');
  expect(await meatblock('print', 'recall-drill', drill, '--store', storeUrl, '--pdf', out)).toEqual({
    code: 0,
    out: `Written: ${out}\n`,
    err: '',
  });
  expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
  const log = await meatblock('print', 'grinding-log', '--store', storeUrl, '--from', '2026-11-25');
  expect([log.code, log.out.split('\r\n')[1]?.split(',').slice(0, 3)]).toEqual([
    0,
    ['1', batch, 'Ground beef 80/20'],
  ]);
  const small = await meatblock(
    ...['print', 'pack-label', `${batch}-P1`, '--net', '1.238', '--stock', 'roll-58x40'],
    ...['--store', storeUrl, '--pdf', join(folder, 'none.pdf')],
  );
  expect([small.code, small.err]).toEqual([3, expect.stringContaining('In two labels: part front fits on')]);
  const misplaced = await meatblock('products', '--from', '2026-11-25');
  expect([misplaced.code, misplaced.err]).toEqual([2, expect.stringContaining('--from is for print')]);
  const noPdf = await meatblock('print', 'sheet', batch, '--store', storeUrl, '--paper', 'a4');
  expect([noPdf.code, noPdf.err]).toEqual([2, expect.stringContaining('--paper is for a PDF')]);
  const absent = await meatblock('print', 'cost-report', '--store', join(folder, 'other.sqlite'));
  expect([absent.code, absent.err]).toEqual([3, expect.stringContaining('There is no store')]);
  expect(await entries()).toBe(before);
  expect(readdirSync(folder).filter((name) => name.endsWith('.part') || name === 'none.pdf')).toEqual([]);
}, 30_000);
