import type { Plant } from '../../../src/batch/plant.ts';
import type { PackFormat, Product } from '../../../src/batch/product.ts';
import type { Declaration } from '../../../src/labels/declaration.ts';
import type { NutritionPanel } from '../../../src/labels/nutrition/panel.ts';
import { type PackLabel, type PackOf, packLabel } from '../../../src/labels/packs/pack-label.ts';
import type { Standard } from '../../../src/rules/standard.ts';

/** Labels of invented packs: figures of the panels are made up, their words are those of each market. */

export const PLANT: Plant = {
  name: 'Demo Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 180,
  scales: [],
  address: ['1 Example Road', 'Sampletown, ZZ 00000'],
  printing: { priceCode: { numberSystem: '2', priceVerifier: false } },
};

export const US_PANEL: NutritionPanel = {
  format: 'us vertical',
  title: 'Nutrition Facts',
  serving: {
    count: '4 servings per container',
    size: '4 oz (112g)',
    grams: 112,
    referenceAmount: '114 g',
    citation: '9 CFR 317.312',
  },
  columns: ['% Daily Value*'],
  energy: { label: 'Calories', text: '290' },
  rows: [
    { label: 'Total Fat', amount: '23g', dailyValue: '29%', level: 0 },
    { label: 'Saturated Fat', amount: '9g', dailyValue: '45%', level: 1 },
    { label: 'Trans Fat', amount: '1g', level: 1 },
    { label: 'Cholesterol', amount: '80mg', dailyValue: '27%', level: 0 },
    { label: 'Sodium', amount: '75mg', dailyValue: '3%', level: 0 },
    { label: 'Total Carbohydrate', amount: '0g', dailyValue: '0%', level: 0 },
    { label: 'Dietary Fiber', amount: '0g', dailyValue: '0%', level: 1 },
    { label: 'Total Sugars', amount: '0g', level: 1 },
    { label: 'Includes 0g Added Sugars', amount: '', dailyValue: '0%', level: 2 },
    { label: 'Protein', amount: '19g', level: 0 },
    { label: 'Vitamin D', amount: '0mcg', dailyValue: '0%', level: 0, isFirstOfGroup: true },
    { label: 'Calcium', amount: '20mg', dailyValue: '2%', level: 0 },
    { label: 'Iron', amount: '2.2mg', dailyValue: '10%', level: 0 },
    { label: 'Potassium', amount: '300mg', dailyValue: '6%', level: 0 },
  ],
  footnotes: [
    '*The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice.',
  ],
  citation: '21 CFR 101.9',
};

/** Of packs that are weighed one by one: 9 CFR 317.309(b)(10)(iii). */
export const VARIED_PANEL: NutritionPanel = {
  ...US_PANEL,
  ...(US_PANEL.serving && { serving: { ...US_PANEL.serving, count: 'Varied servings per container' } }),
};

export const EU_PANEL: NutritionPanel = {
  format: 'eu table',
  title: 'Nutrition declaration',
  columns: ['per 100 g'],
  energy: { label: 'Energy', text: '1180 kJ / 284 kcal' },
  rows: [
    { label: 'Fat', amount: '23 g', level: 0 },
    { label: 'of which saturates', amount: '9.0 g', level: 1 },
    { label: 'Carbohydrate', amount: '1.2 g', level: 0 },
    { label: 'of which sugars', amount: '0.6 g', level: 1 },
    { label: 'Protein', amount: '18 g', level: 0 },
    { label: 'Salt', amount: '1.8 g', level: 0 },
  ],
  footnotes: [],
  citation: 'Regulation (EU) No 1169/2011',
};

export const CANADA_PANEL: NutritionPanel = {
  ...US_PANEL,
  format: 'canada basic',
  serving: { size: 'Per 100 g', grams: 100, referenceAmount: '100 g', citation: 'B.01.401' },
  columns: ['% Daily Value*'],
  rows: [
    { label: 'Fat', amount: '23 g', dailyValue: '31 %', level: 0 },
    { label: 'Saturated', amount: '9 g', level: 1 },
    { label: '+ Trans', amount: '0.2 g', dailyValue: '46 %', level: 1 },
    { label: 'Carbohydrate', amount: '4 g', level: 0 },
    { label: 'Fibre', amount: '0 g', dailyValue: '0 %', level: 1 },
    { label: 'Sugars', amount: '1 g', dailyValue: '1 %', level: 1 },
    { label: 'Protein', amount: '17 g', level: 0 },
    { label: 'Cholesterol', amount: '80 mg', level: 0 },
    { label: 'Sodium', amount: '740 mg', dailyValue: '32 %', level: 0 },
    { label: 'Potassium', amount: '300 mg', dailyValue: '9 %', level: 0, isFirstOfGroup: true },
    { label: 'Calcium', amount: '20 mg', dailyValue: '2 %', level: 0 },
    { label: 'Iron', amount: '2 mg', dailyValue: '11 %', level: 0 },
  ],
  footnotes: ['*5% or less is a little, 15% or more is a lot'],
};

const LINKS_STATEMENT =
  'Pork, water, contains 2% or less of: salt, sugar, spices, milk powder (milk), soy protein concentrate.';

/** What differs where the label is read: the statement, allergens in it or after it, the official mark. */
const METRIC: Readonly<Record<string, object>> = {
  eu: {
    qualifiers: [],
    ingredients: {
      text: 'Pork 78%, water, rusk (WHEAT flour, salt), salt, MILK powder, spices, sheep casing.',
      ingredients: [{ name: 'pork', fraction: 0.78, parts: [], inSmallGroup: false, quantity: '78%' }],
    },
    allergens: { allergens: ['wheat', 'milk'] },
    storage: { text: 'Keep refrigerated', citation: 'Article 25' },
    date: { text: 'Use by', citation: 'Article 24' },
    cookingInstruction: { text: 'Cook thoroughly before eating', citation: 'Article 6' },
    inspection: { text: 'Identification mark with approval number 00000 goes here', citation: 'Annex II' },
  },
  ca: {
    ingredients: {
      text: 'Pork, Water, Salt, Sugars (sugar), Milk powder (milk), Soy protein concentrate, Spices.',
      ingredients: [],
    },
    storage: { text: 'Keep refrigerated', citation: 'B.01.007' },
    date: { text: 'Best before', citation: 'B.01.007' },
    inspection: { text: 'Inspection legend with establishment number 00000 goes here', citation: 'SFCR' },
  },
};

const declarations = {
  beef: {
    name: 'Ground Beef',
    qualifiers: [],
    leanPair: { text: '80% lean / 20% fat', citation: '9 CFR 317.362(f)' },
    ingredients: {
      text: 'Beef.',
      ingredients: [{ name: 'beef', fraction: 1, parts: [], inSmallGroup: false }],
    },
    allergens: { allergens: [] },
  },
  links: {
    name: 'Breakfast Sausage Links',
    qualifiers: [{ text: 'In sheep casing', citation: '9 CFR 317.8(b)(37)' }],
    ingredients: { text: LINKS_STATEMENT, ingredients: [] },
    allergens: { allergens: ['milk', 'soy'], text: 'Contains: Milk, Soy.' },
  },
} as const;

const US_DUTIES = {
  storage: { text: 'Keep Refrigerated', citation: '9 CFR 317.2(k)' },
  inspection: { text: 'Inspection legend', citation: '9 CFR 317.2(i)' },
};
const RAW = { safeHandling: { text: 'Safe handling instructions', citation: '9 CFR 317.2(l)' } };

/** The parts of a declaration that a pack label reads. */
export function declarationOf(
  kind: keyof typeof declarations,
  jurisdiction = 'us',
  isRaw = true,
): Declaration {
  return {
    ...declarations[kind],
    ...(jurisdiction === 'us' ? { ...US_DUTIES, ...(isRaw && RAW) } : {}),
    ...(kind === 'links' && METRIC[jurisdiction]),
    cautions: [],
  } as unknown as Declaration;
}

export function productOf(kind: keyof typeof declarations, jurisdiction = 'us'): Product {
  return {
    id: kind,
    name: declarations[kind].name,
    standard: { jurisdiction, productClass: 'any' },
    form: { shape: kind === 'beef' ? 'bulk' : 'link' },
    label: { storage: 'keep refrigerated' },
  } as unknown as Product;
}

export const BRICK: PackFormat = {
  id: 'brick-1-lb',
  gtin: '400001000014',
  netWeight: { value: '1', unit: 'lb' },
};

export const TRAY: PackFormat = {
  id: 'tray',
  gtin: '99521000000011',
  itemNumber: '01234',
  price: { amount: '5.49', per: 'lb' },
  tare: { value: '0.03', unit: 'lb' },
};

export const LINK_PACK: PackFormat = {
  id: 'links-12-oz',
  gtin: '9521000000018',
  netWeight: { value: '12', unit: 'oz' },
  pieces: 8,
};

export function labelOf(part: Partial<PackOf> = {}): PackLabel {
  return packLabel({
    declaration: declarationOf('beef'),
    product: productOf('beef'),
    standard: { citation: '9 CFR 319.15(a)' } as Standard,
    plant: PLANT,
    format: BRICK,
    lotId: '261125-001-P1',
    packedDate: '2026-11-25',
    useByDate: '2026-12-09',
    ...part,
  });
}

export const beefBrick = () => labelOf();
export const weighedTray = () => labelOf({ format: TRAY, net: { value: '1.238', unit: 'lb' } });
export const links = () =>
  labelOf({ declaration: declarationOf('links'), product: productOf('links'), format: LINK_PACK });
export const cookedLinks = () =>
  labelOf({
    declaration: declarationOf('links', 'us', false),
    product: productOf('links'),
    format: LINK_PACK,
  });
export const metricSausage = (jurisdiction = 'eu') =>
  labelOf({
    declaration: declarationOf('links', jurisdiction, false),
    product: productOf('links', jurisdiction),
    plant: { ...PLANT, units: 'kg', currency: 'EUR', jurisdiction },
    format: { id: 'pack', gtin: '9521000000018', netWeight: { value: '500', unit: 'g' }, pieces: 6 },
  });

/** Little text, for the smallest stocks. */
export const smallPack = () =>
  labelOf({
    declaration: {
      ...declarationOf('beef', 'anz', false),
      name: 'Beef Mince',
      leanPair: undefined,
    } as unknown as Declaration,
    product: productOf('beef', 'anz'),
    plant: { ...PLANT, name: 'Demo', units: 'kg', currency: 'AUD', address: ['Sampletown ZZ'] },
    format: { id: 'pack', gtin: '9521000000018', netWeight: { value: '500', unit: 'g' } },
  });

/** A case whose number is for receiving docks: 14 digits, so its code is a long one. */
export const weighedCase = () =>
  labelOf({
    declaration: declarationOf('links', 'us', false),
    product: productOf('links'),
    format: { id: 'case', gtin: '99521000000011' },
    net: { value: '10.456', unit: 'lb' },
  });

/** GTIN-8 of the prefix for use within a company. */
export const shortNumber = () =>
  labelOf({
    declaration: declarationOf('links', 'us', false),
    product: productOf('links'),
    format: { ...LINK_PACK, gtin: '02000015' },
  });

export const verifiedPrice = () =>
  labelOf({
    declaration: declarationOf('links', 'us', false),
    product: productOf('links'),
    plant: { ...PLANT, printing: { priceCode: { numberSystem: '2', priceVerifier: true } } },
    format: TRAY,
    net: { value: '1.238', unit: 'lb' },
  });
