import type { AtTheBound, LimitCases } from './case.ts';
import { ANTIOXIDANTS, idsWhere, NITRATES, NITRITES, NOT_MEAT, otherThan, PHOSPHATES } from './groups.ts';

/** Great Britain. */

/** Meat without anything in excess counts whole, so that the rest is water. */
const percentOf = (meat: 'pork' | 'beef' | 'chicken', percent: number): AtTheBound => [
  [meat, String(percent)],
  ['water', String(100 - percent)],
];
const ppm = (salt: string, mgPerKg: number): AtTheBound => [
  [salt, String(mgPerKg / 1000)],
  ['pork', (1000 - mgPerKg / 1000).toFixed(3)],
];
const BIRDS = ['chicken', 'turkey', 'duck', 'goose', 'rabbit'];

export const GB_CASES: LimitCases = {
  atTheBound: {
    'gb-3001-pork-sausage-pork': percentOf('pork', 42),
    'gb-3001-sausage-pork': percentOf('pork', 32),
    'gb-3001-sausage-birds': percentOf('chicken', 26),
    'gb-3001-sausage-other': percentOf('beef', 30),
    'gb-3001-burger-pork': percentOf('pork', 67),
    'gb-3001-burger-birds': percentOf('chicken', 55),
    'gb-3001-burger-other': percentOf('beef', 62),
    'gb-3001-burger-beef': percentOf('beef', 62),
    'gb-3001-economy-burger-pork': percentOf('pork', 50),
    'gb-3001-economy-burger-birds': percentOf('chicken', 41),
    'gb-3001-economy-burger-other': percentOf('beef', 47),
    'gb-3001-hamburger-other': percentOf('beef', 62),
    'gb-3001-luncheon-meat-other': percentOf('beef', 62),
    'gb-3001-luncheon-meat-pork': percentOf('pork', 67),
    'gb-3001-chopped-pork': percentOf('pork', 75),
    'gb-1169-mammals-predominate': [
      ['chicken', '1'],
      ['beef', '1'],
    ],
    'gb-1169-lean-minced-meat-fat': [
      ['beef-fat-20', '1'],
      ['beef-fat-06', '13'],
    ],
    'gb-1169-minced-pure-beef-fat': [
      ['beef-fat-40', '7'],
      ['beef-fat-06', '10'],
    ],
    'gb-1169-minced-meat-with-pigmeat-fat': [
      ['pork-fat-40', '1'],
      ['pork-fat-20', '1'],
    ],
    'gb-1169-minced-meat-other-species-fat': [
      ['beef-fat-40', '1'],
      ['beef-fat-20', '3'],
    ],
    'gb-1169-lean-minced-meat-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '76'],
    ],
    'gb-1169-minced-pure-beef-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '28'],
    ],
    'gb-1169-minced-meat-other-species-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '28'],
    ],
    'gb-1169-minced-meat-with-pigmeat-collagen': [
      ['pork-sinewy', '3'],
      ['pork', '16'],
    ],
    'gb-853-minced-salt': [
      ['salt', '1'],
      ['beef', '99'],
    ],
    'gb-1333-08.3.1-nitrite': ppm('sodium-nitrite', 150),
    'gb-1333-08.3.2-nitrite': ppm('sodium-nitrite', 150),
    'gb-1333-08.3.2-sterilised-nitrite': ppm('sodium-nitrite', 100),
    'gb-1333-immersion-cured-bacon-nitrite': ppm('sodium-nitrite', 175),
    'gb-1333-dry-cured-bacon-nitrite': ppm('sodium-nitrite', 175),
    'gb-1333-immersion-cured-ham-nitrite': ppm('sodium-nitrite', 100),
    'gb-1333-dry-cured-ham-nitrite': ppm('sodium-nitrite', 100),
    'gb-1333-08.3.1-nitrate': ppm('sodium-nitrate', 150),
    'gb-1333-immersion-cured-bacon-nitrate': ppm('sodium-nitrate', 250),
    'gb-1333-immersion-cured-ham-nitrate': ppm('sodium-nitrate', 250),
    'gb-1333-dry-cured-bacon-nitrate': ppm('sodium-nitrate', 250),
    'gb-1333-dry-cured-ham-nitrate': ppm('sodium-nitrate', 250),
    'gb-1333-erythorbic-acid': ppm('erythorbic-acid', 500),
    // Tripolyphosphate is 57.88 % pentoxide: 8.6387 kg in 1000 kg.
    'gb-1333-phosphate': {
      holds: [
        ['sodium-tripolyphosphate', '8.638'],
        ['pork', '991.362'],
      ],
      fails: [
        ['sodium-tripolyphosphate', '8.64'],
        ['pork', '991.36'],
      ],
    },
    'gb-1333-sulfite': [
      ['sulfite', '0.45'],
      ['pork', '669.55'],
    ],
  },
  keptOut: {
    'gb-999-no-separated-ruminants': ['beef-separated', 'veal-separated'],
    'gb-3001-pork-only': otherThan('pork'),
    'gb-3001-birds-only': otherThan(...BIRDS),
    'gb-3001-hamburger-species': otherThan('beef', 'veal', 'pork'),
    'gb-3001-no-offal': idsWhere(
      ({ kind }) => kind === 'other byproduct' || kind === 'partially defatted tissue',
    ),
    'gb-1169-minced-pure-beef-only': otherThan('beef', 'veal'),
    'gb-1169-minced-other-species-no-pigmeat': idsWhere(({ species }) => species === 'pork'),
    'gb-853-minced-only-meat': NOT_MEAT.filter((id) => id !== 'salt'),
    'gb-853-minced-muscle': idsWhere(
      ({ species, kind }) => species !== undefined && kind !== 'skeletal meat' && kind !== 'cheek meat',
    ),
    'gb-1333-no-nitrite': [...NITRITES, ...NITRATES],
    'gb-1333-no-nitrate': NITRATES,
    'gb-1333-no-phosphate': PHOSPHATES,
    'gb-1333-no-antioxidants': ANTIOXIDANTS,
    'gb-1333-no-sulfite': ['sulfite'],
    'gb-1333-no-erythorbic-acid': ['erythorbic-acid', 'sodium-erythorbate', 'sodium-erythorbate-hydrate'],
  },
  brings: {},
};
