import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Process } from '../../src/batch/product.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { MASS_BALANCE } from '../../src/rules/mass-balance.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import { US } from '../../src/standards/us/us.ts';
import { loadMaterials } from '../../src/tables/materials.ts';
import {
  COOKED,
  checkOne,
  limitOf,
  RAW,
  standardOf,
  testSupply,
  type Weighed,
  weigh,
} from '../helpers/materials.ts';

/** Batches that no law allows and that each slipped past the limits once. */

const broken = (productClass: string, lines: readonly Weighed[], process: Process = RAW) => {
  const { coefficients, massesKg } = weigh(lines, process);
  return checkLimits(standardOf(productClass).limits, coefficients, massesKg)
    .filter(({ holds, limit }) => !holds && limit.sense !== 'present')
    .map(({ limit }) => limit.id);
};

const TABLES = loadMaterials(fileURLToPath(new URL('../../ingredient-tables/', import.meta.url)));
const tableSupply = (id: string) => {
  const material = TABLES.get(id);
  if (!material) throw new RangeError(`no material ${id}`);
  return supplyOfMaterial(material, 1);
};
const forbidden = (productClass: string, id: string) =>
  forbiddenBy(standardOf(productClass).limits, tableSupply(id), RAW)?.id;

describe('a loss larger than what is there', () => {
  const lossOf = (fatLossFraction: number, yieldFraction: number): Process => ({
    ...COOKED,
    fatLossFraction,
    yieldFraction,
  });
  const unbalanced = (lines: readonly Weighed[], process: Process) => {
    const { coefficients, massesKg } = weigh(lines, process);
    return checkLimits(MASS_BALANCE, coefficients, massesKg)
      .filter(({ holds }) => !holds)
      .map(({ limit }) => limit.id);
  };

  it('breaks the balance of fat exactly where more is lost than there is', () => {
    const pork: Weighed[] = [['pork', '100']];
    expect(unbalanced(pork, lossOf(0.2, 0.8))).toEqual([]);
    expect(unbalanced(pork, lossOf(0.2001, 0.79))).toEqual(['mass-balance-fat']);
  });

  it('breaks the balance of water exactly where more is lost than there is', () => {
    // 60 % of the pork is water.
    const pork: Weighed[] = [['pork', '100']];
    expect(unbalanced(pork, lossOf(0, 0.4))).toEqual([]);
    expect(unbalanced(pork, lossOf(0, 0.3999))).toEqual(['mass-balance-water']);
  });

  it('no longer cancels the limit of fat and added water', () => {
    // Negative fat would pay for a third of water.
    const lines: Weighed[] = [
      ['water', '50'],
      ['chicken', '10'],
      ['beef-fat-06', '90'],
    ];
    const process = lossOf(0.15, 0.8);
    const both = limitOf('us-319.180a-fat-and-added-water');
    expect(checkOne(both, lines, process).holds).toBe(true);
    expect(unbalanced(lines, process)).toEqual(['mass-balance-fat']);
  });

  it('is a row of the linear problem like any other limit', () => {
    const coefficients = new Coefficients([testSupply('pork'), testSupply('salt')], lossOf(0.05, 0.9));
    const [fat] = MASS_BALANCE;
    expect(fat && rowsOf(fat, coefficients).map(toRow)[0]).toEqual({
      name: 'mass-balance-fat',
      lower: 0,
      upper: Number.POSITIVE_INFINITY,
      terms: [
        { column: 0, coefficient: 0.15 },
        { column: 1, coefficient: -0.05 },
      ],
    });
  });
});

describe('a class of product and its cooking', () => {
  it('are told together: a name of a cooked sausage is no raw one', () => {
    for (const productClass of ['frankfurter', 'cooked-sausage']) {
      expect(standardOf(productClass).cooking, productClass).toEqual(['cooked']);
    }
    for (const productClass of ['ground-beef', 'fresh-pork-sausage', 'italian-sausage', 'uncooked-sausage']) {
      expect(standardOf(productClass).cooking, productClass).toEqual(['raw']);
    }
  });
});

describe('what is neither meat nor seasoning', () => {
  const PLAIN = [
    'ground-beef',
    'hamburger',
    'beef-patties',
    'fresh-pork-sausage',
    'fresh-beef-sausage',
    'breakfast-sausage',
    'whole-hog-sausage',
    'italian-sausage',
    'smoked-pork-sausage',
    'frankfurter',
  ];
  const FILLERS = ['potato', 'mushroom', 'cabbage', 'carrot', 'apple', 'pistachio', 'cheddar-cheese'];
  const SEASONINGS = ['garlic-fresh', 'onion-fresh', 'onion-flakes', 'green-onion', 'parsley-fresh'];

  it.each(PLAIN)('stays out of %s', (productClass) => {
    for (const id of FILLERS) expect(forbidden(productClass, id), id).toMatch(/-seasoning-only$/);
    for (const id of SEASONINGS) expect(forbidden(productClass, id), id).toBeUndefined();
  });

  it('may go into other sausage, which has a name of its own', () => {
    for (const id of FILLERS) {
      expect(forbidden('uncooked-sausage', id), id).toBeUndefined();
      expect(forbidden('cooked-sausage', id), id).toBeUndefined();
    }
  });

  // 9 CFR 319.145(b)(3): "Red or green peppers, or both."
  it.each(['green-pepper-fresh', 'red-pepper-fresh'])('%s goes into Italian sausage alone', (id) => {
    expect(forbidden('italian-sausage', id)).toBeUndefined();
    expect(forbidden('fresh-pork-sausage', id)).toBe('us-319.141-seasoning-only');
  });
});

describe('water that comes in a liquid', () => {
  const LIQUIDS = [
    'wine-red',
    'wine-white',
    'beer',
    'vinegar-distilled',
    'vinegar-cider',
    'vinegar-red-wine',
    'lemon-juice',
    'apple-juice',
    'soy-sauce',
    'smoke-flavor',
    'sodium-lactate-60',
    'potassium-lactate-60',
    'sodium-lactate-56-diacetate-4',
  ];

  it.each(LIQUIDS)('is all of the water in %s', (id) => {
    const { material, composition } = tableSupply(id);
    expect(material.substances['free water']).toBe(composition.waterFraction);
  });

  it('counts in the 3 % of uncooked sausage', () => {
    const water = limitOf('us-319.140-water');
    // The wine is nine tenths water: 1.8 kg and 1.2 kg of ice are 3 in 100 kg.
    const lines = (ice: string): Weighed[] => [
      ['wine', '2'],
      ['ice', ice],
      ['pork', '96.8'],
    ];
    expect(checkOne(water, lines('1.2'))).toMatchObject({ holds: true, numeratorKg: 3, basisKg: 100 });
    expect(checkOne(water, lines('1.21')).holds).toBe(false);
  });

  it('keeps the liquid out of ground beef', () => {
    expect(forbidden('ground-beef', 'wine-red')).toBe('us-319.15-no-added-water');
    expect(forbidden('hamburger', 'soy-sauce')).toBe('us-319.15-no-added-water');
    expect(forbidden('hamburger', 'garlic-fresh')).toBeUndefined();
  });

  it('is no ingredient that lets more poultry into a frankfurter', () => {
    const poultry = limitOf('us-319.180a-poultry');
    expect(
      checkOne(poultry, [
        ['chicken', '15'],
        ['beef', '84'],
        ['wine', '10'],
      ]),
    ).toMatchObject({ holds: true, basisKg: 100 });
  });
});

describe('a seasoning that carries something limited', () => {
  // A fifth of isolated soy protein, a tenth of caseinate.
  it('brings its soy protein and caseinate into the 3.5 % at 1.75 of their weight', () => {
    const binders = limitOf('us-424.21c-binders');
    const lines = (mix: string): Weighed[] => [
      ['mix-with-soy', mix],
      ['pork', '100'],
    ];
    expect(checkOne(binders, lines('1')).numeratorKg).toBe(0.525);
    expect(checkOne(binders, lines('7')).holds).toBe(true);
    expect(checkOne(binders, lines('8')).holds).toBe(false);
  });

  it.each([
    ['hamburger', 'mix-with-soy', 'us-319.15-no-binder'],
    ['fresh-pork-sausage', 'mix-with-soy', 'us-319.141-no-binder'],
    ['italian-sausage', 'mix-with-soy', 'us-319.145b-no-binder'],
    ['ground-beef', 'mix-with-lactate', 'us-319.15-no-antimicrobial'],
  ])('stays out of %s where the standard takes none of it: %s', (productClass, id, limitId) => {
    expect(
      broken(productClass, [
        [id, '0.001'],
        ['salt', '1'],
      ]),
    ).toContain(limitId);
    expect(forbiddenBy(standardOf(productClass).limits, testSupply(id), RAW)?.id).toBe(limitId);
  });
});

describe('poultry in sausage of livestock', () => {
  it.each(['uncooked-sausage', 'cooked-sausage'])('is at most half of the meat: %s', (productClass) => {
    const half: Weighed[] = [
      ['chicken', '50'],
      ['pork', '50'],
    ];
    expect(broken(productClass, half)).toEqual([]);
    expect(
      broken(productClass, [
        ['chicken', '50.01'],
        ['pork', '49.99'],
      ]),
    ).toEqual(['us-319.140-poultry']);
    expect(broken(productClass, [['chicken', '100']])).toContain('us-319.140-poultry');
  });

  it('does not go into breakfast sausage, which names meat and its byproducts', () => {
    expect(
      broken('breakfast-sausage', [
        ['chicken', '1'],
        ['pork', '99'],
      ]),
    ).toEqual(['us-319.143-no-poultry']);
  });
});

describe('the rules', () => {
  it('say in which edition they were read', () => {
    expect(US.edition).toBe('9 CFR as read in the 2015 annual edition; later changes looked for in part');
  });
});
