import { COOKED } from '../../helpers/materials.ts';
import type { PublishedRow } from '../row.ts';

/**
 * Added water by the formula of 9 CFR 318.22(b), read in a public copy of the 2015 annual edition:
 * AW = TW − (TP − (P − 1.0))4, all in percent of the finished product, TW its moisture, TP all its protein, P the
 * protein that is not of meat, 1.0 the allowance. Each batch below is worked out on paper from these words. Its
 * pork is 20 % fat, 60 % moisture and 15 % protein, so that it brings no water beyond four times its protein;
 * soy flour is half protein, isolated soy nine tenths.
 */

const WATER = '9 CFR 318.22(b), 2015 annual edition, with the 10 percent of 319.140';
const SUM = '9 CFR 318.22(b), 2015 annual edition, with the 40 percent of 319.180(a)';
const NO_CREDIT = `${WATER}; below the allowance no credit for protein that is not there`;
const LIMIT = 'us-319.140-added-water';
const SUM_LIMIT = 'us-319.180a-fat-and-added-water';

export const ADDED_WATER_ROWS: readonly PublishedRow[] = [
  // TW 64.4, TP 13.6, P 1.0: AW = 64.4 − (13.6 − 0) × 4 = 10.0.
  {
    kind: 'boundary',
    id: '318.22 P 1.0',
    says: 'One percent of soy protein counts whole: 84 kg of pork and 2 kg of soy flour take 14 kg of water.',
    source: WATER,
    mark: 'constructed',
    limitId: LIMIT,
    line: ['water', '14'],
    beyond: '14.001',
    others: [
      ['pork', '84'],
      ['soy-flour', '2'],
    ],
  },
  {
    // TW 64.4, TP 14.4, P 1.8: AW = 64.4 − (14.4 − 0.8) × 4 = 10.0.
    kind: 'boundary',
    id: '318.22 P 1.8',
    says: 'Of 1.8 percent of soy protein one percent counts: 84 kg of pork and 2 kg of it take 14 kg of water.',
    source: WATER,
    mark: 'constructed',
    limitId: LIMIT,
    line: ['water', '14'],
    beyond: '14.001',
    others: [
      ['pork', '84'],
      ['isolated-soy-protein', '2'],
    ],
  },
  {
    // All protein counted the batch would stand at 64.4 − 14.4 × 4 = 6.8.
    kind: 'value',
    id: '318.22 P 1.8, all protein',
    says: 'The trap: the same batch holds 10 % of added water; with all of the soy protein counted it would show 6.8 %.',
    source: WATER,
    mark: 'constructed',
    numerator: 'addedWater',
    basis: 'finished',
    as: 'percent',
    lines: [
      ['pork', '84'],
      ['isolated-soy-protein', '2'],
      ['water', '14'],
    ],
    process: COOKED,
    published: 10,
    tolerance: 0,
  },
  {
    // TW 64.2, TP 13.55, P 0.5: 64.2 − 13.55 × 4 = 10.0. By the letter (P − 1.0 = −0.5) it would be 8.0.
    kind: 'boundary',
    id: '318.22 P 0.5',
    says: 'Half a percent of soy protein counts as half: 87 kg of pork and 1 kg of soy flour take 12 kg of water.',
    source: NO_CREDIT,
    mark: 'constructed',
    limitId: LIMIT,
    line: ['water', '12'],
    beyond: '12.001',
    others: [
      ['pork', '87'],
      ['soy-flour', '1'],
    ],
  },
  {
    kind: 'value',
    id: '318.22 P 0.5, added water',
    says: 'The same batch with its 12 kg of water holds 10 % of added water.',
    source: NO_CREDIT,
    mark: 'constructed',
    numerator: 'addedWater',
    basis: 'finished',
    as: 'percent',
    lines: [
      ['pork', '87'],
      ['soy-flour', '1'],
      ['water', '12'],
    ],
    process: COOKED,
    published: 10,
    tolerance: 0,
  },
  {
    // TW 64, TP 13.5, P 0: 64 − 13.5 × 4 = 10.0. By the letter (P − 1.0 = −1.0) it would be 6.0.
    kind: 'boundary',
    id: '318.22 P 0',
    says: 'Without protein of other sources 90 kg of pork take 10 kg of water.',
    source: NO_CREDIT,
    mark: 'constructed',
    limitId: LIMIT,
    line: ['water', '10'],
    beyond: '10.001',
    others: [['pork', '90']],
  },
  // Fat 13.5, TW 71, TP 11.925, P 1.8: AW = 71 − (11.925 − 0.8) × 4 = 26.5, and 13.5 + 26.5 = 40.0.
  {
    kind: 'boundary',
    id: '318.22 sum, P 1.8',
    says: 'A frankfurter of 67.5 kg of pork and 2 kg of isolated soy takes 30.5 kg of water: 13.5 % and 26.5 %.',
    source: SUM,
    mark: 'constructed',
    limitId: SUM_LIMIT,
    line: ['water', '30.5'],
    beyond: '30.501',
    others: [
      ['pork', '67.5'],
      ['isolated-soy-protein', '2'],
    ],
  },
  {
    // 13.5 + 71 − 11.925 × 4 = 36.8.
    kind: 'value',
    id: '318.22 sum, P 1.8, all protein',
    says: 'The trap: its fat and added water are 40 %; with all of the soy protein counted they would be 36.8 %.',
    source: SUM,
    mark: 'constructed',
    numerator: 'fatAndAddedWater',
    basis: 'finished',
    as: 'percent',
    lines: [
      ['pork', '67.5'],
      ['isolated-soy-protein', '2'],
      ['water', '30.5'],
    ],
    process: COOKED,
    published: 40,
    tolerance: 0,
  },
  {
    // Fat 15, TW 70, TP 11.25, P 0: 15 + 70 − 11.25 × 4 = 40.0.
    kind: 'boundary',
    id: '318.22 sum, P 0',
    says: 'A frankfurter of 75 kg of pork alone takes 25 kg of water: 15 % fat and 25 % of added water.',
    source: `${SUM}; below the allowance no credit for protein that is not there`,
    mark: 'constructed',
    limitId: SUM_LIMIT,
    line: ['water', '25'],
    beyond: '25.001',
    others: [['pork', '75']],
  },
  // Of 90 kg finished: TW 57.84 kg or 64.2667, TP 12.31 kg or 13.6778, P 1 kg or 1.1111:
  // AW = 64.2667 − (13.6778 − 0.1111) × 4 = 10.0.
  ...(
    [
      ['at the bound', '75.4', '22.6', true],
      ['beyond it', '75.399', '22.601', false],
    ] as const
  ).map(
    ([where, pork, water, holds]): PublishedRow => ({
      kind: 'verdict',
      id: `318.22 at a yield of 90 %, ${where}`,
      says: `The one percent is of the finished product: ${water} kg of water in 100 kg that lose 10 kg ${holds ? 'hold' : 'do not hold'}.`,
      source: WATER,
      mark: 'constructed',
      limitId: LIMIT,
      lines: [
        ['pork', pork],
        ['soy-flour', '2'],
        ['water', water],
      ],
      process: { ...COOKED, yieldFraction: 0.9 },
      holds,
    }),
  ),
  {
    // TW 65.8, TP 14.75, P 1.8: AW = 65.8 − (14.75 − 0.8) × 4 = 10.0; were the liver of group 2, it would be 18.0.
    kind: 'boundary',
    id: '318.22 groups',
    says: 'Protein of liver is of group 1: 73 kg of pork, 10 kg of liver and 2 kg of isolated soy take 15 kg of water.',
    source: `${WATER}; group 1 is meat, meat byproducts, mechanically separated meat and poultry`,
    mark: 'constructed',
    limitId: LIMIT,
    line: ['water', '15'],
    beyond: '15.001',
    others: [
      ['pork', '73'],
      ['pork-liver', '10'],
      ['isolated-soy-protein', '2'],
    ],
  },
];
