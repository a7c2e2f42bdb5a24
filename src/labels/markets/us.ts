import type { Market, NutrientTest } from './market.ts';

const both = (nutrient: NutrientTest['nutrient'], bound: number, unit: 'g' | 'mg', isOpen: boolean) =>
  (['100 g', 'reference amount'] as const).map((per) => ({ nutrient, bound, unit, isOpen, per }));

/**
 * United States: 9 CFR 317.2 and 317.362, for poultry 381.118 and 381.462. 317.2 was read in a complete copy of title 9
 * of 2018 or later, the others in the edition of 2015. The group of 2 %, 317.2(f)(1)(vi) and 381.118(a)(2), may be
 * printed with 2, 1.5, 1 or 0.5 %: the widest is taken, which a change of the formula is the least likely to make wrong;
 * nothing in it is above what is printed.
 */
export const US_MARKET: Market = {
  jurisdiction: 'us',
  statement: {
    citation: '9 CFR 317.2(f)(1)',
    read: 'official',
    poultry: { citation: '9 CFR 381.118', read: 'official' },
    waterAsLeft: false,
    lastGroup: { bound: 0.02, isOpen: false, words: 'contains 2% or less of' },
    // Spices but for "onions, garlic and celery", 317.2(f)(1)(i)(A); those that color by their own name, 317.8(b)(7)(i).
    spices: { word: 'spices', named: /paprika|turmeric|saffron|annatto|onion|garlic|celery (powder|salt)/i },
    interchange: { citation: '9 CFR 317.2(f)(1)(v)', read: 'official', together: 0.7, each: 0.3 },
  },
  allergens: {
    citation: '21 U.S.C. 321(qq) and 343(w)',
    read: 'from memory',
    groups: [
      { word: 'milk', of: ['milk'] },
      { word: 'eggs', of: ['eggs'] },
      { word: 'fish', of: ['fish'], byKind: true },
      { word: 'crustacean shellfish', of: ['crustacean shellfish'], byKind: true },
      { word: 'tree nuts', of: ['tree nuts'], byKind: true },
      { word: 'wheat', of: ['wheat'] },
      { word: 'peanuts', of: ['peanuts'] },
      { word: 'soy', of: ['soy'] },
      { word: 'sesame', of: ['sesame'] },
    ],
    containsLine: true,
    emphasized: false,
    sulfites: {
      word: 'sulfites',
      mgPerKg: 10,
      isOpen: false,
      isAllergen: false,
      // That meat inspection follows it: from memory, verify.
      citation: '21 CFR 101.100(a)(4)',
      read: 'official',
    },
  },
  claims: {
    lean: {
      citation: '9 CFR 317.362(e)(1)',
      read: 'official',
      poultry: { citation: '9 CFR 381.462(e)(1)', read: 'official' },
      tests: [
        ...both('fat', 10, 'g', true),
        ...both('saturated fat', 4.5, 'g', false),
        ...both('cholesterol', 95, 'mg', true),
      ],
    },
    'extra lean': {
      citation: '9 CFR 317.362(e)(2)',
      read: 'official',
      poultry: { citation: '9 CFR 381.462(e)(2)', read: 'official' },
      tests: [
        ...both('fat', 5, 'g', true),
        ...both('saturated fat', 2, 'g', true),
        ...both('cholesterol', 95, 'mg', true),
      ],
    },
    'low fat': {
      citation: '9 CFR 317.362(b)(2)',
      read: 'official',
      poultry: { citation: '9 CFR 381.462(b)(2)', read: 'official' },
      tests: [
        { nutrient: 'fat', bound: 3, unit: 'g', isOpen: false, per: 'reference amount' },
        { nutrient: 'fat', bound: 3, unit: 'g', isOpen: false, per: '50 g, small reference amount' },
      ],
    },
    'product of usa': { citation: '9 CFR 412.3', read: 'from memory', tests: [] },
  },
  keeping: {
    storage: {
      chilled: 'Keep Refrigerated',
      frozen: 'Keep Frozen',
      citation: '9 CFR 317.2(k)',
      read: 'official',
      poultry: { citation: '9 CFR 381.125(a)', read: 'official' },
    },
    // Heading and four statements with their pictures, for raw and not ready-to-eat product.
    safeHandling: {
      text: 'Safe handling instructions with rationale, four statements and their pictures',
      citation: '9 CFR 317.2(l)',
      read: 'official',
      poultry: { citation: '9 CFR 381.125(b)', read: 'official' },
    },
    inspection: {
      before: 'Inspection legend with establishment number ',
      after: ' goes here',
      citation: '9 CFR 317.2(i)',
      read: 'official',
      poultry: { citation: '9 CFR 381.123', read: 'official' },
    },
    maker: {
      citation: '9 CFR 317.2(g)',
      read: 'official',
      poultry: { citation: '9 CFR 381.122', read: 'official' },
    },
  },
};
