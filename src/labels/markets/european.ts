import type { Market } from './market.ts';

/**
 * What the European Union and Great Britain share: Regulation (EU) No 1169/2011, in Great Britain as retained. What is
 * secondary was read in pages of a university that quote the annexes. Words that go on the label are spelled as in the
 * act.
 * @param retained before the names of the acts, where they are retained law.
 */
export function european(jurisdiction: 'eu' | 'gb', retained: '' | 'retained '): Market {
  const act = `${retained}Regulation (EU) No 1169/2011`;
  return {
    jurisdiction,
    statement: {
      citation: `${act}, Articles 18 to 20 and Annex VII`,
      read: 'secondary',
      waterAsLeft: true,
      lastGroup: { bound: 0.02, isOpen: true },
      spices: {
        word: 'spices',
        named: /paprika|turmeric|saffron|annatto|onion|garlic/i,
        herbs: {
          word: 'herbs',
          which:
            /^(sage|marjoram|thyme|oregano|basil|parsley|rosemary|bay leaves|dill weed|savory|chervil|tarragon|cilantro|coriander leaf|chives|mint)$/i,
        },
        most: 0.02,
      },
      additiveClasses: ADDITIVE_CLASSES,
      quantities: { citation: `${act}, Article 22 and Annex VIII`, read: 'secondary' },
    },
    allergens: {
      citation: `${act}, Article 21 and Annex II`,
      read: 'secondary',
      groups: [
        { word: 'wheat', of: ['wheat'] },
        { word: 'rye', of: ['rye'] },
        { word: 'barley', of: ['barley'] },
        { word: 'oats', of: ['oats'] },
        { word: 'crustaceans', of: ['crustacean shellfish'] },
        { word: 'eggs', of: ['eggs'] },
        { word: 'fish', of: ['fish'] },
        { word: 'peanuts', of: ['peanuts'] },
        { word: 'soybeans', of: ['soy'] },
        { word: 'milk', of: ['milk'] },
        { word: 'nuts', of: ['tree nuts'], byKind: true },
        { word: 'celery', of: ['celery'] },
        { word: 'mustard', of: ['mustard'] },
        { word: 'sesame', of: ['sesame'] },
        { word: 'lupin', of: ['lupin'] },
        { word: 'molluscs', of: ['molluscs'] },
      ],
      containsLine: false,
      emphasized: true,
      sulfites: {
        word: 'sulphites',
        mgPerKg: 10,
        isOpen: true,
        isAllergen: true,
        citation: `${act}, Annex II 12`,
        read: 'secondary',
      },
    },
    claims: {
      'low fat': {
        citation: `${retained}Regulation (EC) No 1924/2006, Annex`,
        read: 'from memory',
        tests: [{ nutrient: 'fat', bound: 3, unit: 'g', isOpen: false, per: '100 g' }],
      },
    },
    keeping: {
      storage: {
        chilled: 'Keep refrigerated',
        frozen: 'Keep frozen',
        citation: `${act}, Article 25`,
        read: 'secondary',
      },
      cooking: {
        text: 'Cook thoroughly before eating',
        citation: `${retained}Regulation (EC) No 2073/2005, Article 6`,
        read: 'from memory',
      },
      inspection: {
        before: 'Identification mark with approval number ',
        after: ' goes here',
        citation: `${retained}Regulation (EC) No 853/2004, Annex II section I`,
        read: 'from memory',
      },
      date: {
        perishable: 'Use by',
        other: 'Best before',
        frozen: 'Frozen on',
        citation: `${act}, Article 24, Annex III 6 and Annex X`,
        read: 'secondary',
      },
      maker: { citation: `${act}, Article 9(1)(h)`, read: 'from memory' },
    },
    origin: {
      citation:
        retained === ''
          ? 'Regulation (EC) No 1760/2000 and Implementing Regulation (EU) No 1337/2013'
          : 'retained Regulation (EC) No 1760/2000 and retained Implementing Regulation (EU) No 1337/2013',
      read: 'from memory',
    },
    caution: `The rules of ${act} for this label were read in texts that quote the act, and some are from memory: hold name, ingredients and allergens against the act before a label is printed.`,
  };
}

/** What additives do, as the acts name it; which word belongs to which additive is common practice. */
export const ADDITIVE_CLASSES = [
  { word: 'preservative', which: /nitrite|nitrate|sul(f|ph)ite|sul(f|ph)ur dioxide|diacetate/i },
  { word: 'antioxidant', which: /ascorb|erythorb|tocopherol|^bh[at]$|gallate|^tbhq$/i },
  { word: 'stabiliser', which: /phosphate/i },
  { word: 'acidity regulator', which: /lactate|citric acid|fumaric acid|glucono/i },
  { word: 'thickener', which: /carrageenan|methyl ?cellulose/i },
  { word: 'flavour enhancer', which: /glutamate/i },
] as const;
