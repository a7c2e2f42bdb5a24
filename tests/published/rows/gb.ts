import type { FormName, Mark, PublishedRow } from '../row.ts';
import { type Printed, printedRows } from './printed.ts';

/** Great Britain: reserved descriptions, minced meat, additives. */

const SCHEDULE =
  'NISR 2014/285 and SSI 2014/289, Schedule 1, item 1 and 2, legislation.gov.uk, the same table as in SI 2014/3001';
const PORK_42 =
  'fortonfood.wordpress.com, which cites the regulations of 2014: "in the case of pork means not less than 42% meat and in all other cases 32%"';
const UNREAD = 'SI 2014/3001, Schedule 1';
const MINCE =
  'fsai.ie, requirements for raw materials for minced meat, and Regulation (EC) No 1162/2009 Article 4 for the same table';
const ADDITIVES = (words: string) =>
  `legislation.gov.uk, retained Regulation (EC) No 1333/2008, Annex II, groups 7 and 8: ${words}`;

const meat = (
  id: string,
  limitId: string,
  percent: number,
  numerator: FormName,
  source: string,
  mark: Mark,
): Printed => [id, limitId, percent, numerator, 'finished', source, mark];
const mince = (name: string, fat: number, collagen: number): Printed[] => [
  [`GB mince ${name} fat`, `gb-1169-${name}-fat`, fat, 'finishedFat', 'finished', MINCE, 'official'],
  [
    `GB mince ${name} collagen`,
    `gb-1169-${name}-collagen`,
    collagen,
    'collagen',
    'meatProtein',
    MINCE,
    'official',
  ],
];
const OFFICIAL = [SCHEDULE, 'official'] as const;
const MEMORY = [UNREAD, 'from memory, verify'] as const;

const PERCENT: readonly Printed[] = [
  meat('UK-11', 'gb-3001-pork-sausage-pork', 42, 'declarablePork', PORK_42, 'secondary'),
  meat('UK-12 pork', 'gb-3001-sausage-pork', 32, 'declarablePork', PORK_42, 'secondary'),
  meat('UK-12 birds', 'gb-3001-sausage-birds', 26, 'declarableBirds', ...MEMORY),
  meat('UK-12 other', 'gb-3001-sausage-other', 30, 'declarableMixed', ...MEMORY),
  meat('UK-01 pork', 'gb-3001-burger-pork', 67, 'declarablePork', ...OFFICIAL),
  meat('UK-01 birds', 'gb-3001-burger-birds', 55, 'declarableBirds', ...OFFICIAL),
  meat('UK-01 other', 'gb-3001-burger-other', 62, 'declarableMixed', ...OFFICIAL),
  meat('UK-13 beef burger', 'gb-3001-burger-beef', 62, 'declarableBeef', ...OFFICIAL),
  meat('UK-02 pork', 'gb-3001-economy-burger-pork', 50, 'declarablePork', ...OFFICIAL),
  meat('UK-02 birds', 'gb-3001-economy-burger-birds', 41, 'declarableBirds', ...OFFICIAL),
  meat('UK-02 other', 'gb-3001-economy-burger-other', 47, 'declarableMixed', ...OFFICIAL),
  meat('UK-03', 'gb-3001-hamburger-other', 62, 'declarableMixed', ...MEMORY),
  meat('UK-06 other', 'gb-3001-luncheon-meat-other', 62, 'declarableMixed', ...MEMORY),
  meat('UK-06 pork', 'gb-3001-luncheon-meat-pork', 67, 'declarablePork', ...MEMORY),
  meat('UK-04', 'gb-3001-chopped-pork', 75, 'declarablePork', ...MEMORY),
  [
    'GB mammals',
    'gb-1169-mammals-predominate',
    50,
    'birdsAndRabbits',
    'greenWeight',
    'gov.uk, meat products: "mixtures of species with a majority of mammal meat"',
    'official',
  ],
  ...mince('lean-minced-meat', 7, 12),
  ...mince('minced-pure-beef', 20, 15),
  ...mince('minced-meat-with-pigmeat', 30, 18),
  ...mince('minced-meat-other-species', 25, 15),
  [
    'GB mince salt',
    'gb-853-minced-salt',
    1,
    'saltPutIn',
    'formula',
    'foodstandards.gov.scot, Annex I 1.13 of retained Regulation 853/2004: "less than 1 % salt"',
    'official',
  ],
  [
    'GB phosphate',
    'gb-1333-phosphate',
    0.5,
    'phosphateAsP2O5',
    'finished',
    ADDITIVES('"5 000 (1)(4)"'),
    'official',
  ],
];

const nitrite = (id: string, slug: string, ppm: number, words: string): Printed => [
  id,
  `gb-1333-${slug}-nitrite`,
  ppm,
  'nitriteAsSodiumNitrite',
  'formula',
  ADDITIVES(words),
  'from memory, verify',
];
const PPM: readonly Printed[] = [
  ...['immersion-cured-bacon', 'immersion-cured-ham', 'dry-cured-bacon', 'dry-cured-ham'].map(
    (slug): Printed => [
      `UK-19 nitrate ${slug}`,
      `gb-1333-${slug}-nitrate`,
      250,
      'nitrateAsSodiumNitrate',
      'formula',
      ADDITIVES('250, notes (39) and (59)'),
      'from memory, verify',
    ],
  ),
  nitrite('UK-19 raw', '08.3.1', 150, '150, note (7)'),
  nitrite('UK-19 cooked', '08.3.2', 150, '150, note (7)'),
  nitrite('UK-19 sterilised', '08.3.2-sterilised', 100, '100, notes (7) and (58)'),
  nitrite('UK-19 Wiltshire bacon', 'immersion-cured-bacon', 175, '175, note (39)'),
  nitrite('UK-19 Wiltshire ham', 'immersion-cured-ham', 100, '100, note (39)'),
  nitrite('UK-19 dry cured bacon', 'dry-cured-bacon', 175, '175, note (39)'),
  nitrite('UK-19 dry cured ham', 'dry-cured-ham', 100, '100, note (39)'),
  [
    'UK-19 nitrate',
    'gb-1333-08.3.1-nitrate',
    150,
    'nitrateAsSodiumNitrate',
    'formula',
    ADDITIVES('150, note (7)'),
    'from memory, verify',
  ],
  ['GB sulfite', 'gb-1333-sulfite', 450, 'sulfurDioxide', 'finished', ADDITIVES('"450 (1)(3)"'), 'official'],
  [
    'GB erythorbate',
    'gb-1333-erythorbic-acid',
    500,
    'asErythorbicAcid',
    'finished',
    ADDITIVES('"500 (9)"'),
    'official',
  ],
];

const entry = (
  id: string,
  productClass: string,
  materialId: string,
  allowed: boolean,
  says: string,
  source: string,
  mark: Mark,
): PublishedRow => ({
  kind: 'entry',
  id,
  says,
  source,
  mark,
  jurisdiction: 'gb',
  productClass,
  materialId,
  allowed,
});

export const GB_ROWS: readonly PublishedRow[] = [
  ...printedRows('percent', PERCENT),
  ...printedRows('ppm', PPM),
  {
    kind: 'boundary',
    id: 'GB W-11, T-15',
    says: 'Sausage of half-fat pork needs 58.8 % of it for 42 % of pork: 0.42 × 70 / 50.',
    source: 'arithmetic from the 30 % of fat and the 42 % of pork',
    mark: 'constructed',
    limitId: 'gb-3001-pork-sausage-pork',
    line: ['water', '41.19'],
    beyond: '41.21',
    others: [['pork-fat-50', '58.8']],
  },
  {
    kind: 'verdict',
    id: 'GB W-11 whole',
    says: '60 % of half-fat pork is still a pork sausage, by less than one point.',
    source: 'arithmetic from the 30 % of fat and the 42 % of pork',
    mark: 'constructed',
    limitId: 'gb-3001-pork-sausage-pork',
    lines: [
      ['pork-fat-50', '60'],
      ['water', '40'],
    ],
    holds: true,
  },
  {
    kind: 'verdict',
    id: 'GB T-15 fat trim',
    says: 'More fat trim does not help: 45 kg of fat as such counts for nothing.',
    source: 'gov.uk, meat products: meat with naturally included or adherent tissue',
    mark: 'constructed',
    limitId: 'gb-3001-pork-sausage-pork',
    lines: [
      ['pork', '40'],
      ['pork-fat', '45'],
      ['water', '15'],
    ],
    holds: false,
  },
  {
    kind: 'verdict',
    id: 'GB UK-13 pork in a beef burger',
    says: 'Pork does not help a beef burger to its 62 % of beef.',
    source: `${SCHEDULE}, column 3: the named meat`,
    mark: 'official',
    limitId: 'gb-3001-burger-beef',
    lines: [
      ['beef', '60'],
      ['pork', '30'],
      ['water', '10'],
    ],
    holds: false,
  },
  {
    kind: 'verdict',
    id: 'GB T-24',
    says: 'Nitrite of 150 ppm as the salt still holds in Great Britain, where the ion of the European Union would be over.',
    source: ADDITIVES('150, note (7), expressed as NaNO2'),
    mark: 'constructed',
    limitId: 'gb-1333-08.3.2-nitrite',
    lines: [
      ['sodium-nitrite', '0.15'],
      ['pork', '999.85'],
    ],
    holds: true,
  },
  entry(
    'GB hamburger lamb',
    'hamburger',
    'lamb',
    false,
    'A hamburger is of beef, pork or both.',
    'SSI 2014/289, Schedule 1, legislation.gov.uk',
    'official',
  ),
  entry(
    'GB hamburger pork',
    'hamburger',
    'pork',
    true,
    'Pork may go into a hamburger.',
    'SSI 2014/289, Schedule 1, legislation.gov.uk',
    'official',
  ),
  entry(
    'GB offal',
    'sausage',
    'beef-byproduct',
    false,
    'Certain offal does not go into uncooked products.',
    'SI 2014/3001, explanatory note on regulation 5, legislation.gov.uk',
    'official',
  ),
  entry(
    'GB sulfite plain sausage',
    'pork-sausage',
    'sulfite',
    false,
    'Sulfite is for breakfast sausage and certain burgers.',
    ADDITIVES('08.2'),
    'official',
  ),
  entry(
    'GB sulfite breakfast',
    'breakfast-sausage',
    'sulfite',
    true,
    'Breakfast sausage may hold it.',
    ADDITIVES('08.2'),
    'official',
  ),
];
