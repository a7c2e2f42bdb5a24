import type { Market } from './market.ts';

const REGULATIONS = 'Food and Drug Regulations (C.R.C., c. 870)';

/** Canada, consolidation of 23 July 2026. Words that go on the label are spelled as in the regulations. */
export const CA_MARKET: Market = {
  jurisdiction: 'ca',
  statement: {
    citation: `${REGULATIONS}, B.01.008.2`,
    read: 'official',
    waterAsLeft: false,
    isCapitalized: true,
    lastGroup: {
      bound: 0.02,
      isOpen: false,
      kinds: [
        'spice',
        'flavoring',
        'cure accelerator',
        'phosphate',
        'antimicrobial',
        'antioxidant',
        'preservative',
      ],
    },
    spices: { word: 'spices', named: /paprika|turmeric|saffron|annatto|onion|garlic/i },
    // Sugars and what is counted like them, B.01.008.3; which sweeteners are none of them, from memory, verify.
    sugars: { word: 'sugars', except: /maltodextrin|sorbitol|sucralose|stevia/i },
  },
  allergens: {
    citation: `${REGULATIONS}, B.01.010.1`,
    read: 'official',
    groups: [
      { word: 'tree nuts', of: ['tree nuts'], byKind: true },
      { word: 'peanuts', of: ['peanuts'] },
      { word: 'sesame', of: ['sesame'] },
      { word: 'wheat', of: ['wheat'] },
      { word: 'eggs', of: ['eggs'] },
      { word: 'milk', of: ['milk'] },
      { word: 'soy', of: ['soy'] },
      { word: 'crustaceans', of: ['crustacean shellfish'], byKind: true },
      { word: 'molluscs', of: ['molluscs'], byKind: true },
      { word: 'fish', of: ['fish'], byKind: true },
      { word: 'mustard', of: ['mustard'] },
      // Sources of gluten are named by the grain; wheat stands above.
      { word: 'barley', of: ['barley'] },
      { word: 'oats', of: ['oats'] },
      { word: 'rye', of: ['rye'] },
    ],
    containsLine: true,
    emphasized: false,
    sulfites: {
      word: 'sulphites',
      mgPerKg: 10,
      isOpen: false,
      isAllergen: true,
      citation: `${REGULATIONS}, B.01.010.2`,
      read: 'official',
    },
  },
  claims: {},
  keeping: {
    storage: {
      chilled: 'Keep refrigerated',
      frozen: 'Keep frozen',
      citation: `${REGULATIONS}, B.01.007`,
      read: 'official',
    },
    inspection: {
      before: 'Inspection legend with establishment number ',
      after: ' goes here',
      citation: 'Safe Food for Canadians Regulations',
      read: 'from memory',
    },
    // Year, month, day, with the codes of months in both languages; for what keeps 90 days or less.
    date: {
      perishable: 'Best before',
      other: 'Best before',
      citation: `${REGULATIONS}, B.01.007`,
      read: 'official',
    },
    maker: { citation: 'Safe Food for Canadians Regulations', read: 'from memory' },
  },
  caution: 'A label for Canada is in English and French: only the English is given.',
};
