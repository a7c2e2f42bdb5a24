import { describe, expect, it } from 'vitest';
import type { ProductLabel } from '../../../src/batch/product.ts';
import { nutritionLines } from '../../../src/documents/nutrition-text.ts';
import { COOKED } from '../../helpers/materials.ts';
import { BEEF, BRAN, known, nutritionOfParts, SALT, WATER } from './batches.ts';

const storage = 'keep refrigerated' as const;
const GROUND = [[BEEF, '100']] as const;

describe('the table of Europe', () => {
  it.each(['eu', 'gb'])(
    'is for 100 g, with fiber out of carbohydrate and salt for sodium: %s',
    (jurisdiction) => {
      const { panel } = nutritionOfParts(
        [
          [BEEF, '93'],
          [BRAN, '2'],
          [SALT, '2'],
          [WATER, '3'],
        ],
        { jurisdiction, productClass: jurisdiction === 'eu' ? 'fresh-sausage' : 'sausage' },
      );
      expect(panel?.format).toBe('eu table');
      expect(panel?.serving).toBeUndefined();
      expect(panel?.columns).toEqual(['per 100 g']);
      // 18.6 g of fat, 15.81 of protein, 0.4 of carbohydrate and 1 of fiber: 972 kJ and 234 kcal.
      expect(panel?.energy.text).toBe('972 kJ / 234 kcal');
      expect(panel?.rows.map(({ label, amount, level }) => `${level} ${label} ${amount}`)).toEqual([
        '0 Fat 19 g',
        '1 of which saturates 7.4 g',
        '0 Carbohydrate < 0.5 g',
        '1 of which sugars 0 g',
        '0 Protein 16 g',
        '0 Salt 2.1 g',
      ]);
    },
  );

  it('needs no figure that it does not show', () => {
    const { transFatFraction: _, ironMgPerKg: __, vitaminDMcgPerKg: ___, ...composition } = BEEF.composition;
    const beef = { ...BEEF, composition };
    expect(
      nutritionOfParts([[beef, '1']], { jurisdiction: 'eu', productClass: 'fresh-sausage' }).panel,
    ).toBeDefined();
    expect(nutritionOfParts([[beef, '1']]).panel).toBeUndefined();
  });
});

describe('the table of Canada', () => {
  const CANADA = { jurisdiction: 'ca', productClass: 'regular-ground-beef' } as const;

  it('has saturated and trans fat with one percent, and its own Daily Values', () => {
    const { panel } = nutritionOfParts(GROUND, CANADA);
    expect(panel?.serving).toMatchObject({ size: 'Per 125 g', grams: 125 });
    // 125 g: 25 g of fat, 10 + 1.25 g of 20 g, 337.5 mg of potassium of 3400, 22.5 mg of calcium, 2.375 mg of iron.
    expect(
      panel?.rows.map(({ label, amount, dailyValue = '' }) => `${label} ${amount} ${dailyValue}`.trim()),
    ).toEqual([
      'Fat 25 g 33 %',
      'Saturated 10 g',
      '+ Trans 1.5 g 56 %',
      'Carbohydrate 0 g',
      'Fibre 0 g 0 %',
      'Sugars 0 g 0 %',
      'Protein 21 g',
      'Cholesterol 90 mg',
      'Sodium 85 mg 4 %',
      'Potassium 350 mg 10 %',
      'Calcium 20 mg 2 %',
      'Iron 2.5 mg 13 %',
    ]);
  });

  // Food and Drug Regulations, B.01.350 and B.01.350(13.01).
  it('says whether the symbol on the front is due, and that plain ground meat is exempt', () => {
    const told = (parts: Parameters<typeof nutritionOfParts>[0], given = {}) =>
      nutritionOfParts(parts, { ...CANADA, ...given }).cautions.join('\n');
    expect(told(GROUND)).toMatch(
      /symbol are met for saturated fat: saturated fat 56\.3 %.*carries no symbol/,
    );
    const seasoned = told(
      [
        [BEEF, '98'],
        [SALT, '2'],
      ],
      { productClass: 'beef-patty' },
    );
    expect(seasoned).toMatch(/met for saturated fat and sodium/);
    expect(seasoned).not.toMatch(/carries no symbol/);
    const lean = known(
      'lean',
      'skeletal meat',
      { waterFraction: 0.78, proteinFraction: 0.22 },
      { species: 'beef' },
    );
    expect(told([[lean, '1']])).toMatch(/no threshold .* is met/);
  });
});

describe('where no panel is printed', () => {
  it.each(['codex', 'anz'])('the figures stand and the caution says so: %s', (jurisdiction) => {
    const [productClass = ''] = { codex: ['luncheon-meat'], anz: ['fresh-sausage'] }[jurisdiction] ?? [];
    const process = jurisdiction === 'codex' ? { process: COOKED } : {};
    const nutrition = nutritionOfParts(GROUND, { jurisdiction, productClass, ...process });
    expect(nutrition.panel).toBeUndefined();
    expect(nutrition.cautions.join()).toMatch(/panel of this market is not/);
    expect(nutritionLines(nutrition).join('\n')).toMatch(/protein +17\.00 g/);
  });

  // 9 CFR 317.400(a)(1), edition of 2015.
  it('an exemption is the claim of the plant, which a nutrition claim contradicts', () => {
    const exempt = { storage, nutritionExemption: 'small business' } as const;
    const told = (label: ProductLabel) => nutritionOfParts(GROUND, { label });
    expect(told(exempt).panel).toBeUndefined();
    expect(told(exempt).cautions.join()).toMatch(/the plant claims an exemption: "small business"/);
    expect(told(exempt).cautions.join()).not.toMatch(/ends the exemption/);
    expect(told({ ...exempt, claims: ['extra lean'] }).cautions.join()).toMatch(
      /extra lean: a nutrition claim ends/,
    );
    expect(told({ ...exempt, claims: ['product of usa'] }).cautions.join()).not.toMatch(/ends the exemption/);
    expect(told({ ...exempt, leanPercent: 80 }).cautions.join()).not.toMatch(/ends the exemption/);
  });

  it('the cautions name the exemption, the records and what an analysis may find', () => {
    const told = nutritionOfParts(GROUND).cautions.join('\n');
    expect(told).toMatch(/500 people .* 100,000 lb a year/);
    expect(told).toMatch(/at most 120 %/);
    expect(told).toMatch(/no relief for figures of the USDA database/);
    expect(told).toMatch(/keep the records/);
    expect(nutritionOfParts(GROUND, { productClass: 'ground-turkey' }).cautions.join()).toMatch(
      /9 CFR 381\.409/,
    );
  });
});
