import { ADDITIVE_CLASSES } from './european.ts';
import type { Market } from './market.ts';

const STANDARD = 'CXS 1-1985';

/**
 * Codex Alimentarius: the General Standard for the Labelling of Prepackaged Foods. Its revision of 2024 took soy and oats
 * out of the list for all countries; here the longer list stands.
 */
export const CODEX_MARKET: Market = {
  jurisdiction: 'codex',
  statement: {
    citation: `${STANDARD}, 4.2`,
    read: 'from memory',
    waterAsLeft: false,
    lastGroup: { bound: 0, isOpen: true },
    spices: { word: 'spices', named: /paprika|turmeric|saffron|annatto|onion|garlic/i, most: 0.02 },
    additiveClasses: ADDITIVE_CLASSES,
    quantities: { citation: `${STANDARD}, 5.1`, read: 'from memory' },
  },
  allergens: {
    citation: `${STANDARD}, 4.2.1.4`,
    read: 'from memory',
    groups: [
      { word: 'wheat', of: ['wheat'] },
      { word: 'rye', of: ['rye'] },
      { word: 'barley', of: ['barley'] },
      { word: 'oats', of: ['oats'] },
      { word: 'crustacea', of: ['crustacean shellfish'] },
      { word: 'eggs', of: ['eggs'] },
      { word: 'fish', of: ['fish'] },
      { word: 'peanuts', of: ['peanuts'] },
      { word: 'soybeans', of: ['soy'] },
      { word: 'milk', of: ['milk'] },
      { word: 'tree nuts', of: ['tree nuts'], byKind: true },
      { word: 'sesame', of: ['sesame'] },
    ],
    containsLine: false,
    emphasized: true,
    sulfites: {
      word: 'sulphites',
      mgPerKg: 10,
      isOpen: false,
      isAllergen: true,
      citation: `${STANDARD}, 4.2.1.4`,
      read: 'from memory',
    },
  },
  claims: {
    'low fat': {
      citation: 'CXG 23-1997, table of conditions',
      read: 'from memory',
      tests: [{ nutrient: 'fat', bound: 3, unit: 'g', isOpen: false, per: '100 g' }],
    },
  },
  keeping: {
    storage: {
      chilled: 'Keep refrigerated',
      frozen: 'Keep frozen',
      citation: `${STANDARD}, 4.7.2`,
      read: 'from memory',
    },
    inspection: {
      before: 'Mark of the competent authority with establishment number ',
      after: ' goes here',
      citation: 'law of the place of manufacture',
      read: 'from memory',
    },
    date: { perishable: 'Use by', other: 'Best before', citation: `${STANDARD}, 4.7.1`, read: 'from memory' },
    maker: { citation: `${STANDARD}, 4.4`, read: 'from memory' },
  },
  caution:
    'Codex texts are no law of a country and are from memory here: the rules of the place of sale decide, its allergen list above all.',
};
