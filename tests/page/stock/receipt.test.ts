import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { suggestedId } from '../../../src/page/stock/lot-id.ts';
import { materialsFor } from '../../../src/page/stock/pick-material.ts';
import { boxList, receiptOf, suggest, type TypedReceipt } from '../../../src/page/stock/receipt.ts';
import { lotOf, materialOf } from './lots.ts';

const BEEF = materialOf({ id: 'beef-trim-73', name: 'Beef trim 73' });
const TYPED: TypedReceipt = {
  materialId: 'beef-trim-73',
  how: 'boxes',
  total: { text: '', unit: 'lb' },
  count: '12',
  list: '',
  listUnit: 'lb',
  packedDate: '',
  supplierLot: '',
  fat: '',
  method: '',
  isTestedHere: false,
  born: '',
  raised: '',
  slaughtered: '',
  hold: '',
};
const BEFORE = lotOf({
  id: 'B73-1120',
  packedDate: '2026-11-18',
  useByDate: '2026-12-04',
  boxKg: 27.2155422,
  costPerKg: 2.38 / 0.45359237,
  supplierEstablishment: '00001',
  location: 'Cooler 1 row A',
});
const SETTING = { material: BEEF, lots: [BEFORE], today: '2026-11-25', units: 'lb', mark: '.' } as const;

describe('the id of a lot that comes in', () => {
  test.each([
    ['beef-trim-73', 'beef', [], 'B73-1125'],
    ['beef-trim-73', 'beef', ['BX-1120', 'B73-1101'], 'BX-1125'],
    ['beef-trim-73', 'beef', ['delivered'], 'B73-1125'],
    ['pork-jowl', 'pork', [], 'PJ-1125'],
    ['curing-salt-6.25', undefined, [], 'CS625-1125'],
  ] as const)('of %s (%s) after %j is %s', (id, species, before, expected) => {
    const material = { id, ...(species !== undefined && { species }) };
    expect(suggestedId(material, '2026-11-25', before, new Set())).toBe(expected);
  });

  test('is one that no lot has', () => {
    const taken = new Set(['B73-1125', 'B73-1125-2']);
    expect(suggestedId(BEEF, '2026-11-25', ['B73-1125-2'], taken)).toBe('B73-1125-3');
  });

  test('is one that the service takes, whatever the material is called', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/), (id) => {
        expect(suggestedId({ id }, '2026-11-25', [], new Set())).toMatch(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/);
      }),
    );
  });
});

describe('what is suggested for a delivery', () => {
  test('follows the latest lot of the material', () => {
    expect(suggest(TYPED, SETTING)).toMatchObject({
      price: { text: '2.38', unit: 'lb' },
      box: { text: '60', unit: 'lb' },
      supplier: '00001',
      location: 'Cooler 1 row A',
      state: 'chilled',
      id: 'B73-1125',
      gapDays: 2,
    });
  });

  test('of the same supplier, where it has brought some', () => {
    const other = lotOf({
      id: 'B73-1123',
      receivedDate: '2026-11-23',
      costPerKg: 10,
      supplierEstablishment: '00003',
    });
    const lots = [BEFORE, other];
    expect(suggest(TYPED, { ...SETTING, lots }).like?.id).toBe('B73-1123');
    expect(suggest({ ...TYPED, supplier: '00001' }, { ...SETTING, lots }).like?.id).toBe('B73-1120');
  });

  test('use-by: as many days after packing as that lot had, or after receipt where packing is not known yet', () => {
    expect(suggest({ ...TYPED, packedDate: '2026-11-24' }, SETTING).useByDate).toBe('2026-12-10');
    expect(suggest(TYPED, SETTING).useByDate).toBe('2026-12-09');
  });

  test('what is frozen does not get the days of what was chilled', () => {
    expect(suggest({ ...TYPED, state: 'frozen' }, SETTING).useByDate).toBe('');
  });

  test('is nothing without a lot before it, but the id', () => {
    expect(suggest(TYPED, { ...SETTING, lots: [] })).toMatchObject({
      price: { text: '' },
      useByDate: '',
      id: 'B73-1125',
    });
  });

  test('is written with the decimal mark of the device', () => {
    expect(suggest(TYPED, { ...SETTING, mark: ',' }).price.text).toBe('2,38');
  });
});

describe('the request of a delivery', () => {
  const send = (given: Partial<TypedReceipt>, mark: '.' | ',' = '.') => {
    const typed = { ...TYPED, ...given };
    return receiptOf(typed, suggest(typed, { ...SETTING, mark }), mark);
  };

  test('has what was suggested where nothing was typed', () => {
    expect(send({ packedDate: '2026-11-24' })).toEqual({
      body: {
        id: 'B73-1125',
        materialId: 'beef-trim-73',
        boxes: { count: 12, mass: { value: 60, unit: 'lb' } },
        cost: { amount: 2.38, per: 'lb' },
        receivedDate: '2026-11-25',
        packedDate: '2026-11-24',
        useByDate: '2026-12-10',
        state: 'chilled',
        supplierEstablishment: '00001',
        location: 'Cooler 1 row A',
      },
    });
  });

  test('leaves out what was emptied', () => {
    const { body } = send({ useByDate: '', location: '', supplier: '' }) as { body: object };
    expect(Object.keys(body)).not.toEqual(expect.arrayContaining(['useByDate']));
    expect(body).not.toHaveProperty('location');
    expect(body).not.toHaveProperty('supplierEstablishment');
  });

  test('adds single boxes up to the last digit', () => {
    expect(send({ how: 'list', list: '60.1 60.2 59.9' })).toMatchObject({
      body: { mass: { value: 180.2, unit: 'lb' } },
    });
  });

  test('says what is missing or cannot be read', () => {
    expect(send({ how: 'total', materialId: '' })).toMatchObject({
      faults: expect.arrayContaining(['material', 'weight']),
    });
    expect(send({ how: 'list', list: '60 sixty' })).toEqual({ faults: ['weight'] });
    expect(send({ count: 'a dozen' })).toEqual({ faults: ['count'] });
    expect(send({ fat: '27,8,1' })).toEqual({ faults: ['fat'] });
    expect(send({ fat: '27.8' })).toEqual({ faults: ['method'] });
    expect(send({ born: 'US' })).toEqual({ faults: ['origin'] });
  });

  test('has the fat as a figure that it came with, or as a test made here', () => {
    const fat = { fat: '27.8', method: 'NIR' };
    const result = { fatFraction: 0.278, method: 'NIR' };
    expect(send(fat)).toMatchObject({ body: { measuredFat: result } });
    expect(send({ ...fat, isTestedHere: true })).toMatchObject({ body: { test: result } });
  });

  test('writes countries in capitals', () => {
    expect(send({ born: 'mx', raised: 'us', slaughtered: 'US' })).toMatchObject({
      body: { origin: { bornIn: 'MX', raisedIn: 'US', slaughteredIn: 'US' } },
    });
  });
});

test('a list of boxes: counted and added, whatever stands between them', () => {
  expect(boxList(' 60,1  59,9;61 + 1', ',')).toEqual({ count: 4, sum: '182' });
  expect(boxList('60 0', '.')).toMatchObject({ wrong: '0' });
  expect(boxList('', '.')).toEqual({ count: 0, sum: '0' });
});

test('materials: those of the supplier first, then what came last, then by name', () => {
  const materials = ['a', 'b', 'c', 'd'].map((id) => materialOf({ id, name: `Trim ${id}${id}` }));
  const lots = [
    lotOf({ id: '1', materialId: 'd', receivedDate: '2026-11-01', supplierEstablishment: '1' }),
    lotOf({ id: '2', materialId: 'c', receivedDate: '2026-11-20', supplierEstablishment: '2' }),
  ];
  const ids = (search: string, supplier?: string) =>
    materialsFor(search, materials, lots, supplier, 3).map(({ id }) => id);
  expect(ids('')).toEqual(['c', 'd', 'a']);
  expect(ids('', '1')).toEqual(['d', 'c', 'a']);
  expect(ids('trim BB')).toEqual(['b']);
});
