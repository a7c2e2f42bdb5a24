import {
  ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE,
  NITRATE_ION_PER_POTASSIUM_NITRATE,
  NITRATE_ION_PER_SODIUM_NITRATE,
  NITRITE_ION_PER_POTASSIUM_NITRITE,
  NITRITE_ION_PER_SODIUM_NITRITE,
  SODIUM_ERYTHORBATE_PER_MONOHYDRATE,
  SODIUM_NITRATE_PER_POTASSIUM_NITRATE,
  SODIUM_NITRITE_PER_POTASSIUM_NITRITE,
} from '../../chemistry.ts';
import { carried, form, kinds, round12 } from './build.ts';

/** Curing agents and accelerators, in each of the ways that rules count them. */

const NITRITE = [carried('sodium nitrite'), carried('potassium nitrite')];
const NITRATE = [carried('sodium nitrate'), carried('potassium nitrate')];
const NITRITE_AS_SODIUM = [
  carried('sodium nitrite'),
  carried('potassium nitrite', SODIUM_NITRITE_PER_POTASSIUM_NITRITE),
];
const NITRATE_AS_SODIUM = [
  carried('sodium nitrate'),
  carried('potassium nitrate', SODIUM_NITRATE_PER_POTASSIUM_NITRATE),
];
const ACIDS = [carried('ascorbic acid'), carried('erythorbic acid')];
const SALTS = [
  carried('sodium ascorbate'),
  carried('sodium erythorbate'),
  carried('sodium erythorbate monohydrate'),
];
/** The same weighed without the water of crystallization. */
const ANHYDROUS_SALTS = [
  carried('sodium ascorbate'),
  carried('sodium erythorbate'),
  carried('sodium erythorbate monohydrate', SODIUM_ERYTHORBATE_PER_MONOHYDRATE),
];
const CITRIC_ACID = carried('citric acid', 1, kinds('cure', 'cure accelerator'));

export const CURING = {
  nitrite: form('nitrite', 'nitrite, by the weight of the salt', ...NITRITE),
  nitrate: form('nitrate', 'nitrate, by the weight of the salt', ...NITRATE),
  nitriteAndNitrate: form('nitriteAndNitrate', 'nitrite and nitrate', ...NITRITE, ...NITRATE),
  nitriteAsSodiumNitrite: form('nitriteAsSodiumNitrite', 'nitrite, as sodium nitrite', ...NITRITE_AS_SODIUM),
  nitrateAsSodiumNitrate: form('nitrateAsSodiumNitrate', 'nitrate, as sodium nitrate', ...NITRATE_AS_SODIUM),
  nitriteIon: form(
    'nitriteIon',
    'nitrite, as the ion',
    carried('sodium nitrite', NITRITE_ION_PER_SODIUM_NITRITE),
    carried('potassium nitrite', NITRITE_ION_PER_POTASSIUM_NITRITE),
  ),
  nitrateIon: form(
    'nitrateIon',
    'nitrate, as the ion',
    carried('sodium nitrate', NITRATE_ION_PER_SODIUM_NITRATE),
    carried('potassium nitrate', NITRATE_ION_PER_POTASSIUM_NITRATE),
  ),
  ascorbicAcid: form('ascorbicAcid', 'ascorbic and erythorbic acid', ...ACIDS),
  sodiumAscorbate: form('sodiumAscorbate', 'sodium ascorbate and erythorbate', ...SALTS),
  anhydrousAscorbate: form(
    'anhydrousAscorbate',
    'sodium ascorbate and erythorbate, without water of crystallization',
    ...ANHYDROUS_SALTS,
  ),
  accelerators: form('accelerators', 'ascorbate, erythorbate and their acids', ...ACIDS, ...SALTS),
  asErythorbicAcid: form(
    'asErythorbicAcid',
    'erythorbic acid and erythorbate, as erythorbic acid',
    carried('erythorbic acid'),
    carried('sodium erythorbate', ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE),
    carried(
      'sodium erythorbate monohydrate',
      round12(ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE * SODIUM_ERYTHORBATE_PER_MONOHYDRATE),
    ),
  ),
  citricAcidAsAccelerator: form('citricAcidAsAccelerator', 'citric acid of the cure', CITRIC_ACID),
  acceleratorsAndCitricAcid: form(
    'acceleratorsAndCitricAcid',
    'curing accelerators and citric acid together',
    ...ACIDS,
    ...SALTS,
    CITRIC_ACID,
  ),
  citricAcidAsSynergist: form(
    'citricAcidAsSynergist',
    'citric acid brought by antioxidants',
    carried('citric acid', 1, kinds('antioxidant')),
  ),
  fumaricAcid: form('fumaricAcid', 'fumaric acid', carried('fumaric acid')),
  gluconoDeltaLactone: form('gluconoDeltaLactone', 'glucono delta lactone', carried('glucono delta lactone')),
  sodiumAcidPyrophosphate: form(
    'sodiumAcidPyrophosphate',
    'sodium acid pyrophosphate',
    carried('sodium acid pyrophosphate'),
  ),
} as const;
