import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { EXPORTED, exportContent } from '../../../src/api/exchange/export.ts';
import type { Service } from '../../../src/api/service.ts';
import { addPerson } from '../../../src/store/people.ts';
import { readDelimited } from '../../../src/tables/sheets/delimited.ts';
import { readWorkbook } from '../../../src/tables/sheets/read-workbook.ts';
import { type Floor, floorOf, GROUND_BEEF, weighedBatch } from '../records/made.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { askAs, clientOf, good, verifiedStop } from '../stock/client.ts';
import { fetchTable, sendFile, XLSX } from './empty-plant.ts';

let service: Service;
let floor: Floor;
let batchId: string;
beforeAll(async () => {
  service = await startDemo();
  const ask = clientOf(service);
  floor = await floorOf(service, '2026-11-25T15:00:00.000Z');
  batchId = await weighedBatch(floor, GROUND_BEEF);
  await good(
    ask('POST /lots/B50-1118/movements', {
      body: { kind: 'shipped', mass: lb(12.5), to: '=cmd|x', document: '-1+1' },
    }),
  );
  await good(ask('POST /lots/B50-1118/tests', { body: { fatFraction: 0.5123, method: '@NIR' } }));
  await good(
    ask('POST /cleanings', {
      body: { equipment: ['Grinder 1'], what: 'cleaned and sanitized', note: '=1+1' },
    }),
  );
});
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

/** A table by the names of its columns. */
function rowsOf(text: string): Record<string, string>[] {
  const [header, ...rows] = readDelimited(text).rows;
  return rows
    .map(({ cells }) =>
      Object.fromEntries((header?.cells ?? []).map((name, index) => [name, cells[index] ?? ''])),
    )
    .filter((row) => Object.values(row).some((cell) => cell !== ''));
}
const table = async (name: string) => rowsOf((await fetchTable(service, name)).text);

describe('tables of what was done', () => {
  test('movements, shipments and fat tests as they stand in the books', async () => {
    const movements = await table('movements');
    const { total } = (await good(clientOf(service)('GET /lots?limit=1'))).body;
    expect(movements.length).toBeGreaterThan(total);
    const [shipped] = (await table('shipments')).filter(({ lot_id }) => lot_id === 'B50-1118');
    expect(shipped).toMatchObject({
      kind: 'shipped',
      mass_kg: '5.669904625',
      to: '=cmd|x',
      document: '-1+1',
    });
    const test = (await table('fat-tests')).at(-1);
    expect(test).toMatchObject({ lot_id: 'B50-1118', fat_percent: '51.23', method: '@NIR', withdrawn: '' });
  });

  test('batches with their weights, and each weighing', async () => {
    const [batch] = await table('batches');
    expect(batch).toMatchObject({ batch_id: batchId, product_id: 'ground-beef-80-20', currency: 'USD' });
    const weighings = await table('weighings');
    const weighed = weighings.reduce((sum, { mass_kg }) => sum + Number(mass_kg), 0);
    expect(weighed).toBeCloseTo(Number(batch?.weighed_kg), 6);
    expect(Number(batch?.planned_kg)).toBeCloseTo(weighed, 1);
    expect(weighings.every(({ batch_id }) => batch_id === batchId)).toBe(true);
  });

  test('cleanings, records, entries and house rules', async () => {
    expect(await table('cleanings')).toMatchObject([{ equipment: 'Grinder 1', note: '=1+1' }]);
    const records = await table('records');
    expect(JSON.parse(records.at(-1)?.body ?? '{}')).toMatchObject({ equipment: ['Grinder 1'] });
    const entries = await table('entries');
    expect(entries.map(({ seq }) => Number(seq))).toEqual(entries.map((_, index) => index + 1));
    expect(entries.slice(1).every(({ previous_hash }, index) => previous_hash === entries[index]?.hash)).toBe(
      true,
    );
    const rules: Json = (await good(clientOf(service)('GET /house-rules'))).body;
    const expected =
      rules.tighter.length + rules.own.length + rules.switchedOff.length + rules.certainty.length;
    expect(await table('house-rules')).toHaveLength(expected);
  });

  test('a text that begins as a formula has its guard in every cell of CSV', async () => {
    for (const { name } of EXPORTED) {
      const { text } = await fetchTable(service, name);
      expect(text, name).not.toMatch(/(?:^|[,\n])"?(?:=|@|\+|-\D)/);
    }
    expect((await fetchTable(service, 'shipments')).text).toContain(`,'=cmd|x,'-1+1,`);
  });
});

test('the form follows from form, or else from Accept', async () => {
  const type = async (path: string, accept?: string) => {
    const { status, headers } = await fetchTable(service, path, accept ? { accept } : {});
    return status === 200 ? headers['content-type'] : status;
  };
  expect(await type('lots')).toBe('text/csv; charset=utf-8');
  expect(await type('lots', XLSX)).toBe(XLSX);
  expect(await type('lots?form=xlsx', 'text/html')).toBe(XLSX);
  expect(await type('lots', 'application/pdf')).toBe(406);
  expect(await type('all')).toBe(XLSX);
  expect(await type('all?form=csv')).toBe(406);
  expect(await type('passwords')).toBe(404);
  expect(await type('lots?form=pdf')).toBe(400);
});

test('a decimal comma puts semicolons between the cells', async () => {
  const { text } = await fetchTable(service, 'prices?decimal=comma');
  expect(text.split('\r\n')[0]).toBe('material_id;cost;cost_per');
  expect(text).toMatch(/^salt;0,529\d+;kg\r$/m);
});

test('who may take in is who may do it by hand', async () => {
  const inspector = await askAs(service, 'inspector');
  const formulator = await askAs(service, 'floor');
  const address = (line: string, { ask }: typeof inspector) => ask(line);
  expect((await address('POST /imports/lots', inspector)).status).toBe(403);
  expect((await address('POST /imports/prices', formulator)).status).toBe(403);
  // Allowed, and told that there is no file.
  expect((await address('POST /imports/lots', formulator)).status).toBe(415);
  inspector.close();
  formulator.close();
});

test('the floor may not change what a lot costs, nor by a table', async () => {
  const tomas = await askAs(service, 'floor');
  const { text } = await fetchTable(service, 'lots');
  const dearer = text.replace(/(?<=^B65-1120,[^,]+,[^,]+,kg,)[^,]+/m, '9.99');
  const { body } = await sendFile({ address: tomas.address }, 'lots', dearer, { dryRun: true });
  expect(body.faults).toMatchObject([
    { field: 'cost', message: expect.stringContaining('only formulator or admin') },
  ]);
  expect((await sendFile(service, 'lots', dearer, { dryRun: true })).body.counts).toMatchObject({
    changed: 1,
    faults: 0,
  });
  tomas.close();
});

test('all of them are one workbook with a sheet each', async () => {
  const { bytes, status, headers } = await fetchTable(service, 'all', { accept: XLSX });
  expect([status, headers['content-type'], headers['content-disposition']]).toEqual([
    200,
    XLSX,
    'attachment; filename=all-2026-11-25.xlsx',
  ]);
  for (const { name, columns } of EXPORTED) {
    const { sheet, rows } = await readWorkbook(bytes, name);
    expect(sheet).toBe(name);
    expect(rows[0]?.cells).toEqual(columns.map((column) => column.name));
    expect(rows.slice(1)).toHaveLength((await table(name)).length);
  }
});

test('nothing that proves who somebody is stands in any', async () => {
  const { store } = service.books;
  const secrets = { password: 'scrypt-of-nobody', tokenHash: 'hash-of-a-token' };
  const act = { by: { id: 'P1', name: 'Ana' }, at: '2026-11-25T16:00:00.000Z', day: '2026-11-25' };
  const what = { action: 'person added', subject: { kind: 'person', id: 'P1' } };
  await store.write({ ...act, ...what }, async (writing) => {
    const { id } = await addPerson(writing, { name: 'Ana', role: 'admin', password: secrets.password });
    const times = { createdAt: act.at, seenAt: act.at, expiresAt: act.at };
    await writing.db
      .insertInto('sessions')
      .values({ tokenHash: secrets.tokenHash, personId: id, ...times })
      .execute();
    return { says: 'Ana was added', result: null };
  });
  let all = '';
  for (const { name } of EXPORTED) {
    for await (const piece of exportContent(service.books, name, 'csv', { decimal: 'point' })) all += piece;
  }
  expect(all).toContain('Ana was added');
  for (const secret of Object.values(secrets)) expect(all).not.toContain(secret);
});
