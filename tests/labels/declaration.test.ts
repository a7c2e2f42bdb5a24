import { describe, expect, it } from 'vitest';
import type { Plant } from '../../src/batch/plant.ts';
import type { Product } from '../../src/batch/product.ts';
import { declare } from '../../src/labels/declaration.ts';
import { US } from '../../src/standards/us/us.ts';
import {
  blendLine,
  blendOf,
  COOKED,
  material,
  RAW,
  standardOf,
  testMaterial,
  testProduct,
} from '../helpers/materials.ts';

const plant: Plant = {
  name: 'Test Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 100,
  scales: [],
  address: ['1 Example Road', 'Sampletown, ZZ 00000'],
};

function label(
  productClass: string,
  given: Partial<Product> = {},
  materialIds: readonly string[] = ['pork'],
) {
  const lines = materialIds.map((id) => blendLine(testMaterial(id), '1'));
  return declare(testProduct(productClass, given), standardOf(productClass), blendOf(lines), plant);
}

const isPoultry = (productClass: string) => standardOf(productClass).citation.includes('9 CFR 381');
const nameOf = (...given: Parameters<typeof label>) => label(...given).name;
const textsOf = (...given: Parameters<typeof label>) => label(...given).qualifiers.map(({ text }) => text);

describe('the name of the product', () => {
  it.each([
    ['ground-beef', 'Ground Beef'],
    ['hamburger', 'Hamburger'],
    ['beef-patties', 'Beef Patties'],
    ['fresh-pork-sausage', 'Fresh Pork Sausage'],
    ['fresh-beef-sausage', 'Fresh Beef Sausage'],
    ['breakfast-sausage', 'Pork Breakfast Sausage'],
    ['whole-hog-sausage', 'Whole Hog Sausage'],
    ['italian-sausage', 'Italian Sausage'],
    ['uncooked-sausage', 'House Product'],
    ['smoked-pork-sausage', 'Smoked Pork Sausage'],
    ['frankfurter', 'Uncured Pork Frankfurter'],
    ['cooked-sausage', 'House Product'],
  ])('of class %s with pork alone is %s', (productClass, name) => {
    expect(nameOf(productClass)).toBe(name);
  });

  it('is tested for every class of product', () => {
    for (const { productClass, naming } of US.standards) {
      // What it leaves open is what was added: nothing here.
      const name = naming.name?.replace('X%', '0%') ?? 'House Product';
      expect(nameOf(productClass), productClass).toContain(name);
    }
  });

  // One species in the name where it is the only one: 9 CFR 319.180(c).
  it('has no species in front where two went in, and the poultry where it stands alone', () => {
    expect(nameOf('frankfurter', {}, ['pork', 'beef', 'cure-6.25'])).toBe('Frankfurter');
    expect(nameOf('frankfurter', {}, ['beef', 'salt', 'water', 'cure-6.25'])).toBe('Beef Frankfurter');
    expect(nameOf('breakfast-sausage', {}, ['pork', 'chicken-fat'])).toBe('Breakfast Sausage');
    expect(nameOf('frankfurter', {}, ['pork', 'pork-fat', 'pork-separated', 'cure-6.25'])).toBe(
      'Pork Frankfurter',
    );
  });

  // "Uncured" before the name and the statement beside it: 9 CFR 319.2 and 317.17, read in texts that quote them.
  it('says uncured where the name promises a cure and none went in', () => {
    expect(nameOf('frankfurter')).toBe('Uncured Pork Frankfurter');
    expect(nameOf('frankfurter', {}, ['pork', 'cure-6.25'])).toBe('Pork Frankfurter');
    expect(nameOf('cooked-sausage')).not.toContain('Uncured');
  });

  it('says smoked once for a smoked product', () => {
    expect(nameOf('frankfurter', { process: { ...COOKED, smoked: true } }, ['pork', 'cure-6.25'])).toBe(
      'Smoked Pork Frankfurter',
    );
    expect(nameOf('smoked-pork-sausage', { process: { ...RAW, smoked: true } })).toBe('Smoked Pork Sausage');
    expect(nameOf('cooked-sausage', { name: 'Smoked Sausage', process: { ...COOKED, smoked: true } })).toBe(
      'Smoked Sausage',
    );
  });

  it('says patties once for patties', () => {
    const form = { shape: 'patty', pieceKg: 0.15 } as const;
    expect(nameOf('hamburger', { form })).toBe('Hamburger Patties');
    expect(nameOf('beef-patties', { form })).toBe('Beef Patties');
    expect(nameOf('uncooked-sausage', { name: 'House Pattie', form })).toBe('House Pattie');
  });
});

describe('the lines that stand with the name', () => {
  // 9 CFR 316.11(b), edition of 2012; as cited by the product, from memory, verify.
  it('mark a link with each binder added', () => {
    const link = { form: { shape: 'link' } } as const;
    expect(textsOf('breakfast-sausage', link, ['pork', 'nonfat-dry-milk'])).toEqual([
      'Nonfat dry milk added',
    ]);
    expect(textsOf('breakfast-sausage', link, ['pork', 'nonfat-dry-milk', 'soy-flour'])).toEqual([
      'Nonfat dry milk and soy flour added',
    ]);
    expect(textsOf('breakfast-sausage', link, ['pork', 'salt'])).toEqual([]);
  });

  it.each(['bulk', 'chub', 'patty'] as const)(
    'do not mark a binder where the product is no link: %s',
    (shape) => {
      expect(textsOf('breakfast-sausage', { form: { shape } }, ['pork', 'nonfat-dry-milk'])).toEqual([]);
    },
  );

  // 9 CFR 317.2(j)(3)
  it('name added smoke flavoring, whatever material carries it', () => {
    const blend = material('barbecue', 'spice', { substances: { 'smoke flavor': 0.01 } });
    const { qualifiers } = declare(
      testProduct('cooked-sausage'),
      standardOf('cooked-sausage'),
      blendOf([blendLine(testMaterial('pork'), '1'), blendLine(blend, '0.1')]),
      plant,
    );
    expect(qualifiers).toEqual([{ text: 'Smoke flavoring added', citation: '9 CFR 317.2(j)(3)' }]);
    expect(textsOf('cooked-sausage', {}, ['pork', 'smoke-flavor'])).toEqual(['Smoke flavoring added']);
    expect(textsOf('cooked-sausage', { process: { ...COOKED, smoked: true } }, ['pork'])).toEqual([]);
  });

  // 9 CFR 317.2(j)(10)
  it('name an antioxidant and what it is for', () => {
    const { qualifiers } = label('fresh-pork-sausage', {}, ['pork', 'BHA', 'BHT']);
    expect(qualifiers).toEqual([
      { text: 'BHA and BHT added to help protect flavor', citation: '9 CFR 317.2(j)(10)' },
    ]);
  });
});

describe('the lean and fat pair', () => {
  const withLean = { label: { leanPercent: 80, storage: 'keep refrigerated' } } as const;

  // 9 CFR 317.362(f) and, of poultry, 381.462(f): official.
  it.each(US.standards.map((standard) => [standard.productClass, standard.naming.leanPair] as const))(
    'stands on ground product only: %s, %s',
    (productClass, stands) => {
      const citation = isPoultry(productClass) ? '9 CFR 381.462(f)' : '9 CFR 317.362(f)';
      const expected = stands ? { text: '80% lean / 20% fat', citation } : undefined;
      expect(label(productClass, withLean).leanPair).toEqual(expected);
      expect(label(productClass).leanPair).toBeUndefined();
    },
  );

  it('never shows the lean without the fat, and both make a hundred', () => {
    const lines = [blendLine(material('fat-free', 'skeletal meat', { species: 'beef' }), '1')];
    for (let tenths = 700; tenths <= 990; tenths++) {
      const leanPercent = tenths / 10;
      const product = testProduct('ground-beef', { label: { leanPercent, storage: 'keep frozen' } });
      const { leanPair } = declare(product, standardOf('ground-beef'), blendOf(lines), plant);
      const fatTenths = 1000 - tenths;
      const fat =
        fatTenths % 10 === 0 ? `${fatTenths / 10}` : `${Math.floor(fatTenths / 10)}.${fatTenths % 10}`;
      expect(leanPair?.text).toBe(`${leanPercent}% lean / ${fat}% fat`);
    }
  });
});

describe('what else the label must say', () => {
  // 9 CFR 317.2(l) and 381.125(b): official.
  it('is safe handling for raw product and not for cooked', () => {
    for (const { productClass } of US.standards) {
      expect(label(productClass, { process: RAW }).safeHandling?.citation, productClass).toBe(
        isPoultry(productClass) ? '9 CFR 381.125(b)' : '9 CFR 317.2(l)',
      );
      expect(label(productClass, { process: COOKED }).safeHandling, productClass).toBeUndefined();
    }
  });

  it('is safe handling for smoked product that stays raw', () => {
    const { safeHandling } = label('smoked-pork-sausage', { process: { ...RAW, smoked: true } });
    expect(safeHandling?.text).toMatch(/^Safe handling instructions/);
  });

  // 9 CFR 317.2(k)
  it('is how to keep it', () => {
    expect(label('hamburger').storage).toEqual({ text: 'Keep Refrigerated', citation: '9 CFR 317.2(k)' });
    expect(label('hamburger', { label: { storage: 'keep frozen' } }).storage?.text).toBe('Keep Frozen');
  });

  it('is said by the rules of poultry on poultry', () => {
    const { storage, inspection, maker, ingredients } = label('ground-chicken', {}, ['chicken']);
    expect([storage, inspection, maker, ingredients].map((part) => part?.citation)).toEqual([
      '9 CFR 381.125(a)',
      '9 CFR 381.123',
      '9 CFR 381.122',
      '9 CFR 381.118',
    ]);
  });

  // 9 CFR 317.2(i)
  it('is the legend with the number of the establishment', () => {
    const { inspection } = label('hamburger');
    expect(inspection?.text).toContain('establishment number 00000');
    expect(inspection?.citation).toBe('9 CFR 317.2(i)');
  });

  it('tells what a meat content would need, and fails no label for it', () => {
    const {
      composition: { collagenFraction: _, ...composition },
      ...pork
    } = testMaterial('pork');
    const { meatContent, cautions, ingredients } = declare(
      testProduct('dried-sausage', { standard: { jurisdiction: 'eu', productClass: 'dried-sausage' } }),
      standardOf('dried-sausage', 'eu'),
      blendOf([blendLine({ ...pork, composition }, '100')]),
      plant,
    );
    expect(meatContent).toBeUndefined();
    expect(ingredients.text).toMatch(/^Pork /);
    expect(cautions.join('\n')).toMatch(/meat content is not worked out, for the collagen of pork/);
  });

  it('is every ingredient and allergen of the blend', () => {
    const { ingredients, allergens } = label('breakfast-sausage', {}, [
      'pork',
      'nonfat-dry-milk',
      'soy-flour',
    ]);
    expect(ingredients.text).toBe('Nonfat dry milk, pork, soy flour.');
    expect(allergens.text).toBe('Contains: Milk, Soy.');
  });
});
