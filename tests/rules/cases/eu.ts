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

// Sodium nitrite for so many ppm of the ion, in kilograms in 1000: just inside and just outside.
const ION_30 = ion('sodium-nitrite', 0.04498, 0.045);
const ION_55 = ion('sodium-nitrite', 0.08248, 0.0825);
const ION_65 = ion('sodium-nitrite', 0.09748, 0.0975);
const ION_80 = ion('sodium-nitrite', 0.11997, 0.11999);
const ION_100 = ion('sodium-nitrite', 0.14997, 0.14999);
const ION_105 = ion('sodium-nitrite', 0.15747, 0.15749);
// Sodium nitrate likewise.
const NITRATE_7 = ion('sodium-nitrate', 0.009594, 0.009597);
const NITRATE_90 = ion('sodium-nitrate', 0.12336, 0.12339);
const NITRATE_110 = ion('sodium-nitrate', 0.15077, 0.1508);
const NITRATE_150 = ion('sodium-nitrate', 0.2056, 0.20563);
const NITRATE_180 = ion('sodium-nitrate', 0.24672, 0.24676);

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
    'eu-1333-08.2-nitrite': ION_80,
    'eu-1333-08.3.1-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.1-nitrite': ION_80,
    'eu-1333-08.3.2-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.2-nitrite': ION_80,
    'eu-1333-08.3.2-sterilised-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-08.3.2-sterilised-nitrite': ION_55,
    'eu-1333-08.3.4.3-spreadable-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-08.3.4.3-spreadable-nitrite': ION_100,
    'eu-1333-vysocina-nitrite-2025': saltPpm('sodium-nitrite', 180),
    'eu-1333-vysocina-nitrite': ION_105,
    'eu-1333-svensk-leverpastej-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-svensk-leverpastej-nitrite': ION_100,
    'eu-1333-filet-de-bacon-nitrite-2025': saltPpm('sodium-nitrite', 150),
    'eu-1333-filet-de-bacon-nitrite': ION_100,
    'eu-1333-immersion-cured-bacon-nitrite-2025': saltPpm('sodium-nitrite', 175),
    'eu-1333-immersion-cured-bacon-nitrite': ION_105,
    'eu-1333-dry-cured-bacon-nitrite-2025': saltPpm('sodium-nitrite', 175),
    'eu-1333-dry-cured-bacon-nitrite': ION_105,
    'eu-1333-immersion-cured-ham-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-immersion-cured-ham-nitrite': ION_65,
    'eu-1333-dry-cured-ham-nitrite-2025': saltPpm('sodium-nitrite', 100),
    'eu-1333-dry-cured-ham-nitrite': ION_65,
    'eu-1333-rohschinken-nitrite-2025': saltPpm('sodium-nitrite', 50),
    'eu-1333-rohschinken-nitrite': ION_30,
    'eu-1333-cured-tongue-nitrite-2025': saltPpm('sodium-nitrite', 50),
    'eu-1333-cured-tongue-nitrite': ION_30,
    'eu-1333-jellied-veal-nitrite-2025': saltPpm('sodium-nitrite', 50),
    'eu-1333-jellied-veal-nitrite': ION_30,
    'eu-1333-08.3.1-nitrate-2025': saltPpm('sodium-nitrate', 150),
    'eu-1333-08.3.1-nitrate': NITRATE_90,
    'eu-1333-08.3.1-dry-nitrate-2025': saltPpm('sodium-nitrate', 150),
    'eu-1333-08.3.1-dry-nitrate': NITRATE_110,
    'eu-1333-rohwurst-nitrate-2025': saltPpm('sodium-nitrate', 300),
    'eu-1333-rohwurst-nitrate': NITRATE_180,
    'eu-1333-long-cured-chorizo-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-long-cured-chorizo-nitrate': NITRATE_180,
    'eu-1333-saucisson-sec-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-saucisson-sec-nitrate': NITRATE_180,
    'eu-1333-filet-de-bacon-without-nitrite-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-filet-de-bacon-without-nitrite-nitrate': NITRATE_180,
    'eu-1333-immersion-cured-bacon-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-immersion-cured-bacon-nitrate': NITRATE_150,
    'eu-1333-dry-cured-bacon-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-dry-cured-bacon-nitrate': NITRATE_150,
    'eu-1333-immersion-cured-ham-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-immersion-cured-ham-nitrate': NITRATE_150,
    'eu-1333-dry-cured-ham-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-dry-cured-ham-nitrate': NITRATE_150,
    'eu-1333-jambon-sec-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-jambon-sec-nitrate': NITRATE_150,
    'eu-1333-rohschinken-nitrate-2025': saltPpm('sodium-nitrate', 250),
    'eu-1333-rohschinken-nitrate': NITRATE_150,
    'eu-1333-cured-tongue-nitrate-2025': saltPpm('sodium-nitrate', 10),
    'eu-1333-cured-tongue-nitrate': NITRATE_7,
    'eu-1333-jellied-veal-nitrate-2025': saltPpm('sodium-nitrate', 10),
    'eu-1333-jellied-veal-nitrate': NITRATE_7,
    // The row of 08.3.1 under which these sausages stood.
    'eu-1333-08.3.4.3-spreadable-nitrate-2025': saltPpm('sodium-nitrate', 150),
    // 1.53 kg of water for 0.9 kg of protein.
    'eu-1333-08.3.4.3-water-protein': [
      ['water', '1.53'],
      ['isolated-soy-protein', '1'],
    ],
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
    'eu-999-no-separated-ruminants': ['beef-separated', 'veal-separated'],
    'eu-1169-minced-pure-beef-only': otherThan('beef', 'veal'),
    'eu-853-minced-only-meat': NOT_MEAT.filter((id) => id !== 'salt'),
    'eu-853-minced-muscle': idsWhere(
      ({ species, kind }) => species !== undefined && kind !== 'skeletal meat' && kind !== 'cheek meat',
    ),
    'eu-1333-no-nitrite': [...NITRITES, ...NITRATES],
    'eu-1169-minced-other-species-no-pigmeat': idsWhere(({ species }) => species === 'pork'),
    'eu-1333-no-nitrate': NITRATES,
    'eu-1333-08.3.4-no-nitrate': NITRATES,
    'eu-1333-08.3.4.3-spreadable-no-nitrate': NITRATES,
    'eu-1333-08.2-no-group-one': ['glucono-delta-lactone', 'fumaric-acid', 'tocopherols', 'methyl-cellulose'],
    'eu-1333-08.3-no-fumaric-acid': ['fumaric-acid'],
    'eu-1333-only-nitrate': NITRITES,
    'eu-1333-no-phosphate': PHOSPHATES,
    'eu-1333-no-erythorbic-acid': ['erythorbic-acid', 'sodium-erythorbate', 'sodium-erythorbate-hydrate'],
    'eu-1333-no-sulfite': ['sulfite'],
    'eu-1333-no-antioxidants': ANTIOXIDANTS,
  },
  brings: {},
};
