import type { LimitCases } from './case.ts';
import { ANTIOXIDANTS, NITRATES, NITRITES, NOT_MEAT } from './groups.ts';

/** Australia and New Zealand. */

export const ANZ_CASES: LimitCases = {
  atTheBound: {
    // A fifth of the beef is fat: 50 kg of fat free flesh in 100 kg.
    'anz-2.2.1-sausage-flesh': [
      ['beef', '62.5'],
      ['water', '37.5'],
    ],
    // Fat 0.8 + 0.2, fat free flesh 1.2 + 0.8.
    'anz-2.2.1-sausage-fat': [
      ['pork-fat-40', '2'],
      ['pork-fat-20', '1'],
    ],
    'anz-2.2.1-processed-meat': [
      ['pork', '30'],
      ['water', '70'],
    ],
    'anz-2.2.1-manufactured-meat': [
      ['pork', '66'],
      ['water', '34'],
    ],
    // Protein 12, fat 16 of 91 kg: 12 of 75.
    'anz-2.2.1-cured-protein': [
      ['pork', '80'],
      ['water', '11'],
    ],
    'anz-2.2.1-meat-pie': [
      ['beef', '25'],
      ['potato', '75'],
    ],
    'anz-sch15-nitrite': [
      ['sodium-nitrite', '0.125'],
      ['pork', '999.875'],
    ],
    'anz-sch15-nitrate': [
      ['sodium-nitrate', '0.5'],
      ['pork', '999.5'],
    ],
    // 0.335 kg of sulfur dioxide in 670 kg.
    'anz-sch15-sulfite-sausage': [
      ['sulfite', '0.5'],
      ['pork', '669.5'],
    ],
  },
  keptOut: {
    'anz-no-antioxidants': ANTIOXIDANTS,
    'anz-2.2.1-mince-only-meat': NOT_MEAT,
    'anz-sch15-no-sulfite': ['sulfite'],
    'anz-sch15-no-nitrate': NITRATES,
    'anz-sch15-not-cured': [...NITRITES, ...NITRATES],
  },
  brings: {},
};
