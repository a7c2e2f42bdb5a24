import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atFat } from '../../src/batch/composition.ts';
import {
  CERTIFICATE_SD,
  COMPOSITE_SD,
  defaultFatSd,
  FAT_AND_SKIN_SD,
  NIR_OR_SOLVENT_SD,
  OTHER_METHOD_SD,
  TRIM_CLASS_SDS,
  testedFatSd,
} from '../../src/batch/fat-certainty.ts';
import { type Lot, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import { MEAT_KINDS, OTHER_KINDS } from '../../src/batch/material.ts';
import { classBelief, learnTrim } from '../../src/batch/trim-learning.ts';
import { material } from '../helpers/materials.ts';

const trim = (fatFraction: number) =>
  material('trim', 'skeletal meat', {
    species: 'beef',
    composition: { fatFraction, waterFraction: 0.6, proteinFraction: 0.2 },
  });

describe('the fat of a lot known by its class', () => {
  it.each([
    ['95 % lean', 0.05, 0.02],
    ['85 % lean', 0.15, 0.02],
    ['84 % lean', 0.16, 0.025],
    ['70 % lean', 0.3, 0.025],
    ['69 % lean', 0.31, 0.035],
    ['42 % lean', 0.58, 0.035],
    ['nothing but fat', 1, 0.035],
  ])('%s', (_name, fatFraction, sdFraction) => {
    expect(defaultFatSd(trim(fatFraction))).toBe(sdFraction);
  });

  it('fat and skin have one figure, whatever they hold', () => {
    expect([defaultFatSd(material('a', 'fat')), defaultFatSd(material('b', 'skin'))]).toEqual([0.03, 0.03]);
  });

  it('every kind of meat is uncertain and nothing else is', () => {
    expect(MEAT_KINDS.filter((kind) => defaultFatSd(material('x', kind)) === 0)).toEqual([]);
    expect(OTHER_KINDS.filter((kind) => defaultFatSd(material('x', kind)) !== 0)).toEqual([]);
  });

  it('a fat that is no fraction is refused', () => {
    expect(() => defaultFatSd(trim(28))).toThrow('fatFraction of trim is 28; it must be 0 to 1');
  });
});

describe('the fat of a lot known by a test', () => {
  // By hand, in points: the root of 0.7 squared and the laboratory's part squared.
  it.each([
    ['NIR', 0.3, Math.sqrt(0.49 + 0.36)],
    ['NIT', 0.3, Math.sqrt(0.49 + 0.36)],
    ['near-infrared, bench', 0.5, Math.sqrt(0.49 + 1)],
    ['solvent extraction', 0.075, Math.sqrt(0.49 + 0.0225)],
    ['Ether extract', 0.02, Math.sqrt(0.49 + 0.0225)],
    ['microwave', 0.5, Math.sqrt(0.49 + 0.36)],
    ['X-ray', 0.05, Math.sqrt(0.49 + 0.36)],
    ['microwave and solvent', 0.05, Math.sqrt(0.49 + 0.36)],
    ['whether measured is not told', 0.05, Math.sqrt(0.49 + 0.36)],
    ['supplier certificate', 0.1, 1.5],
    ['Supplier certificate, NIR', 0.1, 1.5],
  ])('by %s at %d', (method, fatFraction, sdPoints) => {
    expect(testedFatSd({ method, fatFraction })).toBeCloseTo(sdPoints / 100, 12);
  });

  it("the plant's own figure comes before every default", () => {
    expect(testedFatSd({ method: 'supplier certificate', fatFraction: 0.1, sdFraction: 0.004 })).toBe(0.004);
  });

  it('a fatter lot is never surer by the same method', () => {
    const fat = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fat,
        fat,
        fc.constantFrom('NIR', 'microwave', 'supplier certificate', ''),
        (a, b, method) => {
          const [leaner, fatter] = [Math.min(a, b), Math.max(a, b)].map((fatFraction) =>
            testedFatSd({ method, fatFraction }),
          );
          expect(leaner).toBeLessThanOrEqual(fatter ?? 0);
        },
      ),
    );
  });

  it('every default says that it is a judgement', () => {
    const defaults = [
      ...TRIM_CLASS_SDS,
      FAT_AND_SKIN_SD,
      CERTIFICATE_SD,
      COMPOSITE_SD,
      NIR_OR_SOLVENT_SD,
      OTHER_METHOD_SD,
    ];
    expect(defaults.filter(({ source }) => !source.startsWith('own judgement'))).toEqual([]);
  });
});

describe('a supply tells what is known of its fat', () => {
  const beef = trim(0.35);
  const lot: Lot = {
    id: 'L-1',
    materialId: 'trim',
    onHandKg: 100,
    costPerKg: 4,
    receivedDate: '2026-11-20',
    state: 'chilled',
    supplierEstablishment: '00001',
  };
  const measuredFat = { fatFraction: 0.3, method: 'NIR' };
  const knowledge = learnTrim(
    { materialId: 'trim', supplierEstablishment: '00001', belief: classBelief(beef) },
    [0.3, 0.31].map((fatFraction) => ({
      materialId: 'trim',
      supplierEstablishment: '00001',
      date: '2026-11-18',
      fatFraction,
      method: 'NIR',
    })),
  );

  it('an untested lot of an untested supplier is its class', () => {
    const supply = supplyOfLot(lot, beef);
    expect(supply.composition).toBe(beef.composition);
    expect(supply.fat).toEqual({
      meanFraction: 0.35,
      sdFraction: 0.035,
      says: 'the figure of its class, not a test',
      from: 'class',
    });
    expect(supplyOfMaterial(beef, 4).fat).toEqual(supply.fat);
  });

  it('an untested lot of a tested supplier is what the tests lead to expect', () => {
    const { fat, composition } = supplyOfLot(lot, beef, knowledge);
    // (2 x 35 + 30 + 31) / 4
    expect(fat?.meanFraction).toBe(0.3275);
    expect(fat).toEqual({
      meanFraction: knowledge.meanFraction,
      sdFraction: knowledge.sdFraction,
      says: '2 tests of 2 lots of this trim from Est. 00001 up to 2026-11-18, class figure weighs 50 %',
      from: 'lots of the supplier',
    });
    expect(composition).toEqual(atFat(beef, 0.3275));
  });

  it('a tested lot is its own test, whatever the supplier sent before', () => {
    const tested = supplyOfLot({ ...lot, measuredFat }, beef);
    expect(tested.fat).toEqual({
      meanFraction: 0.3,
      sdFraction: testedFatSd(measuredFat),
      says: 'the figure of this lot by NIR',
      from: 'test',
    });
    expect(supplyOfLot({ ...lot, measuredFat }, beef, knowledge)).toEqual(tested);
  });

  it.each([
    ['supplier', { supplierEstablishment: '00002' }, 'L-1 is trim from Est. 00002'],
    ['trim', { materialId: 'other-trim' }, 'L-1 is other-trim from Est. 00001'],
  ])('knowledge of another %s is refused', (_name, change, words) => {
    expect(() => supplyOfLot({ ...lot, ...change }, beef, knowledge)).toThrow(words);
  });

  it('what is no meat has no such figure, even when its fat was measured', () => {
    const cheese = material('cheese', 'dairy', { composition: { fatFraction: 0.3, waterFraction: 0.4 } });
    const supply = supplyOfLot(
      { ...lot, materialId: 'cheese', measuredFat: { fatFraction: 0.25, method: 'NIR' } },
      cheese,
    );
    expect(supply).not.toHaveProperty('fat');
    expect(supply.composition.fatFraction).toBe(0.25);
    expect(supplyOfMaterial(cheese, 4)).not.toHaveProperty('fat');
  });
});
