import type { ClaimRow, LabelRow, PublishedRow } from '../row.ts';

/** What labels say: names, statements, allergens and claims. */

const M_317_2 =
  '9 CFR 317.2, a complete copy of title 9 of 2018 or later; its lines rest on the rule, the batch is made up';
const NUTRIENT_CLAIMS = '9 CFR 317.362, annual edition of 2015';

const statement = (
  id: string,
  says: string,
  lines: LabelRow['lines'],
  published: string,
  extra: Partial<LabelRow> = {},
): LabelRow => ({
  kind: 'label',
  id,
  says,
  source: M_317_2,
  mark: 'constructed',
  jurisdiction: 'us',
  productClass: 'breakfast-sausage',
  lines,
  part: 'statement',
  published,
  ...extra,
});

const claim = (
  id: string,
  says: string,
  name: ClaimRow['claim'],
  per100g: ClaimRow['per100g'],
  referenceG: number,
  holds: boolean,
): ClaimRow => ({
  kind: 'claim',
  id,
  says,
  source: NUTRIENT_CLAIMS,
  mark: 'constructed',
  claim: name,
  per100g,
  referenceG,
  holds,
});

const EU_ACT = 'Regulation (EU) No 1169/2011';
const eu = { jurisdiction: 'eu', productClass: 'fresh-sausage' } as const;

export const LABEL_ROWS: readonly PublishedRow[] = [
  statement(
    'L-03, T-29',
    'Ingredients stand in the order of their weight as put in, water where it stands.',
    [
      ['pork', '80'],
      ['onion', '9'],
      ['water', '11'],
    ],
    'Pork, water, onion.',
  ),
  statement(
    '381.118(a)(2)',
    'What is just 2 % of a poultry product may stand in its last group.',
    [
      ['chicken', '98'],
      ['salt', '2'],
    ],
    'Chicken, contains 2% or less of: salt.',
    { productClass: 'poultry-sausage', source: '9 CFR 381.118(a)(2)(i), annual edition of 2015' },
  ),
  statement(
    'L-04 at',
    'What is just 2 % may stand in the last group.',
    [
      ['pork', '93'],
      ['water', '5'],
      ['salt', '2'],
    ],
    'Pork, water, contains 2% or less of: salt.',
  ),
  statement(
    'L-04, T-28',
    'What is 2.3 % does not stand in the last group.',
    [
      ['pork', '92.7'],
      ['water', '5'],
      ['salt', '2.3'],
    ],
    'Pork, water, salt.',
  ),
  statement(
    'L-05 at',
    'Two meats of 70 % together and 30 % each at least may change places, with "and" between them.',
    [
      ['pork', '40'],
      ['beef', '30'],
      ['pork-byproduct', '30'],
    ],
    'Pork and beef, pork byproduct.',
  ),
  statement(
    'L-05 below',
    'With less than 30 % of one of them a comma stands between.',
    [
      ['pork', '70.001'],
      ['beef', '29.999'],
    ],
    'Pork, beef.',
  ),
  {
    ...statement(
      'K-21',
      '15 lb of solution on 100 lb of raw meat is 15 %, not the 13.04 % of the whole.',
      [
        ['pork', '100'],
        ['water', '14'],
        ['salt', '1'],
      ],
      'Containing 15% added solution of water and salt',
    ),
    source: '9 CFR 317.2(e)(2), annual edition of 2015',
    productClass: 'ground-pork',
    part: 'first qualifier',
  },
  {
    ...statement(
      'L-08',
      'Without nitrate and nitrite "Uncured" is part of the name.',
      [['beef', '1']],
      'Uncured Beef Frankfurter',
    ),
    source: '9 CFR 317.17(b) and 319.180(c), annual edition of 2015',
    productClass: 'frankfurter',
    part: 'name',
  },
  {
    ...statement(
      '319.104 note 3',
      'A ham and water product of which a fifth was added says 20 %, as the example of the rule does.',
      [
        ['pork', '80'],
        ['water', '19.8'],
        ['cure-6.25', '0.2'],
      ],
      'Ham and Water Product - 20% of Weight is Added Ingredients',
    ),
    source: '9 CFR 319.104(a), note 3, annual edition of 2015',
    mark: 'official',
    productClass: 'ham-and-water-product',
    part: 'name',
  },
  {
    ...statement(
      '317.2(j)(10)',
      'Antioxidants are named with their purpose, as in the example of the rule.',
      [
        ['pork', '99'],
        ['BHA', '0.001'],
        ['BHT', '0.001'],
      ],
      'BHA and BHT added to help protect flavor',
    ),
    productClass: 'fresh-pork-sausage',
    part: 'first qualifier',
  },
  {
    ...statement(
      '317.17(c)(1)',
      'Without nitrate and nitrite the statement of the rule stands with the name.',
      [['beef', '1']],
      'No Nitrate or Nitrite Added',
    ),
    source: '9 CFR 317.17(c)(1), annual edition of 2015',
    mark: 'official',
    productClass: 'frankfurter',
    part: 'first qualifier',
  },
  {
    ...statement(
      '381.462(f)',
      '93 % lean of poultry stands with 7 % fat.',
      [['chicken', '1']],
      '93% lean / 7% fat',
    ),
    source: '9 CFR 381.462(f), annual edition of 2015',
    productClass: 'ground-chicken',
    leanPercent: 93,
    part: 'lean pair',
  },
  {
    ...statement('L-30', '80 % lean stands with 20 % fat.', [['beef-fat-20', '1']], '80% lean / 20% fat'),
    source: '9 CFR 317.362(f), annual edition of 2015',
    productClass: 'ground-beef',
    leanPercent: 80,
    part: 'lean pair',
  },
  claim('L-31 fat', 'Below 10 g of fat is lean, 10 g is not.', 'lean', [9.99, 4.5, 94], 85, true),
  claim(
    'L-31 fat at',
    '10 g of fat is not lean, whatever the lean percent says (L-33, T-19).',
    'lean',
    [10, 4.5, 94],
    85,
    false,
  ),
  claim('L-31 saturated', 'Saturated fat may be 4.5 g and no more.', 'lean', [9.99, 4.51, 94], 85, false),
  claim('L-31 cholesterol', 'Cholesterol is below 95 mg.', 'lean', [9.99, 4.5, 95], 85, false),
  claim('L-31 amount', 'The reference amount of 114 g counts as well.', 'lean', [9, 4, 80], 114, false),
  claim(
    'L-32',
    'Extra lean is below 5 g of fat and 2 g of saturated fat.',
    'extra lean',
    [4.99, 1.99, 94],
    85,
    true,
  ),
  claim('L-32 saturated', '2 g of saturated fat is not extra lean.', 'extra lean', [4.99, 2, 94], 85, false),
  claim(
    'L-35',
    'Low fat is 3 g or less in the reference amount.',
    'low fat',
    [3 / 0.85 - 1e-9, 1, 50],
    85,
    true,
  ),
  claim('L-35 beyond', 'More than 3 g in it is not low fat.', 'low fat', [3.53, 1, 50], 85, false),
  claim(
    'L-35 small',
    'With a reference amount of 30 g it is 3 g in 50 g.',
    'low fat',
    [6.01, 1, 50],
    30,
    false,
  ),
  statement(
    'EU-32, EU T-18',
    'Water of a meat preparation is listed however little of it there is.',
    [
      ['pork', '97'],
      ['water', '3'],
    ],
    'Pork 97%, water.',
    { ...eu, source: `${EU_ACT}, Annex VII part A 1, as a university page quotes it` },
  ),
  statement(
    'EU-15, EU W-07',
    'Pork of 40 % fat, 70 of 100: 60 % of pork, and pork fat as an ingredient before the 9 of water.',
    [
      ['pork-fat-40', '70'],
      ['potato', '21'],
      ['water', '9'],
    ],
    'Pork fat 40 60%, potato, pork fat, water.',
    { ...eu, source: `${EU_ACT}, Annex VII part B 17; steps of UK guidance of 2003, p. 61` },
  ),
  statement(
    'EU-39',
    'Where moisture was lost and it passes 100 %, the grams used for 100 g are given.',
    [
      ['pork', '100'],
      ['salt', '2'],
    ],
    'Pork 125 g per 100 g of the finished product, salt.',
    {
      jurisdiction: 'eu',
      productClass: 'dried-sausage',
      finishedKg: 80,
      source: 'rule on moisture loss as a page of translations quotes the act',
    },
  ),
  statement(
    'EU-39 example',
    'A salami of 115 g of meat for 100 g says so.',
    [
      ['pork', '115'],
      ['salt', '3'],
    ],
    'Pork 115 g per 100 g of the finished product, salt.',
    {
      jurisdiction: 'eu',
      productClass: 'dried-sausage',
      finishedKg: 100,
      mark: 'secondary',
      source: 'example of the Finnish Food Authority, page on the amount of an ingredient, 2022',
    },
  ),
  statement(
    'CA-32',
    'Sugars stand in brackets after "Sugars".',
    [
      ['pork', '90'],
      ['sugar', '6'],
      ['corn-syrup-solids', '4'],
    ],
    'Pork, Sugars (sugar, corn syrup solids).',
    {
      jurisdiction: 'ca',
      productClass: 'fresh-sausage',
      source: 'Food and Drug Regulations B.01.008.3, consolidation of 23 July 2026',
    },
  ),
  {
    ...statement(
      'CA-33',
      'Mustard is an allergen in Canada, celery is none.',
      [
        ['pork', '98'],
        ['mustard-seed', '1'],
        ['celery', '1'],
      ],
      'Contains: Mustard.',
    ),
    jurisdiction: 'ca',
    productClass: 'fresh-sausage',
    part: 'allergens',
    source: 'Food and Drug Regulations B.01.010.1, consolidation of 23 July 2026',
  },
];
