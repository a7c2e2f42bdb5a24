import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/batch/material.ts';
import type { Product } from '../../src/batch/product.ts';
import {
  betweenCleanings,
  type GrinderCleaning,
  type Ground,
  grindLots,
  isBetween,
  isRawGroundBeef,
} from '../../src/making/logs/grinding.ts';
import { COOKED, RAW, testMaterial, testProduct } from '../helpers/materials.ts';

const at = (clock: string) => `2026-11-25T${clock}:00.000Z`;

function ground(batchId: string, weighed: string, sourceIds: readonly string[]): Ground {
  return { batchId, from: at(weighed), weighedAt: at(weighed), until: at('18:00'), sourceIds };
}

const lotsOf = (batches: readonly Ground[], cleanings: readonly string[]) =>
  grindLots(batches, cleanings.map(at)).map((lot) => lot.batches.map(({ batchId }) => batchId));

describe('a lot of the grinding log', () => {
  // 9 CFR 320.1(b)(4) as FSIS Directive 5000.10 gives it: from one clean-up to the next with the same source materials.
  test('goes on as long as the source materials are the same', () => {
    const batches = [ground('1', '08:00', ['A', 'B']), ground('2', '09:00', ['B', 'A', 'A'])];
    expect(lotsOf(batches, [])).toEqual([['1', '2']]);
  });

  test('ends with other source materials', () => {
    const batches = [ground('1', '08:00', ['A']), ground('2', '09:00', ['A', 'R'])];
    expect(lotsOf(batches, [])).toEqual([['1'], ['2']]);
  });

  test('ends with a cleaning, which both lots name', () => {
    const batches = [ground('2', '10:00', ['A']), ground('1', '08:00', ['A'])];
    expect(lotsOf(batches, ['09:00'])).toEqual([['1'], ['2']]);
    const [first, second] = grindLots(batches, [at('09:00')]);
    expect(first).toMatchObject({ cleanedAfter: at('09:00') });
    expect(first).not.toHaveProperty('cleanedBefore');
    expect(second).toMatchObject({ cleanedBefore: at('09:00'), until: at('18:00') });
    expect(second).not.toHaveProperty('cleanedAfter');
  });

  test('is none where nothing was ground', () => {
    expect(grindLots([], [at('09:00')])).toEqual([]);
  });
});

describe('what was ground between the same two cleanings', () => {
  const cleaned = (clock: string, ...grinders: string[]): GrinderCleaning => ({ at: at(clock), grinders });
  const batch = { from: at('08:00'), until: at('09:00') };

  test('is what no cleaning parts from it, of one grinder under whatever spelling', () => {
    const cleanings = [
      cleaned('05:00', 'grinder'),
      cleaned('07:00', ' Grinder'),
      cleaned('10:00', 'grinder'),
      cleaned('12:00', 'grinder'),
    ];
    const between = betweenCleanings(batch, cleanings);
    expect(between).toEqual({ cleanedBefore: at('07:00'), cleanedAfter: at('10:00') });
    const isIn = (from: string, until?: string) =>
      isBetween({ from: at(from), until: until && at(until) }, between);
    expect(isIn('06:00', '06:30')).toBe(false);
    expect(isIn('06:00', '07:30')).toBe(true);
    expect(isIn('07:10', '07:30')).toBe(true);
    expect(isIn('09:30', '11:00')).toBe(true);
    expect(isIn('10:00', '11:00')).toBe(false);
    expect(isIn('06:00')).toBe(true);
  });

  test('ends only when each grinder had its cleaning: no batch says through which it went', () => {
    const cleanings = [
      cleaned('05:00', 'grinder 1'),
      cleaned('06:00', 'grinder 2'),
      cleaned('09:30', 'grinder 1'),
      cleaned('11:00', 'grinder 2'),
    ];
    expect(betweenCleanings(batch, cleanings)).toEqual({
      cleanedBefore: at('05:00'),
      cleanedAfter: at('11:00'),
    });
    expect(betweenCleanings(batch, cleanings.slice(0, 3))).toEqual({ cleanedBefore: at('05:00') });
  });

  test('has no end while it may be in the grinder, nor where nothing was written down', () => {
    expect(
      betweenCleanings({ from: batch.from }, [cleaned('07:00', 'grinder'), cleaned('10:00', 'grinder')]),
    ).toEqual({
      cleanedBefore: at('07:00'),
    });
    expect(betweenCleanings(batch, [])).toEqual({});
  });
});

describe('raw ground beef', () => {
  const bulk = testProduct('ground-beef', { form: { shape: 'bulk' }, process: { ...RAW, grindPlates: [] } });
  const cut = testProduct('corned-beef', { form: { shape: 'bulk' }, process: { ...RAW, grindPlates: [] } });
  const beef = testMaterial('beef');
  const pork = testMaterial('pork');
  const rework: Material = {
    ...pork,
    id: 'rework',
    kind: 'rework',
    madeOf: [
      { material: pork, fraction: '0.9' },
      { material: beef, fraction: '0.1' },
    ],
  };

  test.each<[string, Product, readonly Material[], boolean]>([
    ['is ground beef', bulk, [beef], true],
    ['is beef beside other meat', bulk, [pork, beef], true],
    ['is beef in rework alone', bulk, [rework], true],
    ['is veal', bulk, [testMaterial('veal')], true],
    ['is a link of any class', { ...cut, form: { shape: 'link' } }, [beef], true],
    ['is what goes through a plate', { ...cut, process: { ...RAW, grindPlates: ['1/8 in'] } }, [beef], true],
    ['is not pork', bulk, [pork], false],
    ['is not cooked', { ...bulk, process: COOKED }, [beef], false],
    ['is no cut that is not ground', cut, [beef], false],
  ])('%s', (_name, product, materials, counts) => {
    expect(isRawGroundBeef(product, materials)).toBe(counts);
  });
});
