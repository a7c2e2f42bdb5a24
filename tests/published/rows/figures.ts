import type { PrintedRow } from '../row.ts';
import { type Printed, printedRows } from './printed.ts';

/**
 * The figure, the numerator and the basis of every limit that has one, as its source prints it. The sections of
 * 9 CFR were read in a public copy of the 2015 annual edition; docs/us-rules-read.md quotes the words.
 */

const EDITION = '2015 annual edition';
const of = (section: string, part?: string) =>
  `9 CFR ${section}, ${EDITION}${part === undefined ? '' : `, ${part}`}`;

const BINDERS = of(
  '424.21(c)',
  'binders; the count of soy protein in 1 CRR-NY 319.140, a state copy of the earlier text of 9 CFR 319.140',
);
const CURING_AGENTS = (ounces: string, ppm: string) =>
  of(
    '424.21(c)',
    `curing agents: "${ounces} to 100 lb"; the ppm as a public note of 2026 works it out, ${ppm}`,
  );
const ACCELERATORS = (ounces: string, ppm: string) =>
  of('424.21(c)', `curing accelerators: "${ounces} to 100 lb"; which is ${ppm} ppm`);
const ANTIOXIDANTS = of('424.21(c)', 'antioxidants: "0.01 percent based on fat content"');

const PERCENT: readonly Printed[] = [
  ['A-01', 'us-319.15a-fat', 30, 'finishedFat', 'finished', of('319.15(a)'), 'official'],
  ['A-02', 'us-319.15a-cheek-meat', 25, 'cheekMeat', 'greenWeight', of('319.15(a)'), 'official'],
  ['A-03', 'us-319.15b-fat', 30, 'finishedFat', 'finished', of('319.15(b)'), 'official'],
  ['A-11', 'us-319.140-water', 3, 'waterPutIn', 'formula', of('319.140'), 'official'],
  ['A-14, A-85', 'us-424.21c-binders', 3.5, 'binder', 'finished', BINDERS, 'secondary'],
  ['A-15', 'us-319.141-fat', 50, 'finishedFat', 'finished', of('319.141'), 'official'],
  ['A-16', 'us-319.142-fat', 30, 'finishedFat', 'finished', of('319.142'), 'official'],
  ['A-17', 'us-319.143-fat', 50, 'finishedFat', 'finished', of('319.143'), 'official'],
  ['A-18', 'us-319.144-fat', 50, 'finishedFat', 'finished', of('319.144'), 'official'],
  ['A-19 meat', 'us-319.145a-meat', 85, 'meatOrFat', 'formula', of('319.145(a)'), 'official'],
  ['A-19 fat', 'us-319.145a-fat', 35, 'fat', 'formula', of('319.145(a), (c)'), 'official'],
  ['A-23', 'us-319.160-fat', 50, 'finishedFat', 'finished', of('319.160'), 'official'],
  ['A-24 fat', 'us-319.180a-fat', 30, 'finishedFat', 'finished', of('319.180(a)'), 'official'],
  [
    'A-24 sum',
    'us-319.180a-fat-and-added-water',
    40,
    'fatAndAddedWater',
    'finished',
    of('319.180(a) and 318.22'),
    'official',
  ],
  ['A-25', 'us-319.180a-poultry', 15, 'poultry', 'formulaWithoutWater', of('319.180(a)'), 'official'],
  [
    'memo 075',
    'us-319.140-poultry',
    50,
    'poultry',
    'greenWeight',
    'agency policy memo 075 of 14 August 1984, as a public page gives it: the legend follows "the greater amounts"',
    'secondary',
  ],
  ['A-30', 'us-319.140-added-water', 10, 'addedWater', 'finished', of('319.140 and 318.22'), 'official'],
  [
    'A-40',
    'us-319.6-mechanically-separated-share',
    20,
    'mechanicallySeparated',
    'greenWeight',
    of('319.6(b), (c)'),
    'official',
  ],
  [
    'citric acid of the cure',
    'us-424.21c-citric-acid',
    50,
    'citricAcidAsAccelerator',
    'acceleratorsAndCitricAcid',
    of('424.21(c)', 'curing accelerators: "to replace up to 50 percent"'),
    'official',
  ],
  [
    'A-76',
    'us-424.21c-phosphate',
    0.5,
    'phosphate',
    'finished',
    of('424.21(c)', 'miscellaneous'),
    'official',
  ],
  [
    'phosphate in patties',
    'us-424.21c-phosphate-patties',
    0.5,
    'phosphate',
    'finished',
    of('424.21(c)', 'flavoring agents: "0.5 percent of total product"'),
    'official',
  ],
  [
    'A-82',
    'us-424.21c-lactate',
    4.8,
    'lactate',
    'formula',
    of('424.21(c)', 'antimicrobial agents: "by weight of total formulation"'),
    'official',
  ],
  [
    'A-83',
    'us-424.21c-diacetate',
    0.25,
    'diacetate',
    'formula',
    of('424.21(c)', 'antimicrobial agents: "by weight of total formulation"'),
    'official',
  ],
  [
    'A-86 soy',
    'us-424.21c-isolated-soy',
    2,
    'isolatedSoy',
    'finished',
    of('424.21(c)', 'binders'),
    'official',
  ],
  [
    'A-86 caseinate',
    'us-424.21c-caseinate',
    2,
    'caseinate',
    'finished',
    of('424.21(c)', 'binders'),
    'official',
  ],
];

const PPM: readonly Printed[] = [
  [
    'A-58',
    'us-424.21c-nitrite-comminuted',
    156,
    'nitrite',
    'greenWeight',
    CURING_AGENTS('1/4 oz', '156'),
    'secondary',
  ],
  [
    'A-66',
    'us-424.21c-nitrate-comminuted',
    1718,
    'nitrate',
    'greenWeight',
    of(
      '424.21(c)',
      'curing agents: "2 3/4 oz to 100 lb"; the decimals of 1718.75 ppm cut off as for nitrite',
    ),
    'secondary',
  ],
  [
    'A-69',
    'us-424.21c-ascorbic-acid',
    468.75,
    'ascorbicAcid',
    'greenWeight',
    ACCELERATORS('3/4 oz', '468.75'),
    'official',
  ],
  [
    'A-70',
    'us-424.21c-sodium-ascorbate',
    546.875,
    'sodiumAscorbate',
    'greenWeight',
    ACCELERATORS('7/8 oz', '546.875'),
    'official',
  ],
  ['A-78 BHA', 'us-424.21c-bha-fresh-sausage', 100, 'BHA', 'fat', ANTIOXIDANTS, 'official'],
  ['A-78 BHT', 'us-424.21c-bht-fresh-sausage', 100, 'BHT', 'fat', ANTIOXIDANTS, 'official'],
  [
    'A-78 propyl gallate',
    'us-424.21c-propyl-gallate-fresh-sausage',
    100,
    'propylGallate',
    'fat',
    ANTIOXIDANTS,
    'official',
  ],
  [
    'A-78 together',
    'us-424.21c-antioxidants-fresh-sausage',
    200,
    'antioxidants',
    'fat',
    of('424.21(c)', 'antioxidants: "0.02 percent in combination", based on fat content'),
    'official',
  ],
  ['A-80', 'us-424.21c-tbhq-fresh-sausage', 100, 'TBHQ', 'fat', ANTIOXIDANTS, 'official'],
  [
    'citric acid of antioxidants',
    'us-424.21c-citric-acid-fresh-sausage',
    100,
    'citricAcidAsSynergist',
    'fat',
    of('424.21(c)', 'synergists: "Not to exceed 0.01 percent based on fat content"'),
    'official',
  ],
];

export const FIGURE_ROWS: readonly PrintedRow[] = [
  ...printedRows('percent', PERCENT),
  ...printedRows('ppm', PPM),
];
