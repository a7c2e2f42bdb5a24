import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/batch/material.ts';
import { TableError } from '../../src/tables/csv.ts';
import { readLots } from '../../src/tables/lots.ts';

const materials = new Map(
  ['beef-trim-85', 'pork-trim-72', 'curing-salt-6.25'].map((id) => [id, { id } as Material]),
);

const HEADER =
  'lot_id,material_id,on_hand,unit,cost,cost_per,box_weight,box_unit,measured_fat_percent,fat_method,' +
  'received_date,packed_date,use_by_date,state,supplier_establishment,supplier_lot,location';

const read = (...rows: string[]) => readLots('lots.csv', [HEADER, ...rows].join('\n'), materials);

test('a lot is read in kilograms and fractions', () => {
  const [lot] = read(
    'B85-1119,beef-trim-85,100,lb,3.00,lb,60,lb,16.2,NIR,2026-11-19,2026-11-17,2026-12-03,chilled,00001,A-3172,Cooler 1',
  );
  expect(lot).toEqual({
    id: 'B85-1119',
    materialId: 'beef-trim-85',
    onHandKg: 45.359237,
    costPerKg: 3 / 0.45359237,
    measuredFat: { fatFraction: 0.162, method: 'NIR' },
    receivedDate: '2026-11-19',
    packedDate: '2026-11-17',
    useByDate: '2026-12-03',
    state: 'chilled',
    boxKg: 27.2155422,
    supplierEstablishment: '00001',
    supplierLot: 'A-3172',
    location: 'Cooler 1',
  });
});

test('an empty cell leaves its field out', () => {
  const [lot] = read('CURE,curing-salt-6.25,0,kg,2,kg,,,,,2026-08-12,,,chilled,,,');
  expect(lot).toStrictEqual({
    id: 'CURE',
    materialId: 'curing-salt-6.25',
    onHandKg: 0,
    costPerKg: 2,
    receivedDate: '2026-08-12',
    state: 'chilled',
  });
});

test('a test may bring its own standard deviation, in a column that may be left out', () => {
  const header = HEADER.replace('fat_method', 'fat_method,fat_sd_points');
  const rows = [
    'X,beef-trim-85,1,kg,2,kg,,,16.2,NIR,0.8,2026-08-12,,,chilled,,,',
    'Y,beef-trim-85,1,kg,2,kg,,,16.2,NIR,,2026-08-12,,,chilled,,,',
  ];
  const lots = readLots('lots.csv', [header, ...rows].join('\n'), materials);
  expect(lots.map(({ measuredFat }) => measuredFat)).toStrictEqual([
    { fatFraction: 0.162, method: 'NIR', sdFraction: 0.008 },
    { fatFraction: 0.162, method: 'NIR' },
  ]);
});

test('an origin is one country or one for each step, in a column that may be left out', () => {
  const row = (id: string) => `${id},beef-trim-85,1,kg,2,kg,,,,,2026-08-12,,,chilled,,,`;
  const rows = [`${row('X')},US`, `${row('Y')},slaughtered US;  born MX; raised CA`, `${row('Z')},`];
  const lots = readLots('lots.csv', [`${HEADER},origin`, ...rows].join('\n'), materials);
  expect(lots.map(({ origin }) => origin)).toStrictEqual([
    { bornIn: 'US', raisedIn: 'US', slaughteredIn: 'US' },
    { bornIn: 'MX', raisedIn: 'CA', slaughteredIn: 'US' },
    undefined,
  ]);
  expect(lots[2]).not.toHaveProperty('origin');
});

test('a measured fat of 0 is a measurement', () => {
  const [lot] = read('X,beef-trim-85,1,kg,2,kg,,,0,NIR,2026-08-12,,,chilled,,,');
  expect(lot?.measuredFat).toEqual({ fatFraction: 0, method: 'NIR' });
});

test('a lot may be used on the day it came in', () => {
  expect(read('X,beef-trim-85,1,kg,2,kg,,,,,2026-08-12,,2026-08-12,chilled,,,')).toHaveLength(1);
});

test('the same reader forgets the lots of an earlier reading', () => {
  const row = 'X,beef-trim-85,1,kg,2,kg,,,,,2026-08-12,,,chilled,,,';
  expect(read(row)).toEqual(read(row));
});

test('every fault is reported, not only the first', () => {
  const attempt = () =>
    read(
      'A,beef,1,kg,2,kg,,,,,2026-08-12,,,chilled,,,',
      'A,beef-trim-85,-1,kg,2,kg,,,,,2026-13-12,,,chilled,,,',
    );
  expect(attempt).toThrow(TableError);
  try {
    attempt();
  } catch (error) {
    expect((error as TableError).problems.map(({ row, column }) => [row, column])).toEqual([
      [2, 'material_id'],
      [3, 'lot_id'],
      [3, 'on_hand'],
      [3, 'received_date'],
    ]);
  }
});

describe('a broken file says what to do', () => {
  test.each([
    [
      'unknown-material',
      'row 3, material_id, "beef-trim-86": no such material (similar ids: beef-trim-85); correct the id',
    ],
    ['negative-on-hand', 'row 3, on_hand, "-12": is negative; count the lot again'],
    ['not-a-number', 'row 3, on_hand, "NaN": is not a plain number'],
    ['fat-over-100', 'row 3, measured_fat_percent, "150": is above 100; percent is expected'],
    ['fat-without-method', 'row 3, fat_method, "": is empty; say how the fat was measured'],
    [
      'fat-sd-without-fat',
      'row 3, fat_sd_points, "0.8": is filled in but measured_fat_percent is empty; give the test',
    ],
    ['fat-sd-of-nothing', 'row 3, fat_sd_points, "0": is 0, and no test is that sure; leave it empty'],
    [
      'fat-sd-too-large',
      'row 3, fat_sd_points, "16.2": is above 10; the standard deviation in points of fat',
    ],
    ['no-such-day', 'row 3, received_date, "2026-02-30": is not a calendar day; write it as 2026-11-25'],
    [
      'use-by-before-received',
      'row 3, use_by_date, "2026-11-12": is before received_date 2026-11-19; correct one of the two',
    ],
    ['use-by-before-packed', 'row 3, use_by_date, "2026-11-25": is before packed_date 2026-11-30'],
    ['unknown-unit', 'row 3, unit, "stone": is none of: kg, g, lb, oz'],
    ['unknown-state', 'row 3, state, "warm": is none of: chilled, frozen'],
    ['unknown-country', 'row 3, origin, "UK": is no country; write its two capital letters'],
    [
      'origin-incomplete',
      'row 3, origin, "born MX; raised US": does not say where they were slaughtered; write one country, such as US',
    ],
    ['origin-twice', 'row 3, origin, "born MX; born US; raised US": says twice where they were born'],
    [
      'origin-without-step',
      'row 3, origin, "from Mexico": has "from Mexico", which is no step with its country; write one country',
    ],
    [
      'origin-country-in-words',
      'row 3, origin, "born MX; raised US; slaughtered Kansas": has "Kansas", which is no country',
    ],
    ['duplicate-lot', 'row 3, lot_id, "L-1": stands twice; give each lot its own id'],
    ['id-of-a-material', 'row 3, lot_id, "beef-trim-85": is the id of a material; give the lot another id'],
    ['box-without-unit', 'row 2, box_unit, "": is empty; write the unit of the box weight'],
    ['unknown-column', 'row 1, fat_percent, unknown column'],
    ['missing-column', 'row 1, state, this column is missing; add it'],
  ])('%s', (name, words) => {
    const file = `lots-${name}.csv`;
    const text = readFileSync(join(import.meta.dirname, 'broken', file), 'utf8');
    expect(() => readLots(file, text, materials)).toThrow(`${file}, ${words}`);
  });
});
