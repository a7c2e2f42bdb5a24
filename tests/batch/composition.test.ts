import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Composition,
  OF_FAT,
  OF_LEAN,
  trimComposition,
  WHERE_KNOWN,
  withFat,
} from '../../src/batch/composition.ts';
import { readTrimLines } from '../../src/tables/trim-lines.ts';

const LINES = readTrimLines(
  'trim-lines.csv',
  readFileSync(new URL('../../ingredient-tables/trim-lines.csv', import.meta.url), 'utf8'),
);
const lineArbitrary = fc.constantFrom(...LINES.values());
const fatArbitrary = fc.integer({ min: 0, max: 9_500 }).map((permyriad) => permyriad / 10_000);

describe('a trim by the line of its species', () => {
  it('never has more fatty acids than fat, nor less than nothing of anything', () => {
    fc.assert(
      fc.property(lineArbitrary, fatArbitrary, (line, fatFraction) => {
        const trim = trimComposition(line, fatFraction);
        const { saturatedFatFraction = 0, transFatFraction = 0 } = trim;
        const { monounsaturatedFatFraction = 0, polyunsaturatedFatFraction = 0 } = trim;
        const acids = saturatedFatFraction + monounsaturatedFatFraction + polyunsaturatedFatFraction;
        expect(acids).toBeLessThanOrEqual(fatFraction + 1e-11);
        expect(transFatFraction).toBeLessThanOrEqual(fatFraction);
        for (const [field, value] of Object.entries(trim)) expect(value, field).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('has no carbohydrate, hence no fiber and no sugars', () => {
    const [beef] = LINES.values();
    if (!beef) throw new Error('no line');
    expect(trimComposition(beef, 0.2)).toMatchObject({
      carbohydrateFraction: 0,
      fiberFraction: 0,
      sugarsFraction: 0,
      addedSugarsFraction: 0,
    });
  });

  it('knows a figure only where there is a line of it', () => {
    const lamb = LINES.get('lamb');
    const beef = LINES.get('beef');
    if (!lamb || !beef) throw new Error('no line');
    const ofLamb = trimComposition(lamb, 0.2);
    expect(ofLamb).not.toHaveProperty('transFatFraction');
    expect(ofLamb).not.toHaveProperty('vitaminDMcgPerKg');
    expect(ofLamb.potassiumMgPerKg).toBeGreaterThan(2000);
    // By the file: trans −0.1155 + 0.0667 × 20, potassium 356.9256 − 4.04289 × 20, vitamin D 0.047 + 0.00469 × 20.
    const ofBeef = trimComposition(beef, 0.2);
    expect(ofBeef.transFatFraction).toBeCloseTo(0.012185, 9);
    expect(ofBeef.potassiumMgPerKg).toBeCloseTo(2760.678, 6);
    expect(ofBeef.vitaminDMcgPerKg).toBeCloseTo(1.408, 9);
  });
});

describe('another fat without a line', () => {
  const MEAT: Composition = {
    waterFraction: 0.6,
    fatFraction: 0.2,
    proteinFraction: 0.18,
    carbohydrateFraction: 0.01,
    ashFraction: 0.01,
    saltFraction: 0.002,
    saturatedFatFraction: 0.08,
    vitaminDMcgPerKg: 3,
    potassiumMgPerKg: 2800,
    sodiumMgPerKg: 640,
    sugarsFraction: 0.01,
    cholesterolMgPerKg: 700,
  };

  it('moves the parts of the fat with it and the rest with what is not fat', () => {
    // Fat from 20 to 40 %: twice, and 60 of 80 parts of the rest.
    expect(withFat(MEAT, 0.4)).toEqual({
      waterFraction: 0.45,
      fatFraction: 0.4,
      proteinFraction: 0.135,
      carbohydrateFraction: 0.0075,
      ashFraction: 0.0075,
      saltFraction: 0.0015,
      saturatedFatFraction: 0.16,
      vitaminDMcgPerKg: 6,
      potassiumMgPerKg: 2100,
      sodiumMgPerKg: 480,
      sugarsFraction: 0.0075,
      cholesterolMgPerKg: 700,
    });
  });

  it('knows no more and no less than before', () => {
    const known = (composition: Composition) =>
      WHERE_KNOWN.filter((field) => composition[field] !== undefined);
    fc.assert(
      fc.property(fc.subarray([...OF_FAT, ...OF_LEAN]), fatArbitrary, (fields, fatFraction) => {
        const given = { ...MEAT, ...Object.fromEntries(fields.map((field) => [field, 0.001])) };
        expect(known(withFat(given, fatFraction))).toEqual(known(given));
      }),
    );
  });
});
