import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { LOT_COLUMNS } from '../../../src/tables/sheets/lots-sheet.ts';
import { rawWorkbook, textRow, workbookOf } from '../../tables/sheets/made.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, clientOf, entriesOf, good, verifiedStop } from '../stock/client.ts';
import { fetchTable, sendFile, startEmpty, XLSX } from './empty-plant.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo({ maxFileMb: 1 });
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

const HEADER = 'lot_id,material_id,on_hand,unit,cost,cost_per,received_date,state,location,use_by_date';
const lotsFile = (...rows: readonly string[]) => [HEADER, ...rows].join('\n');
const NEW = 'NEW-1,beef-trim-73,600,lb,2.05,lb,2026-11-24,chilled,Cooler 2,2026-12-05';
const faultsOf = ({ faults }: Json) => faults.map(({ address, field }: Json) => `${address} ${field}`);
const pointers = ({ errors }: Json) => errors.map(({ pointer }: Json) => pointer);

describe('lots', () => {
  test('that are new come in with their movement, in one entry', async () => {
    const before = await entriesOf(service);
    const { status, body } = await sendFile(service, 'lots', lotsFile(NEW, NEW.replace('NEW-1', 'NEW-2')));
    expect([status, body]).toEqual([
      200,
      {
        dataset: 'lots',
        dryRun: false,
        written: true,
        file: { form: 'csv', delimiter: ',' },
        rows: 2,
        counts: { new: 2, changed: 0, unchanged: 0, faults: 0 },
        changes: [
          { row: 2, id: 'NEW-1', what: 'new', says: '600.00 lb of beef-trim-73' },
          { row: 3, id: 'NEW-2', what: 'new', says: '600.00 lb of beef-trim-73' },
        ],
        faults: [],
      },
    ]);
    expect(await entriesOf(service)).toBe(before + 1);
    const { body: lot } = await good(ask('GET /lots/NEW-2'));
    expect(lot).toMatchObject({ location: 'Cooler 2', onHand: { lb: 600 } });
    const { body: moved } = await good(ask('GET /movements?lotId=NEW-2'));
    expect(moved.items).toMatchObject([{ kind: 'received', mass: { lb: 600 }, day: '2026-11-25' }]);
    const { body: audit } = await good(ask('GET /entries?order=newest&limit=1'));
    expect(audit.items[0]).toMatchObject({
      action: 'lots imported',
      says: 'lots imported from a table: 2 new, 0 changed, 0 unchanged',
    });
    // What is weighed out of it later goes on from there.
    await good(
      ask('POST /lots/NEW-1/movements', { body: { kind: 'discarded', mass: lb(100), reason: 'spoiled' } }),
    );
  });

  test('that are there change in what may change, and keep the rest', async () => {
    await sendFile(service, 'lots', lotsFile(NEW.replace('NEW-1', 'CHANGED')));
    const { body: before } = await good(ask('GET /lots/CHANGED'));
    const file = lotsFile('CHANGED,beef-trim-73,600,lb,2.1,lb,2026-11-24,frozen,,2027-11-20');
    const { body } = await sendFile(service, 'lots', file);
    expect(body.changes).toEqual([
      { row: 2, id: 'CHANGED', what: 'changed', says: 'use_by_date, state, location, cost' },
    ]);
    const { body: after } = await good(ask('GET /lots/CHANGED'));
    expect(after).toMatchObject({
      state: 'frozen',
      useByDate: '2027-11-20',
      costPerLb: 2.1,
      onHand: { lb: 600 },
    });
    expect(after.location).toBeUndefined();
    expect(after.version).toBe(before.version + 1);
    expect((await sendFile(service, 'lots', file)).body).toMatchObject({
      written: false,
      counts: { unchanged: 1 },
    });
  });

  test('what no table may change is refused, cell by cell, with the way to do it', async () => {
    await sendFile(service, 'lots', lotsFile(NEW.replace('NEW-1', 'FIXED')));
    await good(ask('POST /lots/FIXED/hold', { body: { reason: 'torn bag' } }));
    const file = lotsFile('FIXED,beef-trim-50,599,lb,2.05,lb,2026-11-23,chilled,Cooler 2,2026-12-05');
    const { status, body } = await sendFile(service, 'lots', file, { dryRun: true });
    expect(status).toBe(200);
    expect(faultsOf(body)).toEqual(['B2 material_id', 'C2 on_hand', 'G2 received_date']);
    expect(body.faults[1].message).toContain(
      '600.00 lb); count the lot and book a movement (POST /v1/lots/FIXED',
    );
    const real = await sendFile(service, 'lots', file);
    expect([real.status, pointers(real.body)]).toEqual([
      422,
      ['/2/material_id', '/2/on_hand', '/2/received_date'],
    ]);
  });

  test('a hold and a figure of fat are not changed by a table; a column that is not there changes nothing', async () => {
    const header = 'lot_id,material_id,on_hand,unit,cost,cost_per,received_date,state';
    const row = 'PARTLY,beef-trim-73,600,lb,2.05,lb,2026-11-24,chilled';
    await sendFile(service, 'lots', lotsFile(NEW.replace('NEW-1', 'PARTLY')));
    await good(ask('POST /lots/PARTLY/hold', { body: { reason: 'torn bag' } }));
    const partly = await sendFile(service, 'lots', [header, row].join('\n'));
    expect(partly.body).toMatchObject({ written: false, counts: { unchanged: 1 } });
    const frozen = await sendFile(service, 'lots', [header, row.replace('chilled', 'frozen')].join('\n'));
    expect(frozen.body.changes).toMatchObject([{ id: 'PARTLY', says: 'state' }]);
    expect((await good(ask('GET /lots/PARTLY'))).body).toMatchObject({
      state: 'frozen',
      location: 'Cooler 2',
      useByDate: '2026-12-05',
      held: 'torn bag',
    });
    const whole = `${header},hold,measured_fat_percent,fat_method\n${row.replace('chilled', 'frozen')},,27,NIR`;
    const { body } = await sendFile(service, 'lots', whole);
    expect(pointers(body)).toEqual(['/2/measured_fat_percent', '/2/hold']);
    expect(body.errors[1].message).toContain('the lot is on hold: torn bag');
  });

  test('a fault in the last row takes nothing in', async () => {
    const before = await entriesOf(service);
    const rows = Array.from({ length: 300 }, (_, index) => NEW.replace('NEW-1', `ALL-${index}`));
    const wrong = NEW.replace('NEW-1', 'ALL-300').replace('2026-11-24', '2026-11-26');
    const { status, body } = await sendFile(service, 'lots', lotsFile(...rows, wrong));
    expect([status, body.detail, pointers(body)]).toEqual([
      422,
      'One cell is wrong in the file; nothing was taken in.',
      ['/302/received_date'],
    ]);
    expect(body.errors[0].message).toMatch(/^G302, received_date: 2026-11-26 is after today/);
    expect(await entriesOf(service)).toBe(before);
    expect((await ask('GET /lots/ALL-0')).status).toBe(404);
  });

  test('a dry run names every fault by its cell and writes nothing', async () => {
    const before = await entriesOf(service);
    const file = lotsFile(
      ',beef-trim-73,600,lb,2.05,lb,2026-11-24,chilled,,',
      'D-1,no-such,1.234,stone,"2,05",lb,24/11/2026,warm,,',
      'D-2,beef-trim-73,"1,234",lb,-1,lb,2026-11-24,chilled,,2026-11-01',
      'D-2,beef-trim-73,1,lb,1,lb,2026-11-24,chilled,,',
      'salt,beef-trim-73,1,lb,1,lb,2026-11-24,chilled,,',
      'a b,beef-trim-73,1,lb,1,lb,2026-11-24,chilled,,',
    );
    const { status, body } = await sendFile(service, 'lots', file, { dryRun: true });
    expect([status, body.dryRun, body.written, body.counts.faults]).toEqual([200, true, false, 11]);
    expect(faultsOf(body)).toEqual([
      'A2 lot_id',
      'B3 material_id',
      'D3 unit',
      'G3 received_date',
      'H3 state',
      'C4 on_hand',
      'E4 cost',
      'J4 use_by_date',
      'A5 lot_id',
      'A6 lot_id',
      'A7 lot_id',
    ]);
    expect(await entriesOf(service)).toBe(before);
  });

  test('more faults than can be read are counted, and the first thousand named', async () => {
    const rows = Array.from(
      { length: 1500 },
      (_, index) => `X${index},beef-trim-73,?,lb,1,lb,2026-11-24,chilled,,`,
    );
    const { body } = await sendFile(service, 'lots', lotsFile(...rows), { dryRun: true });
    expect([body.counts.faults, body.faults.length, body.faults[999].address]).toEqual([1500, 1000, 'C1001']);
    const real = await sendFile(service, 'lots', lotsFile(...rows));
    expect([real.body.errors.length, real.body.detail]).toEqual([
      1000,
      '1500 cells are wrong in the file; nothing was taken in. The first 1000 are named.',
    ]);
  });

  test('sent again under its key a file is taken in once; another one under that key is refused', async () => {
    const file = lotsFile(NEW.replace('NEW-1', 'KEY-1'));
    const first = await sendFile(service, 'lots', file, { key: 'file-1' });
    const entries = await entriesOf(service);
    expect(first.body.written).toBe(true);
    expect(await sendFile(service, 'lots', file, { key: 'file-1' })).toEqual(first);
    expect((await sendFile(service, 'lots', `${file}\n`, { key: 'file-1' })).status).toBe(409);
    expect(await entriesOf(service)).toBe(entries);
  });

  test('that were made here are not received', async () => {
    const file = lotsFile(NEW.replace('NEW-1', 'beef-trim-73'));
    expect(pointers((await sendFile(service, 'lots', file)).body)).toEqual(['/2/lot_id']);
  });

  test('a workbook with its days and numbers is as good', async () => {
    const cells = {
      lot_id: 'XL-1',
      material_id: 'beef-trim-73',
      on_hand: 12.5,
      unit: 'kg',
      cost: 3,
      cost_per: 'kg',
      received_date: '2026-11-20',
      state: 'chilled',
    };
    const columns = LOT_COLUMNS.filter(({ name }) => name in cells);
    const bytes = await workbookOf('Lots', columns, [
      columns.map(({ name }) => cells[name as keyof typeof cells]),
    ]);
    const { status, body } = await sendFile(service, 'lots', bytes, { type: XLSX });
    expect([status, body.file, body.counts.new]).toEqual([200, { form: 'xlsx', sheet: 'Lots' }, 1]);
    expect((await good(ask('GET /lots/XL-1'))).body).toMatchObject({
      onHand: { kg: 12.5 },
      receivedDate: '2026-11-20',
    });
  });
});

describe('prices, materials and products', () => {
  test('a price gets a new state only where it differs', async () => {
    const file = 'Material ID;Cost;Cost per\nwater;0;lb\nsalt;0,26;lb\nice;0,02;lb';
    const { body } = await sendFile(service, 'prices', file);
    expect([body.counts, body.changes.map(({ id }: Json) => id)]).toEqual([
      { new: 0, changed: 1, unchanged: 2, faults: 0 },
      ['salt'],
    ]);
    const { body: prices } = await good(ask('GET /prices'));
    const salt = prices.items.find(({ materialId }: Json) => materialId === 'salt');
    expect([salt.costPerLb, salt.version]).toEqual([0.26, 2]);
  });

  test('materials of the tables stand, and no product may come to name a misfit', async () => {
    const { text } = await fetchTable(service, 'materials?form=csv');
    const columns = text.trim().split(',');
    const row = (fields: Readonly<Record<string, string>>) =>
      columns.map((column) => fields[column] ?? '').join(',');
    const main = {
      water_percent: '10',
      fat_percent: '10',
      protein_percent: '10',
      carbohydrate_percent: '60',
    };
    const spice = {
      material_id: 'own-spice',
      name: 'Own',
      declared_name: 'spice',
      kind: 'spice',
      ...main,
      ash_percent: '5',
      source: 'certificate',
    };
    const file = (...rows: string[]) => [columns.join(','), ...rows].join('\n');
    expect((await sendFile(service, 'materials', file(row(spice)))).body.counts.new).toBe(1);
    const taken = await sendFile(service, 'materials', file(row({ ...spice, material_id: 'salt' })));
    expect([taken.status, pointers(taken.body)]).toEqual([422, ['/2/material_id']]);
    const product: Json = (await good(ask('GET /products/bratwurst'))).body;
    product.id = 'with-own';
    product.seasoning.push({ materialId: 'own-spice', basis: 'batch', fraction: 0.001 });
    await good(ask('POST /products', { body: product }));
    const casing = await sendFile(service, 'materials', file(row({ ...spice, kind: 'casing' })));
    expect([casing.status, pointers(casing.body)]).toEqual([422, ['/2/kind']]);
    const named = { ...spice, name: 'Renamed' };
    const twice = await sendFile(service, 'materials', file(row(named), row({ ...named, name: 'Again' })));
    expect(pointers(twice.body)).toEqual(['/3/material_id']);
    const renamed = await sendFile(service, 'materials', file(row(named)));
    expect(renamed.body.changes).toMatchObject([{ what: 'changed', id: 'own-spice' }]);
    const without = columns.filter((column) => column !== 'made_in').join(',');
    const inMexico = file(row({ ...named, made_in: 'MX' }));
    expect((await sendFile(service, 'materials', inMexico)).body.counts.changed).toBe(1);
    const lost = inMexico
      .split('\n')[1]
      ?.split(',')
      .filter((_, index) => columns[index] !== 'made_in')
      .join(',');
    const { body: refused } = await sendFile(service, 'materials', `${without}\n${lost}`);
    expect(pointers(refused)).toEqual(['/2/made_in']);
    // A material of its own may come with lean_percent: the line of its species tells the rest.
    const trim = {
      material_id: 'own-trim',
      name: 'Own trim',
      declared_name: 'beef',
      kind: 'skeletal meat',
      species: 'beef',
      lean_percent: '81.5',
      source: 'own',
    };
    expect((await sendFile(service, 'materials', file(row(trim)))).body.counts.new).toBe(1);
    expect((await sendFile(service, 'materials', file(row(trim)))).body.counts.unchanged).toBe(1);
    expect((await good(ask('GET /materials/own-trim'))).body.composition.fatFraction).toBe(0.185);
  });

  test('a fault of a product stands at the cell of its part', async () => {
    const header =
      'product_id,part,name,jurisdiction,product_class,cooking,smoked,yield_percent,fat_loss_percent,shape,storage,material_ids,kinds,basis,percent,measure,min_percent,max_cost_per_kg';
    const rows = [
      'p-1,product,P,us,no-such-class,raw,no,100,0,bulk,keep refrigerated,,,,,,,',
      'p-1,meat,beef,,,,,,,,,,skeletal meat,,,,,',
      'p-1,seasoning,,,,,,,,,,no-such,,batch,1.5,,,',
      'p-1,target,,,,,,,,,,,,,,cost per kg,12,',
      'p-1,meat,more,,,,,,,,,,soup,,,,,',
      'p-2,meat,beef,,,,,,,,,,skeletal meat,,,,,',
      'p-3,sauce,,,,,,,,,,,,,,,,',
    ];
    const { body } = await sendFile(service, 'products', [header, ...rows].join('\n'), { dryRun: true });
    expect(faultsOf(body)).toEqual(
      expect.arrayContaining(['Q5 min_percent', 'M6 kinds', 'B7 part', 'B8 part']),
    );
    const second = [header, ...rows.slice(0, 3)].join('\n');
    const { body: next } = await sendFile(service, 'products', second, { dryRun: true });
    expect(faultsOf(next)).toEqual(['L4 material_ids']);
    const third = [header, ...rows.slice(0, 2)].join('\n');
    const { body: last } = await sendFile(service, 'products', third, { dryRun: true });
    expect(faultsOf(last)).toEqual(['E2 product_class']);
    const good = third.replace('no-such-class', 'ground-beef');
    expect((await sendFile(service, 'products', good)).body.counts.new).toBe(1);
  });
});

describe('what is no table', () => {
  test.each([
    ['JSON', '{}', 'application/json', 415],
    ['nothing', '', 'text/csv', 422],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2]), 'application/octet-stream', 422],
    ['more than a megabyte', 'x'.repeat(1_100_000), 'text/csv', 413],
    ['a workbook with a row far down', rawWorkbook([{ name: 'l', data: textRow(999_999, 'x') }]), XLSX, 422],
  ])('%s', async (_name, file, type, status) => {
    const before = await entriesOf(service);
    const { status: found, body } = await sendFile(service, 'lots', await file, { type });
    expect([found, typeof body.detail], JSON.stringify(body)).toEqual([status, 'string']);
    expect(await entriesOf(service)).toBe(before);
  });
});

test('a plant is founded with its lots on hold, too', async () => {
  const lots =
    'lot_id,material_id,on_hand,unit,cost,cost_per,received_date,state,hold\nH-1,beef-trim-73,10,lb,1,lb,2026-11-20,chilled,torn bag\n';
  const plant = await startEmpty({}, lots);
  expect((await good(clientOf(plant)('GET /lots/H-1'))).body.held).toBe('torn bag');
  expect((await sendFile(plant, 'lots', lots)).body.counts).toMatchObject({ unchanged: 1, faults: 0 });
  await verifiedStop(plant);
});

test('thousands of lots come in at once, and go out again', async () => {
  const empty = await startEmpty();
  const rows = Array.from({ length: 3000 }, (_, index) => NEW.replace('NEW-1', `L${index}`));
  const { body } = await sendFile(empty, 'lots', lotsFile(...rows));
  expect(body.counts).toEqual({ new: 3000, changed: 0, unchanged: 0, faults: 0 });
  const { text } = await fetchTable(empty, 'lots');
  expect(text.split('\r\n')).toHaveLength(3002);
  await verifiedStop(empty);
});
