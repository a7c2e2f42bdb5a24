import { FORMS } from '../../../src/rules/forms.ts';
import type { FormName, Mark, PrintedRow } from '../row.ts';

/** The figure, the numerator and the basis of every limit that has one, as its source prints it. */

const EARLIER_140 = '1 CRR-NY 319.140, a state copy of the earlier text of 9 CFR 319.140';
const NOTE_424 = '9 CFR 424.21(c), as quoted in a public note of 2026 that works out the ppm';
const MEMORY_424 = '9 CFR 424.21(c), from memory, verify';
const DATA_BOOK = '9 CFR 424.21(c), as given at what-when-how.com, table 12.2, and in a data book, p. 91';

type Entry = readonly [
  id: string,
  limitId: string,
  published: number,
  numerator: FormName,
  basis: FormName,
  source: string,
  mark: Mark,
];

const PERCENT: readonly Entry[] = [
  ['A-01', 'us-319.15a-fat', 30, 'finishedFat', 'finished', '9 CFR 319.15(a)', 'official'],
  ['A-02', 'us-319.15a-cheek-meat', 25, 'cheekMeat', 'greenWeight', '9 CFR 319.15(a)', 'official'],
  ['A-03', 'us-319.15b-fat', 30, 'finishedFat', 'finished', '9 CFR 319.15(b)', 'official'],
  ['A-11', 'us-319.140-water', 3, 'waterPutIn', 'formula', '9 CFR 319.140', 'official'],
  ['A-14, A-85', 'us-424.21c-binders', 3.5, 'binder', 'finished', EARLIER_140, 'secondary'],
  ['A-15', 'us-319.141-fat', 50, 'finishedFat', 'finished', '9 CFR 319.141', 'official'],
  ['A-16', 'us-319.142-fat', 30, 'finishedFat', 'finished', 'a teaching page on 9 CFR 319.142', 'secondary'],
  ['A-17', 'us-319.143-fat', 50, 'finishedFat', 'finished', '9 CFR 319.143', 'official'],
  ['A-18', 'us-319.144-fat', 50, 'finishedFat', 'finished', '9 CFR 319.144', 'official'],
  ['A-19 meat', 'us-319.145a-meat', 85, 'meatOrFat', 'formula', '9 CFR 319.145(a)', 'official'],
  ['A-19 fat', 'us-319.145a-fat', 35, 'fat', 'formula', '9 CFR 319.145(a)', 'official'],
  ['A-23', 'us-319.160-fat', 50, 'finishedFat', 'finished', '9 CFR 319.160', 'official'],
  ['A-24 fat', 'us-319.180(a)-fat', 30, 'finishedFat', 'finished', '9 CFR 319.180(a)', 'official'],
  [
    'A-24 sum',
    'us-319.180a-fat-and-added-water',
    40,
    'fatAndAddedWater',
    'finished',
    '9 CFR 319.180(a)',
    'official',
  ],
  ['A-25', 'us-319.180a-poultry', 15, 'poultry', 'formulaWithoutWater', '9 CFR 319.180(a)', 'official'],
  ['A-30', 'us-319.140-added-water', 10, 'addedWater', 'finished', '9 CFR 319.140', 'official'],
  [
    'A-40',
    'us-319.6-mechanically-separated-share',
    20,
    'mechanicallySeparated',
    'greenWeight',
    '9 CFR 319.6',
    'official',
  ],
  ['A-76', 'us-424.21c-phosphate', 0.5, 'phosphate', 'finished', MEMORY_424, 'from memory, verify'],
  ['A-82', 'us-424.21c-lactate', 4.8, 'lactate', 'formula', MEMORY_424, 'from memory, verify'],
  ['A-83', 'us-424.21c-diacetate', 0.25, 'diacetate', 'formula', MEMORY_424, 'from memory, verify'],
  ['A-86 soy', 'us-424.21c-isolated-soy', 2, 'isolatedSoy', 'finished', EARLIER_140, 'secondary'],
  ['A-86 caseinate', 'us-424.21c-caseinate', 2, 'caseinate', 'finished', MEMORY_424, 'from memory, verify'],
];

const PPM: readonly Entry[] = [
  ['A-58', 'us-424.21c-nitrite-comminuted', 156, 'nitrite', 'greenWeight', NOTE_424, 'secondary'],
  [
    'A-66',
    'us-424.21c-nitrate-comminuted',
    1718,
    'nitrate',
    'greenWeight',
    '9 CFR 424.21(c), the ounces as given on a reference page of the trade',
    'secondary',
  ],
  ['A-69', 'us-424.21c-ascorbic-acid', 469, 'ascorbicAcid', 'greenWeight', MEMORY_424, 'from memory, verify'],
  [
    'A-70',
    'us-424.21c-sodium-ascorbate',
    547,
    'sodiumAscorbate',
    'greenWeight',
    MEMORY_424,
    'from memory, verify',
  ],
  ['A-78 BHA', 'us-424.21c-bha-fresh-sausage', 100, 'BHA', 'fat', DATA_BOOK, 'secondary'],
  ['A-78 BHT', 'us-424.21c-bht-fresh-sausage', 100, 'BHT', 'fat', DATA_BOOK, 'secondary'],
  [
    'A-78 propyl gallate',
    'us-424.21c-propyl-gallate-fresh-sausage',
    100,
    'propylGallate',
    'fat',
    DATA_BOOK,
    'secondary',
  ],
  [
    'A-78 together',
    'us-424.21c-antioxidants-fresh-sausage',
    200,
    'antioxidants',
    'fat',
    DATA_BOOK,
    'secondary',
  ],
  ['A-80', 'us-424.21c-tbhq-fresh-sausage', 100, 'TBHQ', 'fat', MEMORY_424, 'from memory, verify'],
];

const rowOf =
  (unit: PrintedRow['unit']) =>
  ([id, limitId, published, numerator, basis, source, mark]: Entry): PrintedRow => ({
    kind: 'printed',
    id,
    says: `${limitId} is ${published} ${unit} of ${FORMS[basis].says}.`,
    source,
    mark,
    limitId,
    published,
    unit,
    numerator: FORMS[numerator],
    basis: FORMS[basis],
  });

export const FIGURE_ROWS: readonly PrintedRow[] = [
  ...PERCENT.map(rowOf('percent')),
  ...PPM.map(rowOf('ppm')),
];
