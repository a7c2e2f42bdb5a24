import { describe, expect, it } from 'vitest';
import { carriedFraction, NITRITES } from '../../src/batch/carries.ts';
import { defaultFatSd } from '../../src/batch/fat-certainty.ts';
import { supplyOfLot } from '../../src/batch/lot.ts';
import { ingredientsOf, partsOf } from '../../src/batch/made-of.ts';
import { isMeat, type Material } from '../../src/batch/material.ts';
import { type ReworkLine, reworkMaterial } from '../../src/batch/rework.ts';
import { compare, exact, multiply, ONE, sum, toNumber } from '../../src/exact.ts';
import { testMaterial } from '../helpers/materials.ts';

const line = (id: string, massKg: string): ReworkLine => ({
  material: testMaterial(id),
  massKg: exact(massKg),
});

/** Ten kilograms by hand: fat 1.0 + 0.8, water 3.0 + 1.24 + 2.4, protein 0.75 + 0.34. */
const TEN_KG = [
  line('pork', '5'),
  line('beef', '2'),
  line('water', '2.4'),
  line('nonfat-dry-milk', '0.5'),
  line('cure-6.25', '0.1'),
];

const made = (
  lines: readonly ReworkLine[],
  given: Partial<Parameters<typeof reworkMaterial>[0]> = {},
): Material =>
  reworkMaterial({
    id: 'rework-1',
    name: 'Rework of frankfurters',
    productId: 'frankfurters',
    lines,
    process: { yieldFraction: 0.9, fatLossFraction: 0.02 },
    ...given,
  });

const fractionOf = ({ madeOf = [] }: Material, id: string) =>
  madeOf.find(({ material }) => material.id === id)?.fraction;
const sumOfParts = ({ madeOf = [] }: Material) => sum(madeOf.map(({ fraction }) => exact(fraction)));

describe('rework left before the process', () => {
  const raw = made(TEN_KG);

  it('is its ingredients by their weight', () => {
    expect(raw.madeOf?.map(({ material, fraction }) => [material.id, fraction])).toEqual([
      ['pork', '0.5'],
      ['beef', '0.2'],
      ['water', '0.24'],
      ['nonfat-dry-milk', '0.05'],
      ['cure-6.25', '0.01'],
    ]);
    expect(raw).toMatchObject({ kind: 'rework', reworkOf: 'frankfurters', species: 'pork' });
    expect(isMeat(raw)).toBe(true);
  });

  it('has their composition, substances, allergens and names', () => {
    expect(raw.composition.fatFraction).toBeCloseTo(0.14, 12);
    expect(raw.composition.waterFraction).toBeCloseTo(0.664, 12);
    expect(raw.composition.proteinFraction).toBeCloseTo(0.1265, 12);
    expect(carriedFraction(raw, NITRITES)).toBe(0.000625);
    expect(raw.allergens).toEqual(['milk']);
    expect(raw.subIngredients).toEqual(['pork', 'water', 'beef', 'nonfat dry milk', 'cure 6.25']);
  });

  it('knows no collagen where a meat has none on file', () => {
    const { collagenFraction: _, ...composition } = testMaterial('beef').composition;
    const unknown = { material: { ...testMaterial('beef'), composition }, massKg: exact('1') };
    expect(raw.composition.collagenFraction).toBeCloseTo(0.0109, 12);
    expect(made([...TEN_KG, unknown]).composition.collagenFraction).toBeUndefined();
  });

  it('adds up to 1 exactly where its weight does not divide, and keeps what stood at a limit there', () => {
    const odd = made([line('pork', '70'), line('salt', '1.7'), line('cure-6.25', '0.17472')]);
    expect(compare(sumOfParts(odd), ONE)).toBe(0);
    // 0.17472 × 6.25 % is 156 ppm of 70 kg: cure and pork stand to each other exactly as weighed.
    const [pork, cure] = ['pork', 'cure-6.25'].map((id) => exact(fractionOf(odd, id) ?? '0'));
    const crossed = [multiply(cure ?? ONE, exact('70')), multiply(pork ?? ONE, exact('0.17472'))] as const;
    expect(compare(...crossed)).toBe(0);
    expect(ingredientsOf(odd).map(({ material }) => material.id)).toEqual(['pork', 'salt', 'cure-6.25']);
  });

  it('comes back from JSON as it was', () => {
    expect(JSON.parse(JSON.stringify(raw))).toEqual(raw);
    const cooked = made(TEN_KG, { finishedKg: exact('9') });
    expect(JSON.parse(JSON.stringify(cooked))).toEqual(cooked);
  });
});

describe('rework that went through its process', () => {
  // Of the declared loss of 10 % a fifth is fat: 0.4 kg of the 2 kg lost here.
  const cooked = made(TEN_KG, { finishedKg: exact('8') });

  it('holds all that was put in, in less weight', () => {
    expect(fractionOf(cooked, 'pork')).toBe('0.625');
    expect(fractionOf(cooked, 'cure-6.25')).toBe('0.0125');
    expect(fractionOf(cooked, 'process-loss-water')).toBe('-0.2');
    expect(fractionOf(cooked, 'process-loss-fat')).toBe('-0.05');
    expect(compare(sumOfParts(cooked), ONE)).toBe(0);
    expect(cooked.subIngredients).toEqual(['pork', 'water', 'beef', 'nonfat dry milk', 'cure 6.25']);
  });

  it('has the water and fat that are left, by the weight that came out and not the declared yield', () => {
    // (6.64 - 1.6) / 8, (1.4 - 0.4) / 8, and all of the protein in 8 kg.
    expect(cooked.composition.waterFraction).toBeCloseTo(0.63, 12);
    expect(cooked.composition.fatFraction).toBeCloseTo(0.125, 12);
    expect(cooked.composition.proteinFraction).toBeCloseTo(0.158125, 12);
  });

  it('lost fat with its share of saturated fat, and no minerals', () => {
    const known = { sodiumMgPerKg: 500, ironMgPerKg: 20, cholesterolMgPerKg: 600 };
    const fats = new Map([
      ['pork', 0.08],
      ['beef', 0.1],
    ]);
    const told = TEN_KG.map(({ material, massKg }) => ({
      material: {
        ...material,
        composition: {
          ...material.composition,
          ...known,
          saturatedFatFraction: fats.get(material.id) ?? 0,
        },
      },
      massKg,
    }));
    const { composition } = made(told, { finishedKg: exact('8') });
    // 5 kg × 0.08 + 2 kg × 0.1 = 0.6 of 1.4 kg fat; what is left is 1 kg fat in 8 kg.
    expect(composition.saturatedFatFraction).toBeCloseTo((0.6 / 1.4) * 0.125, 9);
    // All of 10 kg stays in 8 kg.
    expect(composition.sodiumMgPerKg).toBeCloseTo(625, 9);
    expect(composition.ironMgPerKg).toBeCloseTo(25, 9);
    expect(composition.cholesterolMgPerKg).toBeCloseTo(750, 9);
    expect(composition).not.toHaveProperty('potassiumMgPerKg');
  });

  it('that gained weight took up water', () => {
    const heavier = made(TEN_KG, { finishedKg: exact('10.24') });
    expect(heavier.madeOf?.at(-1)?.material).not.toMatchObject({ kind: 'process loss', id: 'process-water' });
    expect(ingredientsOf(heavier).map(({ material }) => [material.id, material.kind])).toContainEqual([
      'process-water',
      'water',
    ]);
    expect(Number(fractionOf(heavier, 'process-water'))).toBeCloseTo(0.24 / 10.24, 12);
  });

  it('is refused where more is gone than its water, where no meat went in, and without weight', () => {
    expect(() => made(TEN_KG, { finishedKg: exact('1') })).toThrow(
      /finishedKg of rework rework-1 is 1.*weigh/,
    );
    expect(() => made([line('water', '1')])).toThrow(/hold no meat/);
    expect(() => made(TEN_KG, { finishedKg: exact('0') })).toThrow(/finishedKg of rework rework-1 is 0/);
  });
});

describe('rework of rework', () => {
  const first = made(TEN_KG, { finishedKg: exact('8') });
  const second = made([line('pork', '7'), line('beef', '1'), { material: first, massKg: exact('2') }], {
    id: 'rework-2',
  });

  it('is opened, and one material is one part', () => {
    expect(second.madeOf?.map(({ material }) => material.kind)).not.toContain('rework');
    // 7 kg and 2 × 0.625 kg in ten; the fat of both is that of the table.
    expect(fractionOf(second, 'pork')).toBe('0.825');
    expect(fractionOf(second, 'process-loss-water')).toBe('-0.04');
    expect(compare(sumOfParts(second), ONE)).toBe(0);
    expect(second.composition.fatFraction).toBeCloseTo(0.14 + 0.02 + 0.2 * 0.125, 12);
  });

  it('has the mean fat of two lots of one material', () => {
    const lean = {
      ...testMaterial('pork'),
      composition: { ...testMaterial('pork').composition, fatFraction: 0.1 },
    };
    const mixed = made([line('pork', '3'), { material: lean, massKg: exact('1') }]);
    expect(mixed.madeOf).toHaveLength(1);
    expect(mixed.madeOf?.[0]?.material.composition.fatFraction).toBeCloseTo(0.175, 12);
  });

  it('does not grow from day to day', () => {
    let lot = first;
    for (let day = 0; day < 40; day++) {
      lot = made([...TEN_KG, { material: lot, massKg: exact('1.137') }], { finishedKg: exact('9.913') });
    }
    expect(lot.madeOf).toHaveLength(7);
    expect(compare(sumOfParts(lot), ONE)).toBe(0);
    expect(JSON.stringify(lot).length).toBeLessThan(6000);
    expect(toNumber(exact(fractionOf(lot, 'pork') ?? ''))).toBeGreaterThan(0.5);
  });
});

describe('the fat of rework', () => {
  const raw = made(TEN_KG);
  const lot = {
    id: 'R1',
    materialId: raw.id,
    onHandKg: 10,
    costPerKg: 1,
    receivedDate: '2026-11-20',
    state: 'chilled',
  } as const;
  const fatOf = (parts: ReturnType<typeof partsOf>) =>
    parts.reduce((total, part) => total + Number(part.fraction) * part.material.composition.fatFraction, 0);

  it.each([0, 0.05, 0.14, 0.2, 0.6])('is that of a test of %s: the difference lies in its meat', (tested) => {
    const { composition } = supplyOfLot({ ...lot, measuredFat: { fatFraction: tested, method: 'NIR' } }, raw);
    const parts = partsOf(raw, composition);
    expect(fatOf(parts)).toBeCloseTo(tested, 11);
    expect(parts.slice(2)).toEqual(raw.madeOf?.slice(2));
  });

  it('leaves the parts as they are where nothing else was found', () => {
    expect(partsOf(raw, raw.composition)).toBe(raw.madeOf);
  });

  // By hand: trim of 20 % fat is uncertain by 2.5 points, and errors of lots add as squares.
  it('is as uncertain as its parts together, and more where a process took some', () => {
    const ofParts = Math.hypot(0.5 * 0.025, 0.2 * 0.025);
    expect(defaultFatSd(raw)).toBeCloseTo(ofParts, 12);
    expect(defaultFatSd(made(TEN_KG, { finishedKg: exact('8') }))).toBeCloseTo(
      Math.hypot(0.625 * 0.025, 0.25 * 0.025, 0.1 * 0.25),
      12,
    );
    const tested = TEN_KG.map((part) => ({ ...part, fatSdFraction: isMeat(part.material) ? 0.008 : 0 }));
    expect(defaultFatSd(made(tested))).toBeCloseTo(Math.hypot(0.5 * 0.008, 0.2 * 0.008), 12);
    expect(supplyOfLot(lot, raw).fat?.sdFraction).toBeCloseTo(ofParts, 12);
  });
});
