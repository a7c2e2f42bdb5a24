import { carried, form, MEAT, mass, NOT_MEAT, part } from './build.ts';

/** What a batch weighs and what it is made of, before and after the process. */

const FINISHED_FAT = [part('fat'), mass(undefined, -1, 'fat loss')];
const FINISHED_WATER = [part('water'), mass(undefined, -1, 'water loss')];
const WATER = { kinds: ['water'] } as const;
const NOT_WATER = { exceptKinds: ['water'] } as const;
/** Moisture less four times the protein of meat, 9 CFR 318.22. */
const BEYOND_MEAT_PROTEIN = [...FINISHED_WATER, part('protein', -4, MEAT)];
const OTHER_PROTEIN = part('protein', -4, NOT_MEAT);
/** Four percent of the finished product: one percent of protein that is not of meat, 9 CFR 318.22(b). */
const ALLOWANCE = mass(undefined, -0.04, 'yield');

export const MAKEUP = {
  formula: form('formula', 'all ingredients, water included', mass()),
  formulaWithoutWater: form(
    'formulaWithoutWater',
    'all ingredients less water, ice and the water of liquids',
    mass(NOT_WATER),
    carried('free water', -1, NOT_WATER),
  ),
  finished: form('finished', 'finished product', mass(undefined, 1, 'yield')),
  finishedWithoutFat: form(
    'finishedWithoutFat',
    'finished product less its fat',
    mass(undefined, 1, 'yield'),
    part('fat', -1),
    mass(undefined, 1, 'fat loss'),
  ),
  finishedWithoutDairy: form(
    'finishedWithoutDairy',
    'finished product less its cheese',
    mass({ exceptKinds: ['dairy'] }, 1, 'yield'),
  ),
  greenWeight: form('greenWeight', 'green weight of meat, poultry and their byproducts', mass(MEAT)),

  fat: form('fat', 'fat', part('fat')),
  water: form('water', 'moisture', part('water')),
  finishedFat: form('finishedFat', 'fat', ...FINISHED_FAT),
  finishedWater: form('finishedWater', 'moisture', ...FINISHED_WATER),
  protein: form('protein', 'protein', part('protein')),
  proteinWithoutGelatin: form(
    'proteinWithoutGelatin',
    'protein, gelatin not counted',
    part('protein'),
    carried('gelatin', -1),
  ),
  meatProtein: form('meatProtein', 'protein of meat', part('protein', 1, MEAT)),
  collagen: form('collagen', 'collagen of meat', part('collagen', 1, MEAT)),
  salt: form('salt', 'salt added', part('salt')),
  cost: form('cost', 'cost of all ingredients', { of: 'cost', times: 1 }),

  waterPutIn: form(
    'waterPutIn',
    'water and ice put in, and the water of liquids',
    mass(WATER),
    carried('free water', 1, NOT_WATER),
  ),
  addedWater: {
    id: 'addedWater',
    says: 'added water',
    worstOf: [
      form(
        'addedWaterByAllProtein',
        'moisture less four times all protein',
        ...BEYOND_MEAT_PROTEIN,
        OTHER_PROTEIN,
      ),
      form(
        'addedWaterByMeatProtein',
        'moisture less four times meat protein and one percent of other protein',
        ...BEYOND_MEAT_PROTEIN,
        ALLOWANCE,
      ),
    ],
  },
  fatAndAddedWater: {
    id: 'fatAndAddedWater',
    says: 'fat and added water',
    worstOf: [
      form(
        'fatAndAddedWaterByAllProtein',
        'fat, and moisture less four times all protein',
        ...FINISHED_FAT,
        ...BEYOND_MEAT_PROTEIN,
        OTHER_PROTEIN,
      ),
      form(
        'fatAndAddedWaterByMeatProtein',
        'fat, and moisture less four times meat protein and one percent of other protein',
        ...FINISHED_FAT,
        ...BEYOND_MEAT_PROTEIN,
        ALLOWANCE,
      ),
    ],
  },
} as const;
