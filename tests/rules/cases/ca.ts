import type { LimitCases } from './case.ts';
import { ANTIOXIDANTS, BINDERS, idsWhere, NITRATES, NITRITES, NOT_MEAT, otherThan } from './groups.ts';

/** Canada. */

// Protein is 15 % of the pork and 21 % of the leanest beef; water makes the rest.
const AT_16 = [
  ['beef-fat-06', '16'],
  ['water', '5'],
] as const;
const AT_13 = [
  ['pork', '13'],
  ['water', '2'],
] as const;
const AT_11_5 = [
  ['pork', '23'],
  ['water', '7'],
] as const;
const AT_11 = [
  ['pork', '11'],
  ['water', '4'],
] as const;
const AT_10 = [
  ['pork', '2'],
  ['water', '1'],
] as const;
const AT_9_5 = [
  ['pork', '19'],
  ['water', '11'],
] as const;
const AT_9 = [
  ['pork', '3'],
  ['water', '2'],
] as const;
const AT_7_5 = [
  ['pork', '1'],
  ['water', '1'],
] as const;

export const CA_CASES: LimitCases = {
  atTheBound: {
    'ca-ground-extra-lean-fat': [
      ['beef-fat-40', '2'],
      ['beef-fat-06', '15'],
    ],
    'ca-ground-lean-fat': [
      ['beef-fat-40', '11'],
      ['beef-fat-06', '23'],
    ],
    'ca-ground-medium-fat': [
      ['beef-fat-40', '1'],
      ['beef-fat-06', '1'],
    ],
    'ca-ground-regular-fat': [
      ['beef-fat-40', '12'],
      ['beef-fat-06', '5'],
    ],
    'ca-patty-total-protein': AT_16,
    'ca-patty-meat-protein': [
      ['beef-fat-06', '29'],
      ['water', '13'],
    ],
    'ca-burger-total-protein': AT_13,
    'ca-burger-meat-protein': AT_11_5,
    'ca-meat-balls-total-protein': AT_13,
    'ca-meat-balls-meat-protein': AT_11_5,
    'ca-fresh-sausage-total-protein': AT_9,
    'ca-fresh-sausage-meat-protein': AT_7_5,
    'ca-cured-uncooked-sausage-meat-protein': AT_7_5,
    'ca-cooked-sausage-total-protein': AT_11,
    'ca-cooked-sausage-meat-protein': AT_9_5,
    'ca-liver-sausage-meat-protein': AT_9_5,
    'ca-extended-fresh-sausage-total-protein': AT_9,
    'ca-extended-cooked-sausage-total-protein': AT_11,
    'ca-solid-cut-uncooked-meat-protein': AT_10,
    'ca-slow-cured-cut-meat-protein': AT_10,
    'ca-solid-cut-cooked-meat-protein': [
      ['pork', '4'],
      ['water', '1'],
    ],
    'ca-cure-most': [
      ['sodium-nitrite', '0.2'],
      ['pork', '999.8'],
    ],
    'ca-cure-least': [
      ['sodium-nitrite', '0.1'],
      ['pork', '999.9'],
    ],
    'ca-side-bacon-nitrite': [
      ['sodium-nitrite', '0.12'],
      ['pork', '999.88'],
    ],
    // Tripolyphosphate counts at 1.1577 of its weight: 0.43189 kg are half a kilogram of disodium phosphate.
    'ca-phosphate': {
      holds: [
        ['sodium-tripolyphosphate', '0.43185'],
        ['pork', '99.56815'],
      ],
      fails: [
        ['sodium-tripolyphosphate', '0.432'],
        ['pork', '99.568'],
      ],
    },
  },
  keptOut: {
    'ca-no-antioxidants': ANTIOXIDANTS,
    'ca-ground-beef-only': otherThan('beef'),
    'ca-ground-pork-only': otherThan('pork'),
    'ca-side-bacon-pork-only': otherThan('pork'),
    'ca-ground-only-meat': NOT_MEAT,
    'ca-ground-no-mechanically-separated': idsWhere(({ kind }) => kind === 'mechanically separated'),
    'ca-patty-no-filler': BINDERS,
    'ca-not-cured': [...NITRITES, ...NITRATES],
    'ca-no-nitrate': NITRATES,
    'ca-no-sulfite': ['sulfite'],
  },
  brings: {},
};
