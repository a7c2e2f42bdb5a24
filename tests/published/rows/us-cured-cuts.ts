import { COOKED, DRIED, type Weighed } from '../../helpers/materials.ts';
import type { PublishedRow, VerdictRow } from '../row.ts';
import { type Printed, printedRows } from './printed.ts';

/**
 * Cured and cooked cuts of the United States. The sections of 9 CFR were read in a public copy of the 2015 annual
 * edition; parts per million of a pickle follow from pounds per 100 gal and are quoted from secondary texts.
 */

const of = (section: string, part?: string) =>
  `9 CFR ${section}, 2015 annual edition${part === undefined ? '' : `, ${part}`}`;

const CHART = (section: string) => of(section, 'chart of the minimum meat PFF percentage');
const FOR_HAM = of('424.21(c)', 'binders for cured pork products as provided in 319.104(d)');
const ACCELERATORS = (ounces: string) => of('424.21(c)', `curing accelerators: "${ounces} to 100 lb"`);
const PUMPED = of('424.22(b)(1)', '"shall be used at 120 parts per million (ppm) ingoing"');
const AT_550 = of('424.22(b)(1)', '"550 ppm of sodium ascorbate or sodium erythorbate"');
const OPTION_B = of('424.22(b)(1)(ii)(B)', '"between 40 and 80 ppm"');
const WEIGHT = 'finished';
const FRESH = 'greenWeight';
const PFF = ['meatProtein', 'finishedWithoutFat'] as const;
const BELLY = 'skinFreeGreenWeight';

const PERCENT: readonly Printed[] = [
  ...(
    [
      ['A-46 plain', 'us-319.104-ham-or-loin-pff', 20.5, '319.104(a)'],
      ['A-46 juices', 'us-319.104-ham-or-loin-with-natural-juices-pff', 18.5, '319.104(a)'],
      ['A-46 water', 'us-319.104-ham-or-loin-water-added-pff', 17, '319.104(a)'],
      ['A-47 plain', 'us-319.104-shoulder-pff', 20, '319.104(a)'],
      ['A-47 juices', 'us-319.104-shoulder-with-natural-juices-pff', 18, '319.104(a)'],
      ['A-47 water', 'us-319.104-shoulder-water-added-pff', 16.5, '319.104(a)'],
      ['A-48', 'us-319.104-uncooked-ham-or-loin-pff', 18, '319.104(a)'],
      ['A-49', 'us-319.104-uncooked-shoulder-pff', 17.5, '319.104(a)'],
      ['A-50 plain', 'us-319.105-chopped-ham-pff', 19.5, '319.105(a)'],
      ['A-50 juices', 'us-319.105-chopped-ham-with-natural-juices-pff', 17.5, '319.105(a)'],
      ['A-50 water', 'us-319.105-chopped-ham-water-added-pff', 16, '319.105(a)'],
    ] as const
  ).map(
    ([id, limitId, figure, section]): Printed => [id, limitId, figure, ...PFF, CHART(section), 'official'],
  ),
  ['A-51', 'us-319.105d-fat', 35, 'finishedFat', WEIGHT, of('319.105(d)'), 'official'],
  ['A-53 weight', 'us-319.106c7-weight', 82, WEIGHT, FRESH, of('319.106(c)(7)'), 'official'],
  ['A-54', 'us-319.107-weight', 100, WEIGHT, FRESH, of('319.107'), 'official'],
  ['A-56 corned, cooked', 'us-319.100-cooked-weight', 100, WEIGHT, FRESH, of('319.100'), 'official'],
  ['A-56 brisket, cooked', 'us-319.101-cooked-weight', 100, WEIGHT, FRESH, of('319.101'), 'official'],
  ['A-56 round, cooked', 'us-319.102-cooked-weight', 100, WEIGHT, FRESH, of('319.102'), 'official'],
  ['A-57 weight', 'us-319.81-weight', 70, 'finishedWithoutFlavoring', FRESH, of('319.81'), 'official'],
  ['us barbecue', 'us-319.80-weight', 70, WEIGHT, FRESH, of('319.80'), 'official'],
  [
    'us corned beef heads',
    'us-319.100-cheek-head-and-heart',
    5,
    'cheekHeadAndHeart',
    FRESH,
    of('319.100'),
    'official',
  ],
  ['A-57 heads', 'us-319.81-cheek-head-and-heart', 5, 'cheekHeadAndHeart', FRESH, of('319.81'), 'official'],
  [
    'A-55 collagen',
    'us-319.104d-pork-collagen',
    3.5,
    'porkCollagen',
    'formula',
    of('319.104(d)'),
    'official',
  ],
  ['A-87', 'us-424.21c-carrageenan-ham', 1.5, 'carrageenan', 'formula', FOR_HAM, 'official'],
  ['us ham starch', 'us-424.21c-modified-starch-ham', 2, 'modifiedStarch', 'formula', FOR_HAM, 'official'],
  [
    'us ham starch, water product',
    'us-424.21c-modified-starch-water-product',
    3.5,
    'modifiedStarch',
    'formula',
    FOR_HAM,
    'official',
  ],
  ['us ham soy', 'us-424.21c-isolated-soy-ham', 2, 'isolatedSoy', 'formula', FOR_HAM, 'official'],
  ['us ham caseinate', 'us-424.21c-caseinate-ham', 2, 'caseinate', 'formula', FOR_HAM, 'official'],
  [
    'us ham soy concentrate',
    'us-424.21c-soy-concentrate-ham',
    3.5,
    'soyConcentrate',
    'formula',
    FOR_HAM,
    'official',
  ],
  [
    'us cuts phosphate',
    'us-424.21c-phosphate-cuts',
    0.5,
    'phosphate',
    WEIGHT,
    of('424.21(c)', 'miscellaneous: "0.5 percent of phosphate in meat food product"'),
    'official',
  ],
  [
    'us cured pork sorbitol',
    'us-424.21c-sorbitol-cured-pork',
    2,
    'sorbitol',
    'formulaWithoutWater',
    of('424.21(c)', 'sorbitol: "of the weight of the formula excluding the formula weight of water or ice"'),
    'official',
  ],
  [
    'A-64 sugar',
    'us-424.22b1iib-sugar',
    0.7,
    'fermentableSugar',
    'formula',
    of('424.22(b)(1)(ii)(B)', '"at a minimum of 0.7 percent"'),
    'official',
  ],
];

const PPM: readonly Printed[] = [
  [
    'A-60',
    'us-424.21c-nitrite-pickle',
    200,
    'nitrite',
    FRESH,
    '9 CFR 424.21(c): "2 lb to 100 gal pickle at 10 percent pump level"; 200 as a public note of 2026 works it out',
    'secondary',
  ],
  [
    'A-66 pickle',
    'us-424.21c-nitrate-pickle',
    700,
    'nitrate',
    FRESH,
    '9 CFR 424.21(c): "7 lb to 100 gal pickle"; 700 as quoted in public notes of 2026',
    'secondary',
  ],
  [
    'A-59',
    'us-424.21c-nitrite-dry-cure',
    625,
    'nitrite',
    FRESH,
    of('424.21(c)', 'curing agents: "1 oz to 100 lb meat or poultry product"'),
    'official',
  ],
  [
    'A-66 dry',
    'us-424.21c-nitrate-dry-cure',
    2187,
    'nitrate',
    FRESH,
    '9 CFR 424.21(c): "3 1/2 oz to 100 lb"; 2187, the decimals cut off, as quoted in public notes of 2026',
    'secondary',
  ],
  [
    'A-69 cuts',
    'us-424.21c-ascorbic-acid-cuts',
    468.75,
    'ascorbicAcid',
    FRESH,
    ACCELERATORS('3/4 oz'),
    'official',
  ],
  [
    'A-70 cuts',
    'us-424.21c-sodium-ascorbate-cuts',
    546.875,
    'sodiumAscorbate',
    FRESH,
    ACCELERATORS('7/8 oz'),
    'official',
  ],
  ['A-62 nitrite', 'us-424.22b1-nitrite-pumped-bacon', 120, 'nitriteAt120Of148', BELLY, PUMPED, 'official'],
  [
    'A-62 ascorbate',
    'us-424.22b1-ascorbate-pumped-bacon',
    550,
    'anhydrousAscorbate',
    BELLY,
    AT_550,
    'official',
  ],
  [
    'A-63',
    'us-424.22b1iia-nitrite-pumped-bacon',
    100,
    'nitriteAt100Of123',
    BELLY,
    of('424.22(b)(1)(ii)(A)', '"100 ppm ingoing (potassium nitrite at 123 ppm ingoing)"'),
    'official',
  ],
  ['A-64 least', 'us-424.22b1iib-nitrite-least', 40, 'nitriteAt40Of49', BELLY, OPTION_B, 'official'],
  ['A-64 most', 'us-424.22b1iib-nitrite-most', 80, 'nitriteAt80Of99', BELLY, OPTION_B, 'official'],
  [
    'A-65 immersion',
    'us-424.22b2-nitrite-immersion-bacon',
    120,
    'nitriteAt120Of148',
    BELLY,
    of('424.22(b)(2)', '"shall not exceed 120 ppm ingoing"'),
    'official',
  ],
  [
    'A-65 dry cured',
    'us-424.22b3-nitrite-dry-cured-bacon',
    200,
    'nitriteAt200Of246',
    BELLY,
    of('424.22(b)(3)', '"shall not exceed 200 ppm ingoing"'),
    'official',
  ],
  [
    'us bacon tocopherols',
    'us-424.21c-tocopherols-pumped-bacon',
    500,
    'tocopherols',
    WEIGHT,
    of('424.21(c)', 'tocopherols in pump-cured bacon: "500 ppm; by injection or surface application"'),
    'official',
  ],
  [
    'us roast beef enzyme',
    'us-319.81-transglutaminase',
    65,
    'transglutaminase',
    'formula',
    of('319.81', '"at levels of up to 65 ppm"'),
    'official',
  ],
];

const TO_ONE: readonly Printed[] = [
  ['A-56 corned', 'us-319.100-cured-weight', 1.1, WEIGHT, FRESH, of('319.100'), 'official'],
  ['A-56 brisket', 'us-319.101-cured-weight', 1.2, WEIGHT, FRESH, of('319.101'), 'official'],
  ['A-56 round', 'us-319.102-cured-weight', 1.1, WEIGHT, FRESH, of('319.102'), 'official'],
  ['us tongue', 'us-319.103-cured-weight', 1.1, WEIGHT, FRESH, of('319.103'), 'official'],
];

/** So many parts per million of a material on a ton of pork. */
const inTon = (materialId: string, ppm: number): Weighed[] => [
  [materialId, String(ppm / 1000)],
  ['pork', '1000'],
];

const BACON_120 = 'us-424.22b1-nitrite-pumped-bacon';
const BACON_550 = 'us-424.22b1-ascorbate-pumped-bacon';

/** Pumped bacon is a target, not a maximum: id, limit, material, ppm, whether it holds, why. */
const TARGETS = [
  [
    'T-09 120',
    BACON_120,
    'sodium-nitrite',
    120,
    true,
    '120 ppm of sodium nitrite is what pumped bacon takes',
  ],
  [
    'T-09 119',
    BACON_120,
    'sodium-nitrite',
    119,
    true,
    '119 ppm stands within the 2 % that are left for weighing',
  ],
  [
    'T-09 117',
    BACON_120,
    'sodium-nitrite',
    117,
    false,
    '117 ppm would keep a maximum of 120 and is too little',
  ],
  ['T-09 80', BACON_120, 'sodium-nitrite', 80, false, '80 ppm is too little without the starter'],
  ['T-09 none', BACON_120, 'sodium-nitrite', 0, false, 'Pumped bacon without nitrite is not this bacon'],
  ['T-09 123', BACON_120, 'sodium-nitrite', 123, false, '123 ppm of sodium nitrite is too much'],
  ['T-09 156', BACON_120, 'sodium-nitrite', 156, false, '156 ppm, the figure of ground meat, is too much'],
  [
    'T-09 200',
    BACON_120,
    'sodium-nitrite',
    200,
    false,
    '200 ppm, the figure of other pickled cuts, is too much',
  ],
  ['W-04 bacon', BACON_120, 'potassium-nitrite', 148, true, '148 ppm of potassium nitrite do for 120 ppm'],
  ['T-07 bacon', BACON_120, 'potassium-nitrite', 120, false, '120 ppm of potassium nitrite are too little'],
  [
    'W-05 bacon',
    'us-424.22b1iia-nitrite-pumped-bacon',
    'potassium-nitrite',
    123,
    true,
    '123 ppm of potassium nitrite do for 100 ppm of the lower option',
  ],
  [
    'A-63 at 120',
    'us-424.22b1iia-nitrite-pumped-bacon',
    'sodium-nitrite',
    120,
    false,
    'The lower option takes 100 ppm, not 120',
  ],
  [
    'A-62 550',
    BACON_550,
    'sodium-erythorbate',
    550,
    true,
    '550 ppm of erythorbate is what pumped bacon takes',
  ],
  ['A-62 none', BACON_550, 'sodium-erythorbate', 0, false, 'Pumped bacon without ascorbate is refused'],
  ['A-62 469', BACON_550, 'sodium-erythorbate', 469, false, '469 ppm of erythorbate are too little'],
  ['A-71', BACON_550, 'sodium-erythorbate-hydrate', 600, true, '600 ppm of the hydrate bring the 550 ppm'],
  ['T-08', BACON_550, 'sodium-erythorbate-hydrate', 550, false, '550 ppm of the hydrate are too little'],
] as const;

const verdict = (
  id: string,
  says: string,
  source: string,
  limitId: string,
  lines: readonly Weighed[],
  holds: boolean,
  process?: VerdictRow['process'],
): VerdictRow => ({
  kind: 'verdict',
  id,
  says: `${says}.`,
  source,
  mark: 'constructed',
  limitId,
  lines,
  holds,
  ...(process && { process }),
});

/** Yields at which a product just keeps what it may weigh, and the least step beyond. */
const YIELDS: readonly (readonly [
  id: string,
  says: string,
  section: string,
  limitId: string,
  lines: readonly Weighed[],
  holding: number,
  failing: number,
  process: typeof COOKED,
])[] = [
  [
    'K-22',
    '20 lb of fresh country ham finish at 16.4 lb at most',
    '319.106(c)(7)',
    'us-319.106c7-weight',
    [['pork', '20', 'lb']],
    0.82,
    0.8201,
    DRIED,
  ],
  [
    'K-22 salted',
    '20 lb of fresh country ham with 5 lb of dry salt finish at 16.4 lb as well',
    '319.106(c)(7)',
    'us-319.106c7-weight',
    [
      ['pork', '20', 'lb'],
      ['salt', '5', 'lb'],
    ],
    0.656,
    0.6561,
    DRIED,
  ],
  [
    'us bacon yield',
    '100 lb of bellies with 25 lb of pickle finish at 100 lb at most',
    '319.107',
    'us-319.107-weight',
    [
      ['pork', '100', 'lb'],
      ['water', '25', 'lb'],
    ],
    0.8,
    0.8001,
    COOKED,
  ],
  [
    'us brisket yield',
    '100 lb of brisket with 25 lb of pickle may keep 20 lb of it',
    '319.101',
    'us-319.101-cured-weight',
    [
      ['beef', '100', 'lb'],
      ['water', '25', 'lb'],
    ],
    0.96,
    0.9601,
    COOKED,
  ],
  [
    'us brisket yield, cooked',
    'The same brisket, cooked, keeps none of it',
    '319.101',
    'us-319.101-cooked-weight',
    [
      ['beef', '100', 'lb'],
      ['water', '25', 'lb'],
    ],
    0.8,
    0.8001,
    COOKED,
  ],
  [
    'us roast beef yield',
    '99 lb of beef finish at 69.3 lb at most, and the 1 lb of salt does not count',
    '319.81',
    'us-319.81-weight',
    [
      ['beef', '99', 'lb'],
      ['salt', '1', 'lb'],
    ],
    0.703,
    0.7031,
    COOKED,
  ],
  [
    'us barbecue yield',
    '100 lb of fresh meat make at most 70 lb of barbecue',
    '319.80',
    'us-319.80-weight',
    [['beef', '100', 'lb']],
    0.7,
    0.7001,
    COOKED,
  ],
];

const K_10: readonly Weighed[] = [
  ['pork-sinewy', '86'],
  ['pork', '2'],
  ['water', '12'],
];
const K_11: readonly Weighed[] = [
  ['rabbit', '68'],
  ['pork-sinewy', '13'],
  ['water', '19'],
];
const PUMPED_HAM: readonly Weighed[] = [
  ['pork-sinewy', '100'],
  ['water', '20'],
];
const CHART_A = of('319.104(a)', 'note 1 of the chart');

const RULES: readonly PublishedRow[] = [
  {
    kind: 'value',
    id: 'K-10 value',
    says: 'A ham of 17.5 % meat protein and 9 % fat has a PFF of 19.23.',
    source: `arithmetic from ${CHART_A}`,
    mark: 'constructed',
    numerator: 'meatProtein',
    basis: 'finishedWithoutFat',
    as: 'percent',
    lines: K_10,
    published: 19.23,
    tolerance: 0.005,
  },
  verdict('K-10 plain', '19.23 is no plain ham', CHART_A, 'us-319.104-ham-or-loin-pff', K_10, false),
  verdict(
    'K-10 juices',
    '19.23 is ham with natural juices',
    CHART_A,
    'us-319.104-ham-or-loin-with-natural-juices-pff',
    K_10,
    true,
  ),
  {
    kind: 'value',
    id: 'K-11 value',
    says: 'A ham of 16.2 % meat protein and 4.7 % fat has a PFF of 16.99895.',
    source: `arithmetic from ${CHART_A}`,
    mark: 'constructed',
    numerator: 'meatProtein',
    basis: 'finishedWithoutFat',
    as: 'percent',
    lines: K_11,
    published: 16.99895,
    tolerance: 0.000005,
  },
  verdict(
    'K-11, T-31',
    '16.99895 is below 17.0 and no ham water added, however it is rounded',
    CHART_A,
    'us-319.104-ham-or-loin-water-added-pff',
    K_11,
    false,
  ),
  verdict(
    'us ham smoked',
    '20 kg of pickle on 100 kg leave a plain ham when the smokehouse takes 18 kg of them',
    CHART_A,
    'us-319.104-ham-or-loin-pff',
    PUMPED_HAM,
    true,
    { ...COOKED, yieldFraction: 0.85 },
  ),
  verdict(
    'us ham in bag',
    'The same ham cooked in a bag, where nothing is lost, is not even with natural juices',
    CHART_A,
    'us-319.104-ham-or-loin-with-natural-juices-pff',
    PUMPED_HAM,
    false,
    COOKED,
  ),
  verdict(
    'us ham soy protein',
    'Protein of soy is no protein of pork: 2 kg of it raise no PFF',
    CHART_A,
    'us-319.104-ham-or-loin-water-added-pff',
    [...K_11, ['isolated-soy-protein', '2']],
    false,
  ),
  verdict(
    'W-03 holds',
    '2 lb of nitrite in 100 gal of 10 lb a gallon, pumped at 10 %, keep the 200 ppm to the last digit',
    of('424.21(c)'),
    'us-424.21c-nitrite-pickle',
    [
      ['pickle-nitrite', '10', 'lb'],
      ['pork', '100', 'lb'],
    ],
    true,
  ),
  verdict(
    'K-18, T-04 fails',
    'The same 2 lb in 100 gal of 8.33 lb a gallon, 240 ppm at 10 %, break it',
    of('424.21(c)'),
    'us-424.21c-nitrite-pickle',
    [
      ['sodium-nitrite', '2', 'lb'],
      ['pork', '8330', 'lb'],
    ],
    false,
  ),
  verdict(
    'T-05 on green weight',
    'A pump of 12 % on green weight breaks it although the pickle is only 10.7 % of the pumped weight',
    of('424.21(c)'),
    'us-424.21c-nitrite-pickle',
    [
      ['pickle-nitrite', '12', 'lb'],
      ['pork', '100', 'lb'],
    ],
    false,
  ),
  {
    kind: 'value',
    id: 'T-05 pump',
    says: '100 lb that weigh 112 lb after pumping took 12 %, not 10.7 %.',
    source: 'pump on green weight: common practice',
    mark: 'common practice',
    numerator: 'waterPutIn',
    basis: 'greenWeight',
    as: 'percent',
    lines: [
      ['water', '12', 'lb'],
      ['pork', '100', 'lb'],
    ],
    published: 12,
    tolerance: 0,
  },
  ...(
    [
      ['T-05 round', 'us-319.102-cured-weight', false, 'A round that took 12 % is no corned beef round'],
      ['T-05 brisket', 'us-319.101-cured-weight', true, 'A brisket that took 12 % is a corned beef brisket'],
    ] as const
  ).map(([id, limitId, holds, says]) =>
    verdict(
      id,
      says,
      of('319.101 and 319.102'),
      limitId,
      [
        ['water', '12', 'lb'],
        ['beef', '100', 'lb'],
      ],
      holds,
    ),
  ),
  verdict(
    'W-14 holds',
    '7 lb of nitrate in 100 gal of 10 lb a gallon, at 10 %, keep the 700 ppm',
    of('424.21(c)'),
    'us-424.21c-nitrate-pickle',
    [
      ['pickle-nitrate', '10', 'lb'],
      ['pork', '100', 'lb'],
    ],
    true,
  ),
  verdict(
    'W-02 holds',
    'One ounce of nitrite to 100 lb keeps the 625 ppm of a dry cure to the last digit',
    of('424.21(c)'),
    'us-424.21c-nitrite-dry-cure',
    [
      ['sodium-nitrite', '1', 'oz'],
      ['pork', '100', 'lb'],
    ],
    true,
  ),
  verdict(
    'W-13, T-06 dry cure',
    'Three and a half ounces of nitrate to 100 lb, 2187.5 ppm, fail against the printed 2187',
    of('424.21(c)'),
    'us-424.21c-nitrate-dry-cure',
    [
      ['sodium-nitrate', '3.5', 'oz'],
      ['pork', '100', 'lb'],
    ],
    false,
  ),
  {
    kind: 'boundary',
    id: 'T-07 pickle',
    says: 'Outside of bacon potassium nitrite keeps the figure of sodium nitrite: 200 g in a ton.',
    source: of('424.21(c)', 'curing agents: one row for sodium and potassium nitrite'),
    mark: 'constructed',
    limitId: 'us-424.21c-nitrite-pickle',
    line: ['potassium-nitrite', '0.2'],
    beyond: '0.2001',
    others: [['pork', '1000']],
  },
  ...(
    [
      [
        'W-04 immersion',
        'us-424.22b2-nitrite-immersion-bacon',
        '0.148',
        '0.1481',
        '424.22(b)(2)',
        'at most 148',
      ],
      ['W-04 dry', 'us-424.22b3-nitrite-dry-cured-bacon', '0.246', '0.2461', '424.22(b)(3)', 'at most 246'],
      [
        'W-06 starter',
        'us-424.22b1iib-nitrite-least',
        '0.049',
        '0.0489',
        '424.22(b)(1)(ii)(B)',
        'at least 49',
      ],
      ['W-07 starter', 'us-424.22b1iib-nitrite-most', '0.099', '0.0991', '424.22(b)(1)(ii)(B)', 'at most 99'],
    ] as const
  ).map(
    ([id, limitId, at, beyond, section, figure]): PublishedRow => ({
      kind: 'boundary',
      id,
      says: `Such bacon takes ${figure} ppm of potassium nitrite.`,
      source: of(section),
      mark: 'official',
      limitId,
      line: ['potassium-nitrite', at],
      beyond,
      others: [['pork', '1000']],
    }),
  ),
  {
    kind: 'verdict',
    id: 'us bacon skin',
    says: 'Skin gives no room for nitrite: 120 g on a ton of which 100 kg are skin are too much.',
    source: of('424.22(b)(2)', '"skin-free green weight"'),
    mark: 'constructed',
    limitId: 'us-424.22b2-nitrite-immersion-bacon',
    lines: [
      ['sodium-nitrite', '0.12'],
      ['pork', '900'],
      ['pork-skin', '100'],
    ],
    holds: false,
  },
  {
    kind: 'value',
    id: 'A-71 value',
    says: '600 ppm of sodium erythorbate monohydrate are 550 ppm without its water.',
    source: `arithmetic from ${AT_550}; the molar mass of water is common practice`,
    mark: 'constructed',
    numerator: 'anhydrousAscorbate',
    basis: BELLY,
    as: 'ppm',
    lines: inTon('sodium-erythorbate-hydrate', 600),
    published: 550,
    tolerance: 0.5,
  },
  ...TARGETS.map(([id, limitId, materialId, ppm, holds, says]) =>
    verdict(id, says, of('424.22(b)(1)'), limitId, inTon(materialId, ppm), holds),
  ),
  ...YIELDS.flatMap(([id, says, section, limitId, lines, holding, failing, process]) => [
    verdict(id, says, of(section), limitId, lines, true, { ...process, yieldFraction: holding }),
    verdict(
      `${id}, beyond`,
      `${says}: a yield of ${failing} is too much`,
      of(section),
      limitId,
      lines,
      false,
      { ...process, yieldFraction: failing },
    ),
  ]),
  ...(
    [
      ['ham', 'beef', false, '319.104(a)'],
      ['ham', 'carrageenan', false, '319.104(d)'],
      ['ham-with-natural-juices', 'carrageenan', true, '319.104(d)'],
      ['ham-water-added', 'soy-concentrate', true, '319.104(d)'],
      ['ham-water-added', 'soy-flour', false, '319.104(d)'],
      ['ham-water-added', 'transglutaminase', false, '319.104(d)'],
      ['ham-and-water-product', 'modified-starch', true, '319.104(d)'],
      ['cured-pork-loin-water-added', 'carrageenan', false, '319.104(d)'],
      ['cured-pork-shoulder-water-added', 'isolated-soy-protein', false, '319.104(d)'],
      ['ham', 'pork-separated', false, '319.6(d)'],
      ['chopped-ham', 'pork-separated', true, '319.105(b)'],
      ['bacon-pumped', 'sodium-nitrate', false, '424.21(c)'],
      ['bacon-dry-cured', 'potassium-nitrate', false, '424.21(c)'],
      ['bacon-pumped', 'potassium-nitrite', true, '424.22(b)(1)'],
      ['country-ham', 'water', false, '319.106(a)'],
      ['country-ham', 'sodium-nitrate', true, '319.106(d)(2)'],
      ['country-ham', 'sodium-tripolyphosphate', false, '319.106(d)'],
      ['country-ham', 'sugar', true, '319.106(d)(1)'],
      ['country-ham-without-nitrite', 'cure-6.25', false, '319.106(c)(4)'],
      ['corned-beef', 'beef-cheek', true, '319.100'],
      ['corned-beef-brisket', 'beef-cheek', false, '319.101'],
      ['corned-beef-round', 'beef-separated', false, '319.6(d)'],
      ['cured-beef-tongue', 'beef-tongue', true, '319.103'],
      ['roast-beef-parboiled', 'transglutaminase', true, '319.81'],
      ['roast-beef-parboiled', 'sodium-nitrite', false, '319.81'],
      ['barbecued-meat', 'chicken', false, '319.80'],
    ] as const
  ).map(
    ([productClass, materialId, allowed, section]): PublishedRow => ({
      kind: 'entry',
      id: `us ${productClass}: ${materialId}`,
      says: `${materialId.replaceAll('-', ' ')} ${allowed ? 'may go' : 'does not go'} into ${productClass.replaceAll('-', ' ')}.`,
      source: of(section),
      mark: 'official',
      productClass,
      materialId,
      allowed,
    }),
  ),
];

export const US_CURED_CUT_ROWS: readonly PublishedRow[] = [
  ...printedRows('percent', PERCENT),
  ...printedRows('ppm', PPM),
  ...printedRows('to 1', TO_ONE),
  ...RULES,
];
