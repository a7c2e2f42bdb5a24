import { expect, test } from 'vitest';
import type { Material } from '../../src/batch/material.ts';
import { readPrices } from '../../src/tables/prices.ts';

const materials = new Map(['salt', 'water', 'black-pepper'].map((id) => [id, { id } as Material]));

const read = (...rows: string[]) =>
  readPrices('prices.csv', ['material_id,cost,cost_per', ...rows].join('\n'), materials);

test('prices are per kilogram by material', () => {
  expect(read('salt,0.24,lb', 'water,0,lb', 'black-pepper,12,kg')).toEqual(
    new Map([
      ['salt', 0.24 / 0.45359237],
      ['water', 0],
      ['black-pepper', 12],
    ]),
  );
});

test.each([
  ['sallt,0.24,lb', 'row 2, material_id, "sallt": no such material; correct the id'],
  ['black-peper,0.24,lb', '"black-peper": no such material (similar ids: black-pepper)'],
  ['salt,-1,lb', 'row 2, cost, "-1": is negative'],
  ['salt,NaN,lb', 'row 2, cost, "NaN": is not a plain number'],
  ['salt,1,pound', 'row 2, cost_per, "pound": is none of: kg, g, lb, oz'],
  ['salt,1,lb\nsalt,2,lb', 'row 3, material_id, "salt": stands twice; keep one price for each material'],
  [',1,lb', 'row 2, material_id, "": is empty; fill it in'],
])('%j is refused with the remedy', (row, words) => {
  expect(() => read(row)).toThrow(words);
});
