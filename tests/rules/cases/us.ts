import { TEST_MATERIALS } from '../../helpers/materials.ts';
import type { LimitCases } from './case.ts';

/** United States. */

const atTheBound: LimitCases['atTheBound'] = {
  'us-319.15a-fat': [
    ['beef-fat-40', '1'],
    ['beef-fat-20', '1'],
  ],
  'us-319.15b-fat': [
    ['beef-fat-40', '1'],
    ['beef-fat-20', '1'],
  ],
  'us-319.15a-cheek-meat': [
    ['beef-cheek', '1'],
    ['beef', '3'],
  ],
  'us-319.6-mechanically-separated-share': [
    ['pork-separated', '1'],
    ['pork', '4'],
  ],
  'us-319.140-water': [
    ['ice', '3'],
    ['pork', '97'],
  ],
  'us-319.140-added-water': [
    ['water', '1'],
    ['pork', '9'],
  ],
  'us-319.140-poultry': [
    ['chicken', '1'],
    ['pork', '1'],
  ],
  'us-319.141-fat': [
    ['pork-fat-70', '1'],
    ['pork-fat-30', '1'],
  ],
  'us-319.142-fat': [
    ['beef-fat-40', '1'],
    ['beef-fat-20', '1'],
  ],
  'us-319.143-fat': [
    ['pork-fat-70', '1'],
    ['pork-fat-30', '1'],
  ],
  'us-319.144-fat': [
    ['pork-fat-70', '1'],
    ['pork-fat-30', '1'],
  ],
  'us-319.145a-meat': [
    ['pork', '85'],
    ['onion', '15'],
  ],
  'us-319.145a-fat': [
    ['pork-fat-50', '1'],
    ['pork-fat-20', '1'],
  ],
  'us-319.160-fat': [
    ['pork-fat-70', '1'],
    ['pork-fat-30', '1'],
  ],
  'us-319.180a-fat': [
    ['pork-fat-40', '1'],
    ['pork-fat-20', '1'],
  ],
  // 3 kg of pork bring 0.6 kg of fat and no water beyond four times their protein: 1.6 of 4 kg.
  'us-319.180a-fat-and-added-water': [
    ['water', '1'],
    ['pork', '3'],
  ],
  'us-319.180a-poultry': [
    ['chicken', '15'],
    ['beef', '85'],
  ],
  'us-424.21c-nitrite-comminuted': [
    ['sodium-nitrite', '0.156'],
    ['pork', '1000'],
  ],
  'us-424.21c-nitrate-comminuted': [
    ['sodium-nitrate', '1.718'],
    ['pork', '1000'],
  ],
  'us-424.21c-ascorbic-acid': [
    ['ascorbic-acid', '0.46875'],
    ['pork', '1000'],
  ],
  'us-424.21c-sodium-ascorbate': [
    ['sodium-erythorbate', '0.546875'],
    ['pork', '1000'],
  ],
  // As much citric acid as accelerator: half of both.
  'us-424.21c-citric-acid': [
    ['citric-acid', '1'],
    ['ascorbic-acid', '1'],
  ],
  'us-424.21c-phosphate-patties': [
    ['sodium-tripolyphosphate', '0.5'],
    ['beef', '99.5'],
  ],
  'us-424.21c-phosphate': [
    ['sodium-tripolyphosphate', '0.5'],
    ['pork', '99.5'],
  ],
  'us-424.21c-binders': [
    ['soy-flour', '3.5'],
    ['pork', '96.5'],
  ],
  'us-424.21c-isolated-soy': [
    ['isolated-soy-protein', '2'],
    ['pork', '98'],
  ],
  'us-424.21c-caseinate': [
    ['sodium-caseinate', '2'],
    ['pork', '98'],
  ],
  'us-424.21c-lactate': [
    ['sodium-lactate', '4.8'],
    ['pork', '95.2'],
  ],
  'us-424.21c-diacetate': [
    ['sodium-diacetate', '0.25'],
    ['pork', '99.75'],
  ],
  // Half of the pork is fat: 500 kg.
  'us-424.21c-bha-fresh-sausage': [
    ['BHA', '0.05'],
    ['pork-fat-50', '1000'],
  ],
  'us-424.21c-bht-fresh-sausage': [
    ['BHT', '0.05'],
    ['pork-fat-50', '1000'],
  ],
  'us-424.21c-propyl-gallate-fresh-sausage': [
    ['propyl-gallate', '0.05'],
    ['pork-fat-50', '1000'],
  ],
  'us-424.21c-tbhq-fresh-sausage': [
    ['TBHQ', '0.05'],
    ['pork-fat-50', '1000'],
  ],
  'us-424.21c-antioxidants-fresh-sausage': [
    ['BHA-and-BHT', '0.1'],
    ['pork-fat-50', '1000'],
  ],
  // Half of the antioxidant is citric acid: 0.05 kg.
  'us-424.21c-citric-acid-fresh-sausage': [
    ['BHA-and-citric-acid', '0.1'],
    ['pork-fat-50', '1000'],
  ],
};

const DEFATTED_TISSUE = ['beef-defatted-tissue', 'pork-defatted-tissue'];
const OTHER_BYPRODUCTS = [
  'beef-liver',
  'beef-byproduct',
  'pork-liver',
  'pork-byproduct',
  'pork-skin',
  'chicken-skin',
];
const BYPRODUCTS = [...OTHER_BYPRODUCTS, ...DEFATTED_TISSUE];
const PHOSPHATES = ['sodium-tripolyphosphate', 'sodium-acid-pyrophosphate'];
const FATS = ['beef-fat', 'pork-fat', 'chicken-fat', 'turkey-fat'];
const BINDERS = TEST_MATERIALS.filter(({ kind }) => kind === 'binder')
  .map(({ id }) => id)
  .concat('mix-with-soy');
const ANTIOXIDANTS = ['BHA', 'BHT', 'propyl-gallate', 'TBHQ', 'BHA-and-BHT', 'BHA-and-citric-acid'];
const NITRITES = [
  'sodium-nitrite',
  'cure-6.25',
  'cure-0.6',
  'cure-with-citric-acid',
  'pickle-nitrite',
  'pickle-nitrate',
  'sodium-nitrate',
  'potassium-nitrite',
  'potassium-nitrate',
];
const SEPARATED_BEEF = ['beef-separated', 'veal-separated'];
const SEPARATED = [...SEPARATED_BEEF, 'pork-separated', 'chicken-separated'];

const meatWithout = (species: string) =>
  TEST_MATERIALS.filter((entry) => entry.species !== undefined && entry.species !== species).map(
    ({ id }) => id,
  );
const NOT_BEEF = meatWithout('beef');
const NOT_PORK = meatWithout('pork');
const HEADS = ['beef-cheek', 'beef-head', 'pork-head', 'pork-cheek'];
const BIRDS = ['chicken', 'turkey', 'duck', 'goose'];
const POULTRY = TEST_MATERIALS.filter(({ species }) => species && BIRDS.includes(species)).map(
  ({ id }) => id,
);
const FILLERS = ['potato', 'green-pepper', 'cheese'];
const ORGANS = ['beef-heart', 'beef-tongue', 'pork-heart', 'pork-tongue'];

const keptOut: LimitCases['keptOut'] = {
  'us-319.15-beef-only': NOT_BEEF,
  'us-319.142-beef-only': NOT_BEEF,
  'us-319.141-pork-only': NOT_PORK,
  'us-319.144-pork-only': NOT_PORK,
  'us-319.145-pork-only': NOT_PORK,
  'us-319.160-pork-only': NOT_PORK,
  'us-319.143-no-poultry': POULTRY,
  'us-319.15-seasoning-only': FILLERS,
  'us-319.141-seasoning-only': FILLERS,
  'us-319.142-seasoning-only': FILLERS,
  'us-319.143-seasoning-only': FILLERS,
  'us-319.144-seasoning-only': FILLERS,
  'us-319.145b-seasoning-only': ['potato', 'cheese'],
  'us-319.160-seasoning-only': FILLERS,
  'us-319.180a-seasoning-only': FILLERS,
  'us-319.15-no-added-water': ['water', 'ice', 'wine'],
  'us-319.15-no-phosphate': PHOSPHATES,
  'us-319.140-no-phosphate': PHOSPHATES,
  'us-319.15-no-binder': BINDERS,
  'us-319.141-no-binder': BINDERS,
  'us-319.142-no-binder': BINDERS,
  'us-319.144-no-binder': BINDERS,
  'us-319.145b-no-binder': BINDERS,
  'us-319.160-no-binder': BINDERS,
  'us-319.15a-no-fat-as-such': FATS,
  'us-319.180g-no-fat-as-such': FATS,
  'us-319.15-no-antimicrobial': ['sodium-lactate', 'sodium-diacetate', 'mix-with-lactate'],
  'us-319.6d-no-mechanically-separated': SEPARATED,
  'us-319.5b-mechanically-separated-beef': SEPARATED_BEEF,
  'us-319.15-no-byproducts': BYPRODUCTS,
  'us-319.15c-no-byproducts': OTHER_BYPRODUCTS,
  'us-319.141-no-byproducts': BYPRODUCTS,
  'us-319.142-no-byproducts': BYPRODUCTS,
  'us-319.145-no-byproducts': BYPRODUCTS,
  'us-319.160-no-byproducts': BYPRODUCTS,
  'us-319.180a-no-byproducts': BYPRODUCTS,
  'us-319.15-no-heart-or-tongue': ORGANS,
  'us-319.180g-no-heart-or-tongue': ORGANS,
  'us-319.144-muscle-of-one-animal': [...HEADS, ...ORGANS, ...BYPRODUCTS, ...SEPARATED],
  'us-319.180g-no-poultry-skin': ['chicken-skin', 'chicken-fat', 'turkey-fat'],
  'us-not-cured': NITRITES,
  'us-424.21c-no-accelerator-without-cure': [
    'ascorbic-acid',
    'erythorbic-acid',
    'sodium-ascorbate',
    'sodium-erythorbate',
    'sodium-erythorbate-hydrate',
  ],
  'us-no-antioxidants': ANTIOXIDANTS,
};

const brings: LimitCases['brings'] = {
  'us-319.145a-salt': ['salt', 'cure-6.25', 'cure-0.6'],
  'us-319.145a-pepper': ['black-pepper'],
  'us-319.145a-fennel-or-anise': ['fennel-seed'],
};

export const US_CASES: LimitCases = { atTheBound, keptOut, brings };
