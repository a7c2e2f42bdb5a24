import { describe, expect, test } from 'vitest';
import { TableError } from '../../src/tables/csv.ts';
import { readPlant } from '../../src/tables/plant.ts';

const PLANT = {
  name: 'Test Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacity: { value: 400, unit: 'lb' },
  scales: [{ id: 'bench', name: 'Bench scale', unit: 'lb', division: '0.01', capacity: 30 }],
};

const read = (plant: unknown) => readPlant('plant.json', JSON.stringify(plant));

test('a plant is read with its mixer in kilograms', () => {
  const { mixerCapacity, ...rest } = PLANT;
  expect(mixerCapacity.unit).toBe('lb');
  expect(read(PLANT)).toStrictEqual({ ...rest, mixerCapacityKg: 181.436948 });
});

test('a demonstration names its day', () => {
  expect(read({ ...PLANT, demoDate: '2026-11-25' }).demoDate).toBe('2026-11-25');
});

test('a plant may have habits on the floor', () => {
  expect(read({ ...PLANT, floor: { olderFirstWithin: 0.005 } }).floor).toEqual({ olderFirstWithin: 0.005 });
});

test('a byte order mark is no fault', () => {
  expect(readPlant('plant.json', `\uFEFF${JSON.stringify(PLANT)}`).name).toBe('Test Plant');
});

describe('a faulty plant says what to do', () => {
  const [scale] = PLANT.scales;
  test.each([
    ['capacity without unit', { mixerCapacity: 400 }, 'mixerCapacity, 400: it must be a mass with its unit'],
    [
      'unknown unit',
      { mixerCapacity: { value: 400, unit: 'stone' } },
      'mixerCapacity.unit, "stone": it must be one of: kg, g, lb, oz',
    ],
    [
      'empty mixer',
      { mixerCapacity: { value: 0, unit: 'lb' } },
      'mixerCapacity.value, 0: it must be above 0',
    ],
    [
      'unknown time zone',
      { timeZone: 'Middle/Nowhere' },
      'timeZone, "Middle/Nowhere": it must be a time zone',
    ],
    ['currency sign', { currency: '$' }, 'currency, "$": it must be a currency code such as "USD"'],
    ['other display unit', { units: 'oz' }, 'units, "oz": it must be one of: lb, kg'],
    [
      'a habit of the floor beyond all',
      { floor: { olderFirstWithin: 5 } },
      'floor.olderFirstWithin, 5: it must be at most 1',
    ],
    [
      'a habit about lots that come and go',
      { floor: { wholeBoxes: ['B1'] } },
      'floor.wholeBoxes, names lots, which come and go',
    ],
    ['no scales', { scales: [] }, 'scales, []: it must hold at least one scale'],
    ['empty name', { name: ' ' }, 'name, " ": it must not be empty'],
    ['no name', { name: undefined }, 'name, is missing; it must be a text'],
    [
      'misspelt field',
      { timezone: 'UTC' },
      'timezone, unknown field; the fields here are name, establishment',
    ],
    ['bad day', { demoDate: '2026-02-30' }, 'demoDate, "2026-02-30": it must be a calendar day'],
    [
      'division as a number',
      { scales: [{ ...scale, division: 0.01 }] },
      'scales[0].division, 0.01: it must be a text such as "0.01"',
    ],
    [
      'division of nothing',
      { scales: [{ ...scale, division: '0.00' }] },
      'scales[0].division, "0.00": it must be the smallest step of the scale',
    ],
    [
      'division beyond the capacity',
      { scales: [{ ...scale, division: '50' }] },
      'scales[0].division, "50" is not below the capacity 30',
    ],
    [
      'one id for two scales',
      { scales: [scale, scale] },
      'scales[1].id, "bench" stands twice; give each scale its own id',
    ],
  ])('%s', (_name, change, words) => {
    expect(() => read({ ...PLANT, ...change })).toThrow(`plant.json, ${words}`);
  });

  test('what is not JSON names the file', () => {
    expect(() => readPlant('plant.json', '{"name": "Test",}')).toThrow(/^plant\.json, is not valid JSON/);
    expect(() => readPlant('plant.json', '{"name": "Test",}')).toThrow(TableError);
    expect(() => read(null)).toThrow('plant.json, null: it must be an object that describes the plant');
  });
});

test('a plant says where it is and how it prints', () => {
  const told = {
    address: ['1 Example Road', 'Sampletown, ZZ 00000'],
    printing: {
      paper: 'letter',
      language: 'en',
      labelStock: 'roll-102x152',
      priceCode: { numberSystem: '2', priceVerifier: true },
    },
  };
  expect(read({ ...PLANT, ...told })).toMatchObject(told);
});

test.each([
  ['no line', { address: [] }, 'address, []: it must hold a line'],
  ['an address in one text', { address: 'Sampletown' }, 'must be a list of lines'],
  [
    'another paper',
    { printing: { paper: 'legal' } },
    'printing.paper, "legal": it must be one of: letter, a4',
  ],
  [
    'another number system',
    { printing: { priceCode: { numberSystem: '4', priceVerifier: false } } },
    'printing.priceCode.numberSystem, "4": it must be one of: 2',
  ],
])('%s is refused', (_, part, message) => {
  expect(() => read({ ...PLANT, ...part })).toThrow(message);
});
