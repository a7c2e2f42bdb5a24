import { ADDITIVE_CLASSES } from './european.ts';
import type { Market } from './market.ts';

/** Australia and New Zealand: Food Standards Code. Words that go on the label are spelled as in the code. */
export const ANZ_MARKET: Market = {
  jurisdiction: 'anz',
  statement: {
    citation: 'Food Standards Code, Standard 1.2.4',
    read: 'from memory',
    waterAsLeft: false,
    lastGroup: { bound: 0, isOpen: true },
    spices: {
      word: 'spices',
      named: /paprika|turmeric|saffron|annatto|onion|garlic/i,
    },
    additiveClasses: ADDITIVE_CLASSES,
    quantities: { citation: 'Food Standards Code, Standard 1.2.10', read: 'from memory' },
  },
  allergens: {
    citation: 'Food Standards Code, Standard 1.2.3 and Schedule 9',
    read: 'from memory',
    groups: [
      { word: 'wheat', of: ['wheat'] },
      // The line names gluten for every grain that holds it, beside wheat.
      { word: 'gluten', of: ['wheat', 'rye', 'barley', 'oats'] },
      { word: 'crustacean', of: ['crustacean shellfish'] },
      { word: 'egg', of: ['eggs'] },
      { word: 'fish', of: ['fish'] },
      { word: 'lupin', of: ['lupin'] },
      { word: 'milk', of: ['milk'] },
      { word: 'mollusc', of: ['molluscs'] },
      { word: 'peanut', of: ['peanuts'] },
      { word: 'sesame', of: ['sesame'] },
      { word: 'soy', of: ['soy'] },
      { word: 'tree nuts', of: ['tree nuts'], byKind: true },
    ],
    containsLine: true,
    emphasized: true,
    sulfites: {
      word: 'sulphites',
      mgPerKg: 10,
      isOpen: false,
      isAllergen: true,
      citation: 'Food Standards Code, Standard 1.2.3',
      read: 'from memory',
    },
  },
  claims: {
    'low fat': {
      citation: 'Food Standards Code, Schedule 4',
      read: 'from memory',
      tests: [{ nutrient: 'fat', bound: 3, unit: 'g', isOpen: false, per: '100 g' }],
    },
  },
  keeping: {
    storage: {
      chilled: 'Keep refrigerated',
      frozen: 'Keep frozen',
      citation: 'Food Standards Code, Standard 1.2.6',
      read: 'from memory',
    },
    inspection: {
      before: 'Approval mark with establishment number ',
      after: ' goes here where it is asked for',
      citation: 'law of the place of manufacture',
      read: 'from memory',
    },
    date: {
      perishable: 'Use by',
      other: 'Best before',
      citation: 'Food Standards Code, Standard 1.2.5',
      read: 'from memory',
    },
    maker: { citation: 'Food Standards Code, Standard 1.2.2', read: 'from memory' },
  },
  caution:
    'The label rules of the Food Standards Code are from memory: hold name, ingredients and allergens against the code before a label is printed.',
};
