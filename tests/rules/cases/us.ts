import { TEST_MATERIALS } from '../../helpers/materials.ts';
import type { AtTheBound, LimitCases } from './case.ts';

/** United States. */

/** So much of one material and of another, a hundred together. */
const percent = (materialId: string, of: string, rest: string, other = 'pork'): AtTheBound => [
  [materialId, of],
  [other, rest],
];

const moisture = (waterKg: string): AtTheBound => [
  ['water', waterKg],
  ['isolated-soy-protein', '10'],
];

const inTon = (materialId: string, kg: string, meat = 'pork'): AtTheBound => [
  [materialId, kg],
  [meat, '1000'],
];

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
  'us-319.180a-added-water-1988': [
    ['water', '1'],
    ['pork', '9'],
  ],
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
  // Half of the pork is fat: 500 kg, of which 0.03 % are 0.15 kg.
  'us-424.21c-tocopherols': inTon('tocopherols', '0.15', 'pork-fat-50'),
  'us-424.21c-tocopherols-poultry': inTon('tocopherols', '0.15', 'pork-fat-50'),
  'us-424.21c-bha-poultry': inTon('BHA', '0.05', 'pork-fat-50'),
  'us-424.21c-bht-poultry': inTon('BHT', '0.05', 'pork-fat-50'),
  'us-424.21c-propyl-gallate-poultry': inTon('propyl-gallate', '0.05', 'pork-fat-50'),
  'us-424.21c-tbhq-poultry': inTon('TBHQ', '0.05', 'pork-fat-50'),
  'us-424.21c-antioxidants-poultry': inTon('BHA-and-BHT', '0.1', 'pork-fat-50'),
  'us-424.21c-citric-acid-poultry': inTon('BHA-and-citric-acid', '0.1', 'pork-fat-50'),
  // Of the total weight: 30 g in a ton that holds them.
  'us-424.21c-bha-dry-sausage': percent('BHA', '0.003', '99.997'),
  'us-424.21c-bht-dry-sausage': percent('BHT', '0.003', '99.997'),
  'us-424.21c-propyl-gallate-dry-sausage': percent('propyl-gallate', '0.003', '99.997'),
  'us-424.21c-tbhq-dry-sausage': percent('TBHQ', '0.003', '99.997'),
  'us-424.21c-antioxidants-dry-sausage': percent('BHA-and-BHT', '0.006', '99.994'),
  'us-424.21c-bha-dried-meat': percent('BHA', '0.01', '99.99'),
  'us-424.21c-bht-dried-meat': percent('BHT', '0.01', '99.99'),
  'us-424.21c-propyl-gallate-dried-meat': percent('propyl-gallate', '0.01', '99.99'),
  'us-424.21c-tbhq-dried-meat': percent('TBHQ', '0.01', '99.99'),
  'us-424.21c-antioxidants-dried-meat': percent('BHA-and-BHT', '0.01', '99.99'),
  'us-424.21c-phosphate-product': percent('sodium-tripolyphosphate', '0.5', '99.5'),
  'us-424.21c-phosphate-poultry': percent('sodium-tripolyphosphate', '0.5', '99.5'),
  'us-424.21c-fumaric-acid': inTon('fumaric-acid', '0.625'),
  'us-424.21c-glucono-delta-lactone': inTon('glucono-delta-lactone', '5'),
  'us-424.21c-glucono-delta-lactone-genoa': inTon('glucono-delta-lactone', '10'),
  'us-424.21c-acid-pyrophosphate-of-meat': inTon('sodium-acid-pyrophosphate', '5'),
  'us-424.21c-acid-pyrophosphate-of-product': percent('sodium-acid-pyrophosphate', '0.5', '99.5'),
  'us-424.21c-sorbitol': percent('sorbitol', '2', '98'),
  'us-424.21c-binders-chili': percent('soy-flour', '8', '92'),
  'us-424.21c-caseinate-poultry-raw': percent('sodium-caseinate', '2', '98'),
  'us-424.21c-caseinate-poultry-cooked': percent('sodium-caseinate', '3', '97'),
  'us-424.21c-methyl-cellulose-poultry': percent('methyl-cellulose', '0.15', '99.85'),
  'us-319.140-pork-collagen': percent('pork-collagen', '3.5', '96.5'),
  'us-319.140-transglutaminase': percent('transglutaminase', '0.0065', '99.9935'),
  'us-319.15d-transglutaminase': percent('transglutaminase', '0.0065', '99.9935'),
  'us-319.15d-fat': [
    ['beef-fat-40', '1'],
    ['beef-fat-20', '1'],
  ],
  'us-ground-meat-fat': [
    ['pork-fat-40', '1'],
    ['pork-fat-20', '1'],
  ],
  'us-319.180b-fat': [
    ['pork-fat-40', '1'],
    ['pork-fat-20', '1'],
  ],
  'us-319.181-fat': [
    ['pork-fat-40', '1'],
    ['pork-fat-20', '1'],
  ],
  // As for frankfurters of paragraph (a).
  'us-319.180b-fat-and-added-water': [
    ['water', '1'],
    ['pork', '3'],
  ],
  'us-319.181-fat-and-added-water': [
    ['water', '1'],
    ['pork', '3'],
  ],
  'us-319.180b-skeletal-meat': percent('beef', '15', '85', 'pork-heart'),
  'us-319.180b-defatted-tissue': percent('pork-defatted-tissue', '15', '85'),
  'us-319.180b-poultry': percent('chicken', '15', '85', 'beef'),
  'us-381.117d-poultry-skin': percent('chicken-skin', '15', '85', 'chicken'),
  'us-381.117d-chicken-skin': percent('chicken-skin', '20', '80', 'chicken'),
  'us-381.117d-turkey-skin': percent('chicken-skin', '15', '85', 'chicken'),
  'us-memo-075-meat': [
    ['pork', '1'],
    ['chicken', '1'],
  ],
  'us-319.181-binders': percent('soy-flour', '3.5', '96.5'),
  'us-319.181-isolated-soy': percent('isolated-soy-protein', '2', '98'),
  'us-319.181-caseinate': percent('sodium-caseinate', '2', '98'),
  'us-319.182a-liver': percent('beef-liver', '30', '70'),
  'us-319.182b-liver': percent('pork-liver', '30', '70'),
  'us-319.260-water': percent('ice', '3', '97'),
  'us-319.261-water': percent('ice', '3', '97'),
  'us-319.280-meat': percent('pork-byproduct', '40', '60', 'sugar'),
  'us-319.281-meat': percent('pork', '70', '30', 'pork-fat'),
  'us-319.281b-corn-syrup': percent('corn-syrup-solids', '2', '98'),
  'us-319.300-meat': percent('beef', '40', '60', 'potato'),
  'us-319.301-meat': percent('beef', '25', '75', 'potato'),
  'us-319.300-head-cheek-and-heart': percent('beef-head', '25', '75', 'beef'),
  'us-319.301-head-cheek-and-heart': percent('beef-heart', '25', '75', 'beef'),
  // 10 kg of a protein of 90 % hold 9 kg, which so much water follows.
  'us-mpr-dry-sausage': moisture('17.1'),
  'us-mpr-farmer-summer-sausage': moisture('17.1'),
  'us-mpr-pepperoni': moisture('14.4'),
  'us-mpr-genoa-salami': moisture('20.7'),
  'us-mpr-semi-dry-sausage': moisture('27.9'),
  'us-mpr-thuringer': moisture('33.3'),
  'us-mpr-jerky': moisture('6.75'),
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

const meatWithout = (...species: string[]) =>
  TEST_MATERIALS.filter((entry) => entry.species !== undefined && !species.includes(entry.species)).map(
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
const ANTIMICROBIALS = ['sodium-lactate', 'sodium-diacetate', 'mix-with-lactate'];
const ORGANS = ['beef-heart', 'beef-tongue', 'pork-heart', 'pork-tongue'];

const keptOut: LimitCases['keptOut'] = {
  'us-no-sulfite': ['sulfite'],
  'us-424.21c-no-fumaric-acid-cuts': ['fumaric-acid'],
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
  'us-319.15-no-antimicrobial': ANTIMICROBIALS,
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
  'us-no-tocopherols': ['tocopherols'],
  'us-424.21c-no-fumaric-acid-without-cure': ['fumaric-acid'],
  'us-319.15d-beef-or-veal-only': meatWithout('beef', 'veal'),
  'us-319.15d-no-byproducts': BYPRODUCTS,
  'us-319.15d-no-added-water': ['water', 'ice', 'wine'],
  'us-319.15d-no-extender': BINDERS.filter((id) => id !== 'transglutaminase'),
  'us-319.15d-no-antimicrobial': ANTIMICROBIALS,
  'us-319.15d-seasoning-only': FILLERS,
  'us-ground-meat-pork-only': NOT_PORK,
  'us-ground-meat-veal-only': meatWithout('veal'),
  'us-ground-meat-lamb-only': meatWithout('lamb'),
  'us-ground-meat-no-byproducts': BYPRODUCTS,
  'us-ground-meat-no-heart-or-tongue': ORGANS,
  'us-ground-meat-no-mechanically-separated': SEPARATED,
  'us-ground-meat-no-added-water': ['water', 'ice', 'wine'],
  'us-ground-meat-no-binder': BINDERS,
  'us-ground-meat-no-phosphate': PHOSPHATES,
  'us-ground-meat-no-antimicrobial': ANTIMICROBIALS,
  'us-ground-meat-seasoning-only': FILLERS,
  'us-319.180g-no-liver-or-skin': ['beef-liver', 'pork-liver', 'pork-skin'],
  'us-319.180b-seasoning-only': FILLERS,
  'us-319.182a-pork-beef-or-veal-only': meatWithout('pork', 'beef', 'veal'),
  // No test material is a liver of sheep or goats, which may go in.
  'us-319.182b-pork-beef-or-veal-only': meatWithout('pork', 'beef', 'veal'),
  'us-319.182a-no-byproducts': BYPRODUCTS.filter((id) => !id.endsWith('-liver')),
  'us-319.182a-seasoning-only': FILLERS,
  'us-319.182b-seasoning-only': FILLERS,
  'us-319.260-no-poultry': POULTRY,
  'us-319.260-no-byproducts': BYPRODUCTS,
  'us-319.260-seasoning-only': FILLERS,
  'us-319.260-no-binder': BINDERS,
  'us-319.261-no-poultry': POULTRY,
  'us-319.261-no-byproducts': BYPRODUCTS,
  'us-319.280-no-poultry': POULTRY,
  'us-319.281-pork-beef-or-veal-only': meatWithout('pork', 'beef', 'veal'),
  'us-319.281-no-byproducts': BYPRODUCTS,
  'us-319.281-no-phosphate': PHOSPHATES,
  'us-319.300-no-poultry': POULTRY,
  'us-319.301-no-poultry': POULTRY,
  'us-farmer-summer-sausage-no-extender': BINDERS,
  'us-381.160-chicken-only': meatWithout('chicken'),
  'us-381.160-turkey-only': meatWithout('turkey'),
  'us-381.160-no-binder': BINDERS,
  'us-381.160-no-filler': FILLERS,
  'us-381.160-no-added-water': ['water', 'ice', 'wine'],
  'us-381.160-no-phosphate': PHOSPHATES,
};

const brings: LimitCases['brings'] = {
  'us-319.145a-salt': ['salt', 'cure-6.25', 'cure-0.6'],
  'us-319.145a-pepper': ['black-pepper'],
  'us-319.145a-fennel-or-anise': ['fennel-seed'],
  'us-319.181-cheese': ['cheese'],
};

export const US_CASES: LimitCases = { atTheBound, keptOut, brings };
