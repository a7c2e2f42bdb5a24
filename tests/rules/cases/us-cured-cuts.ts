import { TEST_MATERIALS } from '../../helpers/materials.ts';
import type { AtTheBound, LimitCases } from './case.ts';

/** Cured and cooked cuts of the United States. */

/**
 * Sinewy pork of 20 % protein and 10 % fat brings 0.2 − 0.9 p above a PFF of p for every kilogram, which as much water
 * divided by p uses up: p kg of the pork and 0.2 − 0.9 p kg of water stand exactly at p.
 */
const pff = (pork: string, water: string): AtTheBound => [
  ['pork-sinewy', pork],
  ['water', water],
];

/** So much of one substance in the formula, the rest pork. */
const percent = (materialId: string, of: string, pork: string): AtTheBound => [
  [materialId, of],
  ['pork', pork],
];

const inTonOf = (meat: string, materialId: string, kg: string): AtTheBound => [
  [materialId, kg],
  [meat, '1000'],
];

/** Two weights of one material in a ton of pork. */
const aroundTon = (materialId: string, holds: string, fails: string, meat = 'pork') => ({
  holds: [
    [materialId, holds],
    [meat, '1000'],
  ] as const,
  fails: [
    [materialId, fails],
    [meat, '1000'],
  ] as const,
});

const atTheBound: LimitCases['atTheBound'] = {
  'us-319.104-ham-or-loin-pff': pff('205', '15.5'),
  'us-319.104-ham-or-loin-with-natural-juices-pff': pff('185', '33.5'),
  'us-319.104-ham-or-loin-water-added-pff': pff('170', '47'),
  'us-319.104-shoulder-pff': pff('200', '20'),
  'us-319.104-shoulder-with-natural-juices-pff': pff('180', '38'),
  'us-319.104-shoulder-water-added-pff': pff('165', '51.5'),
  'us-319.104-uncooked-ham-or-loin-pff': pff('180', '38'),
  'us-319.104-uncooked-shoulder-pff': pff('175', '42.5'),
  'us-319.105-chopped-ham-pff': pff('195', '24.5'),
  'us-319.105-chopped-ham-with-natural-juices-pff': pff('175', '42.5'),
  'us-319.105-chopped-ham-water-added-pff': pff('160', '56'),
  'us-319.105d-fat': [
    ['pork-fat-50', '1'],
    ['pork-fat-20', '1'],
  ],
  'us-424.21c-nitrite-pickle': inTonOf('pork', 'sodium-nitrite', '0.2'),
  'us-424.21c-nitrate-pickle': inTonOf('pork', 'sodium-nitrate', '0.7'),
  'us-424.21c-nitrite-dry-cure': inTonOf('pork', 'sodium-nitrite', '0.625'),
  'us-424.21c-nitrate-dry-cure': inTonOf('pork', 'sodium-nitrate', '2.187'),
  'us-424.21c-ascorbic-acid-cuts': inTonOf('pork', 'erythorbic-acid', '0.46875'),
  'us-424.21c-sodium-ascorbate-cuts': inTonOf('pork', 'sodium-ascorbate', '0.546875'),
  'us-424.21c-phosphate-cuts': percent('sodium-tripolyphosphate', '0.5', '99.5'),
  'us-424.21c-sorbitol-cured-pork': percent('sorbitol', '2', '98'),
  'us-424.21c-modified-starch-ham': percent('modified-starch', '2', '98'),
  'us-424.21c-modified-starch-water-product': percent('modified-starch', '3.5', '96.5'),
  'us-424.21c-carrageenan-ham': percent('carrageenan', '1.5', '98.5'),
  'us-424.21c-isolated-soy-ham': percent('isolated-soy-protein', '2', '98'),
  'us-424.21c-caseinate-ham': percent('sodium-caseinate', '2', '98'),
  'us-424.21c-soy-concentrate-ham': percent('soy-concentrate', '3.5', '96.5'),
  'us-319.104d-pork-collagen': percent('pork-collagen', '3.5', '96.5'),
  // 122.4, 102 and 561 ppm are two percent above what shall be used.
  'us-424.22b1-nitrite-pumped-bacon': aroundTon('sodium-nitrite', '0.12239', '0.12241'),
  'us-424.22b1iia-nitrite-pumped-bacon': aroundTon('sodium-nitrite', '0.10199', '0.10201'),
  'us-424.22b1-ascorbate-pumped-bacon': aroundTon('sodium-erythorbate', '0.56099', '0.56101'),
  'us-424.22b1iib-nitrite-least': inTonOf('pork', 'sodium-nitrite', '0.04'),
  'us-424.22b1iib-nitrite-most': inTonOf('pork', 'sodium-nitrite', '0.08'),
  'us-424.22b1iib-sugar': percent('sugar', '0.7', '99.3'),
  'us-424.22b2-nitrite-immersion-bacon': inTonOf('pork', 'sodium-nitrite', '0.12'),
  'us-424.22b3-nitrite-dry-cured-bacon': inTonOf('pork', 'sodium-nitrite', '0.2'),
  'us-424.21c-tocopherols-pumped-bacon': percent('tocopherols', '0.05', '99.95'),
  // At a yield of 1 the product weighs what its meat weighs when nothing else went in.
  'us-319.107-weight': aroundTon('water', '0', '0.1'),
  'us-319.100-cooked-weight': aroundTon('water', '0', '0.1', 'beef'),
  'us-319.101-cooked-weight': aroundTon('water', '0', '0.1', 'beef'),
  'us-319.102-cooked-weight': aroundTon('water', '0', '0.1', 'beef'),
  // These batches are weighed at a yield of 1, so what drying or roasting takes stands as water taken away.
  'us-319.106c7-weight': aroundTon('water', '-180', '-179.9'),
  'us-319.81-weight': aroundTon('water', '-300', '-299.9', 'beef'),
  'us-319.80-weight': aroundTon('water', '-300', '-299.9', 'beef'),
  'us-319.100-cured-weight': inTonOf('beef', 'water', '100'),
  'us-319.101-cured-weight': inTonOf('beef', 'water', '200'),
  'us-319.102-cured-weight': inTonOf('beef', 'water', '100'),
  'us-319.103-cured-weight': inTonOf('beef-tongue', 'water', '100'),
  'us-319.100-cheek-head-and-heart': [
    ['beef-cheek', '5'],
    ['beef', '95'],
  ],
  'us-319.81-cheek-head-and-heart': [
    ['beef-heart', '5'],
    ['beef', '95'],
  ],
  'us-319.81-transglutaminase': [
    ['transglutaminase', '0.065'],
    ['beef', '999.935'],
  ],
};

const carcass = TEST_MATERIALS.filter(({ species }) => species !== undefined);
const meatWithout = (species: string) =>
  carcass.filter((entry) => entry.species !== species).map(({ id }) => id);
const NOT_BEEF = meatWithout('beef');
const NOT_PORK = meatWithout('pork');
const BINDERS = TEST_MATERIALS.filter(({ kind }) => kind === 'binder')
  .map(({ id }) => id)
  .concat('mix-with-soy');
const NOT_LISTED_FOR_HAM = [
  'soy-flour',
  'nonfat-dry-milk',
  'methyl-cellulose',
  'transglutaminase',
  'gelatin',
];
const FILLERS = ['potato', 'green-pepper', 'cheese'];
const INSIDES = [
  'beef-tongue',
  'pork-tongue',
  'beef-liver',
  'pork-liver',
  'beef-byproduct',
  'pork-byproduct',
  'beef-defatted-tissue',
  'pork-defatted-tissue',
];
const NO_CUTS = [
  ...INSIDES,
  'beef-cheek',
  'beef-head',
  'pork-head',
  'pork-cheek',
  'beef-heart',
  'pork-heart',
];
const SEPARATED = ['beef-separated', 'veal-separated', 'pork-separated', 'chicken-separated'];
const NITRATES = ['sodium-nitrate', 'potassium-nitrate', 'pickle-nitrate'];
const NITRITES = [
  'sodium-nitrite',
  'potassium-nitrite',
  'cure-6.25',
  'cure-0.6',
  'cure-with-citric-acid',
  'pickle-nitrite',
];

const keptOut: LimitCases['keptOut'] = {
  'us-319.104-pork-only': NOT_PORK,
  'us-319.105-pork-only': NOT_PORK,
  'us-319.106-pork-only': NOT_PORK,
  'us-319.107-pork-only': NOT_PORK,
  'us-319.81-beef-only': NOT_BEEF,
  'us-319.100-beef-only': NOT_BEEF,
  'us-319.101-beef-only': NOT_BEEF,
  'us-319.102-beef-only': NOT_BEEF,
  'us-319.103-beef-only': NOT_BEEF,
  'us-319.80-no-poultry': [
    'duck',
    'chicken',
    'chicken-skin',
    'chicken-fat',
    'chicken-separated',
    'turkey-fat',
  ],
  'us-319.80-no-byproducts': [...INSIDES.filter((id) => !id.endsWith('tongue')), 'pork-skin', 'chicken-skin'],
  'us-319.104-cuts-only': NO_CUTS,
  'us-319.105-cuts-only': NO_CUTS,
  'us-319.106-cuts-only': NO_CUTS,
  'us-319.107-cuts-only': NO_CUTS,
  'us-319.101-cuts-only': NO_CUTS,
  'us-319.102-cuts-only': NO_CUTS,
  'us-319.100-cuts-only': INSIDES,
  'us-319.81-cuts-only': INSIDES,
  'us-319.103-tongue-only': carcass.map(({ id }) => id).filter((id) => !id.endsWith('-tongue')),
  'us-319.6d-no-mechanically-separated-cuts': SEPARATED,
  'us-319.107-no-mechanically-separated': SEPARATED,
  'us-319.104-seasoning-only': FILLERS,
  'us-319.105-seasoning-only': FILLERS,
  'us-319.106d-seasoning-only': FILLERS,
  'us-319.107-seasoning-only': FILLERS,
  'us-319.81-seasoning-only': FILLERS,
  'us-319.100-seasoning-only': FILLERS,
  'us-319.101-seasoning-only': FILLERS,
  'us-319.102-seasoning-only': FILLERS,
  'us-319.103-seasoning-only': FILLERS,
  'us-319.104d-no-binder': BINDERS,
  'us-319.105-no-binder': BINDERS,
  'us-319.106d-no-binder': BINDERS,
  'us-319.107-no-binder': BINDERS,
  'us-319.100-no-binder': BINDERS,
  'us-319.101-no-binder': BINDERS,
  'us-319.102-no-binder': BINDERS,
  'us-319.103-no-binder': BINDERS,
  'us-319.104d-no-other-binder': NOT_LISTED_FOR_HAM,
  'us-319.81-no-other-binder': BINDERS.filter(
    (id) => !['soy-flour', 'nonfat-dry-milk', 'transglutaminase'].includes(id),
  ),
  'us-424.21c-no-nitrate-bacon': NITRATES,
  'us-319.106c4-no-nitrite': [...NITRITES, ...NITRATES],
  'us-319.106a-no-pickle': ['water', 'ice', 'wine'],
  'us-319.106d-no-phosphate': ['sodium-tripolyphosphate', 'sodium-acid-pyrophosphate'],
  'us-319.106d-no-accelerator': [
    'ascorbic-acid',
    'erythorbic-acid',
    'sodium-ascorbate',
    'sodium-erythorbate',
    'sodium-erythorbate-hydrate',
    'citric-acid',
    'cure-with-citric-acid',
  ],
  'us-319.106d-no-antimicrobial': ['sodium-lactate', 'sodium-diacetate', 'mix-with-lactate'],
};

const brings: LimitCases['brings'] = {
  'us-319.106a-salt': ['salt', 'cure-6.25', 'cure-0.6'],
};

export const US_CURED_CUT_CASES: LimitCases = { atTheBound, keptOut, brings };
