import type { Weighed } from '../../helpers/materials.ts';
import type { Bracket, LimitCases } from './case.ts';
import { ANTIOXIDANTS, idsWhere, NITRATES, NITRITES, NOT_MEAT, otherThan, PHOSPHATES } from './groups.ts';

/** European Union. */

/** So many kilograms of a salt in 1000 kg, just inside and just outside a bound on its ion. */
const ion = (salt: string, inside: number, outside: number): Bracket => {
  const batch = (mass: number): Weighed[] => [
    [salt, String(mass)],
    ['pork', (1000 - mass).toFixed(5)],
  ];
  return { holds: batch(inside), fails: batch(outside) };
};
const saltPpm = (salt: string, ppm: number) =>
  [
    [salt, String(ppm / 1000)],
    ['pork', (1000 - ppm / 1000).toFixed(3)],
  ] as const;

// Sodium nitrite for the ion: 119.98, 82.48, 149.97, 157.47 and 97.48 mg for 80, 55, 100, 105 and 65.
const ION_80 = ion('sodium-nitrite', 0.11997, 0.11999);
const ION_55 = ion('sodium-nitrite', 0.08248, 0.0825);
const ION_100 = ion('sodium-nitrite', 0.14997, 0.14999);
const ION_105 = ion('sodium-nitrite', 0.15747, 0.15749);
const ION_65 = ion('sodium-nitrite', 0.09748, 0.0975);

export const EU_CASES: LimitCases = {
  atTheBound: {
    'eu-1169-lean-minced-meat-fat': [
      ['beef-fat-20', '1'],
      ['beef-fat-06', '13'],
    ],
    'eu-1169-minced-pure-beef-fat': [
      ['beef-fat-40', '7'],
      ['beef-fat-06', '10'],
    ],
    'eu-1169-minced-meat-with-pigmeat-fat': [
      ['pork-fat-40', '1'],
      ['pork-fat-20', '1'],
    ],
    'eu-1169-minced-meat-other-species-fat': [
      ['beef-fat-40', '1'],
      ['beef-fat-20', '3'],
    ],
    // Half of the protein of the sinewy pork is collagen, a tenth of the other: 1.44 of 12, 0.72 of 4.8, 0.54 of 3.
    'eu-1169-lean-minced-meat-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '76'],
    ],
    'eu-1169-minced-pure-beef-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '28'],
    ],
    'eu-1169-minced-meat-other-species-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '28'],
    ],
    'eu-1169-minced-meat-with-pigmeat-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '16'],
    ],
    'eu-853-minced-salt': [
      ['salt', '1'],
      ['beef', '99'],
    ],
    'eu-1333-08.2-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.1-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.2-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.4.3-spreadable-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.2-sterilised-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-immersion-cured-bacon-nitrite-2025': saltPpm('sodium-nitrite', 175),
    'eu-1333-dry-cured-bacon-nitrite-2025': saltPpm('sodium-nitrite', 175),
    'eu-1333-immersion-cured-ham-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-dry-cured-ham-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-08.3.1-nitrate-2025': saltPpm('sodium-nitrate', 150),
    'eu-1333-08.3.1-dry-nitrate-2025': saltPpm('sodium-nitrate', 150),
    'eu-1333-08.2-nitrite': ION_80,
    'eu-1333-08.3.1-nitrite': ION_80,
    'eu-1333-08.3.2-nitrite': ION_80,
    'eu-1333-08.3.2-sterilised-nitrite': ION_55,
    'eu-1333-08.3.4.3-spreadable-nitrite': ION_100,
    'eu-1333-immersion-cured-bacon-nitrite': ION_105,
    'eu-1333-dry-cured-bacon-nitrite': ION_105,
    'eu-1333-immersion-cured-ham-nitrite': ION_65,
    'eu-1333-dry-cured-ham-nitrite': ION_65,
    // Sodium nitrate for the ion: 123.37 and 150.79 mg for 90 and 110.
    'eu-1333-08.3.1-nitrate': ion('sodium-nitrate', 0.12336, 0.12339),
    'eu-1333-08.3.1-dry-nitrate': ion('sodium-nitrate', 0.15077, 0.1508),
    // Tripolyphosphate is 57.88 % pentoxide: 8.6387 kg in 1000 kg.
    'eu-1333-phosphate': ion('sodium-tripolyphosphate', 8.638, 8.64),
    'eu-1333-erythorbic-acid': saltPpm('erythorbic-acid', 500),
    // 0.3015 kg of sulfur dioxide in 670 kg.
    'eu-1333-sulfite': [
      ['sulfite', '0.45'],
      ['pork', '669.55'],
    ],
    'eu-1333-burger-cereal': [
      ['potato', '4'],
      ['pork', '96'],
    ],
  },
  keptOut: {
    'eu-1169-minced-pure-beef-only': otherThan('beef', 'veal'),
    'eu-853-minced-only-meat': NOT_MEAT.filter((id) => id !== 'salt'),
    'eu-853-minced-muscle': idsWhere(
      ({ species, kind }) => species !== undefined && kind !== 'skeletal meat' && kind !== 'cheek meat',
    ),
    'eu-1333-no-nitrite': [...NITRITES, ...NITRATES],
    'eu-1333-no-nitrate': NITRATES,
    'eu-1333-only-nitrate': NITRITES,
    'eu-1333-no-phosphate': PHOSPHATES,
    'eu-1333-no-erythorbic-acid': ['erythorbic-acid', 'sodium-erythorbate', 'sodium-erythorbate-hydrate'],
    'eu-1333-no-sulfite': ['sulfite'],
    'eu-1333-no-antioxidants': ANTIOXIDANTS,
  },
  brings: {},
};
