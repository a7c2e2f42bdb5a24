import type { PublishedRow } from '../row.ts';
import { type Printed, printedRows } from './printed.ts';

/** Canada: Food and Drug Regulations, C.R.C., c. 870, consolidation of 23 July 2026, and pages of the inspection agency. */

const GROUND =
  'inspection.gc.ca, information bulletin on ground meat: extra lean 10 %, lean 17 %, medium 23 %, regular 30 %';
const FDR = (section: string, words: string) =>
  `Food and Drug Regulations, C.R.C., c. 870, ${section}, consolidation of 23 July 2026: ${words}`;
const AGENCY = 'inspection.gc.ca, labelling of meat and poultry products, table of least meat protein';
const MANUAL = 'inspection.canada.ca, archived Meat Hygiene Manual of Procedures, chapter 4: 200 ppm';
const IDENTITY = 'Canadian Standards of Identity, volume 7: at least 100 ppm';
const POINTS = 'by the 1.5 points of Food and Drug Regulations, B.14.030, from';

const protein = (
  id: string,
  limitId: string,
  percent: number,
  all: boolean,
  source: string,
  mark: Printed[6],
): Printed => [id, limitId, percent, all ? 'proteinWithoutGelatin' : 'meatProtein', 'finished', source, mark];

const PERCENT: readonly Printed[] = [
  ...(
    [
      ['extra-lean', 10],
      ['lean', 17],
      ['medium', 23],
      ['regular', 30],
    ] as const
  ).map(
    ([name, percent]): Printed => [
      `CA-01 ${name}`,
      `ca-ground-${name}-fat`,
      percent,
      'finishedFat',
      'finished',
      GROUND,
      'secondary',
    ],
  ),
  protein('CA-09', 'ca-patty-total-protein', 16, true, FDR('B.14.041(a)', '16 per cent'), 'official'),
  protein('CA-09 meat', 'ca-patty-meat-protein', 14.5, false, `${POINTS} 16 of B.14.041(a)`, 'official'),
  protein('CA-08', 'ca-burger-total-protein', 13, true, FDR('B.14.040(a)', '13 per cent'), 'official'),
  protein(
    'CA-12 burger',
    'ca-burger-meat-protein',
    11.5,
    false,
    `${AGENCY}: 11.5 %; ${POINTS} 13`,
    'official',
  ),
  protein(
    'CA-08 balls',
    'ca-meat-balls-total-protein',
    13,
    true,
    FDR('B.14.040(a)', '13 per cent'),
    'official',
  ),
  protein(
    'CA-12 balls',
    'ca-meat-balls-meat-protein',
    11.5,
    false,
    `${AGENCY}: 11.5 %; ${POINTS} 13`,
    'official',
  ),
  protein('CA-10', 'ca-fresh-sausage-meat-protein', 7.5, false, `${AGENCY}: 7.5 %`, 'secondary'),
  protein(
    'CA-10 total',
    'ca-fresh-sausage-total-protein',
    9,
    true,
    `${AGENCY}: 7.5 %; ${POINTS} 9`,
    'secondary',
  ),
  protein('CA-14', 'ca-cured-uncooked-sausage-meat-protein', 7.5, false, `${AGENCY}: 7.5 %`, 'secondary'),
  protein('CA-11', 'ca-cooked-sausage-meat-protein', 9.5, false, `${AGENCY}: 9.5 %`, 'secondary'),
  protein(
    'CA-11 total',
    'ca-cooked-sausage-total-protein',
    11,
    true,
    `${AGENCY}: 9.5 %; ${POINTS} 11`,
    'secondary',
  ),
  protein('CA-15', 'ca-liver-sausage-meat-protein', 9.5, false, `${AGENCY}: 9.5 %`, 'secondary'),
  protein(
    'CA-17 fresh',
    'ca-extended-fresh-sausage-total-protein',
    9,
    true,
    FDR('B.14.075', '9 per cent'),
    'official',
  ),
  protein(
    'CA-17 cooked',
    'ca-extended-cooked-sausage-total-protein',
    11,
    true,
    FDR('B.14.076', '11 per cent'),
    'official',
  ),
  protein(
    'CA-18 uncooked',
    'ca-solid-cut-uncooked-meat-protein',
    10,
    false,
    FDR('B.14.021', '10 per cent'),
    'official',
  ),
  protein(
    'CA-18 slow',
    'ca-slow-cured-cut-meat-protein',
    10,
    false,
    FDR('B.14.021', '10 per cent'),
    'official',
  ),
  protein(
    'CA-18 cooked',
    'ca-solid-cut-cooked-meat-protein',
    12,
    false,
    FDR('B.14.021', '12 per cent'),
    'official',
  ),
  [
    'CA-27',
    'ca-phosphate',
    0.5,
    'phosphateAsDisodiumPhosphate',
    'finished',
    'Meat Hygiene Manual of Procedures, chapter 7, annex K (archived 2006): 0.5 %, calculated as sodium phosphate dibasic',
    'secondary',
  ],
];

const PPM: readonly Printed[] = [
  ['CA-22', 'ca-cure-most', 200, 'nitriteAndNitrate', 'formula', MANUAL, 'secondary'],
  ['CA-21', 'ca-cure-least', 100, 'nitriteAndNitrate', 'formula', IDENTITY, 'secondary'],
  [
    'CA-24',
    'ca-side-bacon-nitrite',
    120,
    'nitrite',
    'formula',
    'List of Permitted Preservatives',
    'from memory, verify',
  ],
];

export const CA_ROWS: readonly PublishedRow[] = [
  ...printedRows('percent', PERCENT),
  ...printedRows('ppm', PPM),
  {
    kind: 'dose',
    id: 'CA-23',
    says: '0.32 oz of nitrate in 100 lb of batch are 200 ppm.',
    source: 'list of permitted preservatives as copied in public: "200 p.p.m. (0.32 ounces to 100 pounds)"',
    mark: 'secondary',
    agentKg: 0.32 / 16,
    strengthFraction: 1,
    basisKg: 100,
    publishedPpm: 200,
    tolerance: 0,
  },
  {
    kind: 'boundary',
    id: 'CA basis of ppm',
    says: 'Parts per million are of the batch: 90 kg of meat with 10 kg of water take 20 g of nitrite, not 18 g.',
    source: MANUAL,
    mark: 'constructed',
    limitId: 'ca-cure-most',
    line: ['sodium-nitrite', '0.02'],
    beyond: '0.02001',
    others: [
      ['pork', '90'],
      ['water', '9.98'],
    ],
  },
  {
    kind: 'boundary',
    id: 'CA CA-06 gelatin',
    says: 'Gelatin does not count: 3 kg of pork take 2 kg of water and no more, whatever gelatin is added for it.',
    source: FDR('B.14.030(3)', 'gelatin is not counted in total protein'),
    mark: 'constructed',
    limitId: 'ca-fresh-sausage-total-protein',
    line: ['gelatin', '0'],
    beyond: '0.1',
    others: [
      ['pork', '3'],
      ['water', '2'],
    ],
  },
  {
    kind: 'value',
    id: 'CA T-08 phosphate',
    says: 'A kilogram of tripolyphosphate counts as 1.1577 kg of disodium phosphate.',
    source: 'molar masses of Na5P3O10 and Na2HPO4',
    mark: 'constructed',
    numerator: 'phosphateAsDisodiumPhosphate',
    basis: 'formula',
    as: 'kg',
    lines: [['sodium-tripolyphosphate', '1']],
    published: 1.1577,
    tolerance: 5e-5,
  },
  {
    kind: 'entry',
    id: 'CA-03 seasoning',
    says: 'Seasoning does not go into ground meat.',
    source: GROUND,
    mark: 'secondary',
    jurisdiction: 'ca',
    productClass: 'lean-ground-beef',
    materialId: 'black-pepper',
    allowed: false,
  },
  {
    kind: 'entry',
    id: 'CA-03 separated',
    says: 'Mechanically separated meat does not go into ground meat.',
    source: GROUND,
    mark: 'secondary',
    jurisdiction: 'ca',
    productClass: 'regular-ground-pork',
    materialId: 'pork-separated',
    allowed: false,
  },
  {
    kind: 'entry',
    id: 'CA-05 filler in a patty',
    says: 'Filler goes into a burger and not into a patty.',
    source: 'inspection.gc.ca, information bulletin on beef burgers',
    mark: 'secondary',
    jurisdiction: 'ca',
    productClass: 'beef-patty',
    materialId: 'soy-flour',
    allowed: false,
  },
  {
    kind: 'entry',
    id: 'CA-05 filler in a burger',
    says: 'Filler may go into a burger.',
    source: 'inspection.gc.ca, information bulletin on beef burgers',
    mark: 'secondary',
    jurisdiction: 'ca',
    productClass: 'beef-burger',
    materialId: 'soy-flour',
    allowed: true,
  },
];
