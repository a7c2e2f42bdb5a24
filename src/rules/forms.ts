import { MEAT_KINDS, POULTRY, type Substance } from '../batch/material.ts';
import type { Constituent, Form, FormTerm, Selector } from './form.ts';

const mass = (from?: Selector, times: FormTerm['times'] = 1): FormTerm => ({
  of: 'mass',
  times,
  ...(from && { from }),
});
const part = (constituent: Constituent, times = 1, from?: Selector): FormTerm => ({
  of: { constituent },
  times,
  ...(from && { from }),
});
const carried = (name: Substance, times = 1, from?: Selector): FormTerm => ({
  of: { substance: name },
  times,
  ...(from && { from }),
});
const form = (id: string, says: string, ...terms: FormTerm[]): Form => ({ id, says, terms });

const MEAT: Selector = { kinds: MEAT_KINDS };
const NOT_MEAT: Selector = { exceptKinds: MEAT_KINDS };
const ADDED_WATER_TERMS = [part('water'), part('protein', -4, MEAT), mass(undefined, '-water loss')];
const OTHER_PROTEIN_TERM = part('protein', -4, NOT_MEAT);
const CITRIC_ACID_TERM = carried('citric acid', 1, { kinds: ['cure', 'cure accelerator'] });
const FINISHED_FAT_TERMS = [part('fat'), mass(undefined, '-fat loss')];

/** What counts by its kind, and by what it carries wherever something of another kind brings it. */
const BINDER: Selector = { kinds: ['binder'] };
const NOT_BINDER: Selector = { exceptKinds: ['binder'] };
const ANTIMICROBIAL: Selector = { kinds: ['antimicrobial'] };
const NOT_ANTIMICROBIAL: Selector = { exceptKinds: ['antimicrobial'] };
const WATER: Selector = { kinds: ['water'] };
const NOT_WATER: Selector = { exceptKinds: ['water'] };
const NOT_SEASONING: Selector = { kinds: ['vegetable', 'dairy'] };

/** Mass of the chosen materials, as a form of its own. */
export function massOf(id: string, says: string, from: Selector): Form {
  return form(id, says, mass(from));
}

/** The named forms. A new numerator or basis is one entry here. */
export const FORMS = {
  formula: form('formula', 'all ingredients, water included', mass()),
  formulaWithoutWater: form(
    'formulaWithoutWater',
    'all ingredients less water, ice and the water of liquids',
    mass(NOT_WATER),
    carried('free water', -1, NOT_WATER),
  ),
  finished: form('finished', 'finished product', mass(undefined, 'yield')),
  greenWeight: form('greenWeight', 'green weight of meat, poultry and their byproducts', mass(MEAT)),

  fat: form('fat', 'fat', part('fat')),
  water: form('water', 'moisture', part('water')),
  finishedFat: form('finishedFat', 'fat', ...FINISHED_FAT_TERMS),
  finishedWater: form('finishedWater', 'moisture', part('water'), mass(undefined, '-water loss')),
  protein: form('protein', 'protein', part('protein')),
  salt: form('salt', 'salt added', part('salt')),
  cost: form('cost', 'cost of all ingredients', { of: 'cost', times: 1 }),

  waterPutIn: form(
    'waterPutIn',
    'water and ice put in, and the water of liquids',
    mass(WATER),
    carried('free water', 1, NOT_WATER),
  ),
  addedWater: form('addedWater', 'added water: moisture less four times meat protein', ...ADDED_WATER_TERMS),
  fatAndAddedWater: form(
    'fatAndAddedWater',
    'fat and added water',
    ...FINISHED_FAT_TERMS,
    ...ADDED_WATER_TERMS,
  ),
  addedWaterByAllProtein: form(
    'addedWaterByAllProtein',
    'added water: moisture less four times all protein',
    ...ADDED_WATER_TERMS,
    OTHER_PROTEIN_TERM,
  ),
  fatAndAddedWaterByAllProtein: form(
    'fatAndAddedWaterByAllProtein',
    'fat and added water, all protein counted',
    ...FINISHED_FAT_TERMS,
    ...ADDED_WATER_TERMS,
    OTHER_PROTEIN_TERM,
  ),

  notBeef: form(
    'notBeef',
    'meat of species other than beef',
    mass({ kinds: MEAT_KINDS, exceptSpecies: ['beef'] }),
  ),
  notPork: form(
    'notPork',
    'meat of species other than pork',
    mass({ kinds: MEAT_KINDS, exceptSpecies: ['pork'] }),
  ),
  cheekMeat: form('cheekMeat', 'cheek meat', mass({ kinds: ['cheek meat'] })),
  organMeat: form('organMeat', 'heart and tongue meat', mass({ kinds: ['heart meat', 'tongue meat'] })),
  byproducts: form(
    'byproducts',
    'byproducts',
    mass({ kinds: ['liver', 'other byproduct', 'partially defatted tissue', 'skin'] }),
  ),
  byproductsOtherThanDefattedTissue: form(
    'byproductsOtherThanDefattedTissue',
    'byproducts other than partially defatted tissue',
    mass({ kinds: ['liver', 'other byproduct', 'skin'] }),
  ),
  notMuscleOfOneAnimal: form(
    'notMuscleOfOneAnimal',
    'parts other than muscle tissue in the proportions of one animal',
    mass({
      kinds: [
        'head meat',
        'cheek meat',
        'heart meat',
        'tongue meat',
        'liver',
        'other byproduct',
        'mechanically separated',
        'partially defatted tissue',
        'skin',
      ],
    }),
  ),
  fatAsSuch: form('fatAsSuch', 'fat added as such', mass({ kinds: ['fat'] })),
  mechanicallySeparated: form(
    'mechanicallySeparated',
    'mechanically separated (species)',
    mass({ kinds: ['mechanically separated'], exceptSpecies: POULTRY }),
  ),
  mechanicallySeparatedBeef: form(
    'mechanicallySeparatedBeef',
    'mechanically separated beef',
    mass({ kinds: ['mechanically separated'], species: ['beef', 'veal'] }),
  ),
  mechanicallySeparatedMeat: form(
    'mechanicallySeparatedMeat',
    'any mechanically separated meat or poultry',
    mass({ kinds: ['mechanically separated'] }),
  ),
  poultry: form('poultry', 'poultry', mass({ kinds: MEAT_KINDS, species: POULTRY })),
  poultrySkinAndFat: form(
    'poultrySkinAndFat',
    'poultry skin and poultry fat',
    mass({ kinds: ['skin', 'fat'], species: POULTRY }),
  ),
  meatOrFat: form(
    'meatOrFat',
    'meat and fat',
    mass({ kinds: ['skeletal meat', 'head meat', 'cheek meat', 'fat'] }),
  ),

  notSeasoning: form('notSeasoning', 'vegetables, fruit, nuts or cheese', mass(NOT_SEASONING)),
  notSeasoningNorPepper: form(
    'notSeasoningNorPepper',
    'fruit, nuts, cheese, or vegetables other than red and green peppers',
    mass(NOT_SEASONING),
    carried('red or green pepper', -1, NOT_SEASONING),
  ),

  nitrite: form('nitrite', 'nitrite, as sodium nitrite', carried('nitrite')),
  nitrate: form('nitrate', 'nitrate, as sodium nitrate', carried('nitrate')),
  nitriteAndNitrate: form('nitriteAndNitrate', 'nitrite and nitrate', carried('nitrite'), carried('nitrate')),
  ascorbicAcid: form('ascorbicAcid', 'ascorbic and erythorbic acid', carried('ascorbic acid')),
  sodiumAscorbate: form('sodiumAscorbate', 'sodium ascorbate and erythorbate', carried('sodium ascorbate')),
  accelerators: form(
    'accelerators',
    'curing accelerators',
    carried('ascorbic acid'),
    carried('sodium ascorbate'),
  ),
  citricAcidAsAccelerator: form('citricAcidAsAccelerator', 'citric acid of the cure', CITRIC_ACID_TERM),
  acceleratorsAndCitricAcid: form(
    'acceleratorsAndCitricAcid',
    'curing accelerators and citric acid together',
    carried('ascorbic acid'),
    carried('sodium ascorbate'),
    CITRIC_ACID_TERM,
  ),
  citricAcidAsSynergist: form(
    'citricAcidAsSynergist',
    'citric acid brought by antioxidants',
    carried('citric acid', 1, { kinds: ['antioxidant'] }),
  ),
  phosphate: form('phosphate', 'phosphates', carried('phosphate')),
  binder: form(
    'binder',
    'binders and extenders, isolated soy protein and caseinate counted at 3.5/2 of their weight',
    mass(BINDER),
    carried('isolated soy protein', 0.75, BINDER),
    carried('sodium caseinate', 0.75, BINDER),
    carried('isolated soy protein', 1.75, NOT_BINDER),
    carried('sodium caseinate', 1.75, NOT_BINDER),
  ),
  anyBinder: form(
    'anyBinder',
    'binders and extenders',
    mass(BINDER),
    carried('isolated soy protein', 1, NOT_BINDER),
    carried('sodium caseinate', 1, NOT_BINDER),
  ),
  isolatedSoy: form('isolatedSoy', 'isolated soy protein', carried('isolated soy protein')),
  caseinate: form('caseinate', 'sodium caseinate', carried('sodium caseinate')),
  antimicrobials: form(
    'antimicrobials',
    'antimicrobials',
    mass(ANTIMICROBIAL),
    carried('lactate', 1, NOT_ANTIMICROBIAL),
    carried('diacetate', 1, NOT_ANTIMICROBIAL),
  ),
  lactate: form('lactate', 'sodium and potassium lactate', carried('lactate')),
  diacetate: form('diacetate', 'sodium diacetate', carried('diacetate')),
  antioxidants: form(
    'antioxidants',
    'BHA, BHT, propyl gallate and TBHQ together',
    carried('BHA'),
    carried('BHT'),
    carried('propyl gallate'),
    carried('TBHQ'),
  ),
  BHA: form('BHA', 'BHA', carried('BHA')),
  BHT: form('BHT', 'BHT', carried('BHT')),
  propylGallate: form('propylGallate', 'propyl gallate', carried('propyl gallate')),
  TBHQ: form('TBHQ', 'TBHQ', carried('TBHQ')),

  saltPutIn: form('saltPutIn', 'salt', carried('salt')),
  pepper: form('pepper', 'pepper', carried('pepper')),
  fennelOrAnise: form('fennelOrAnise', 'fennel or anise', carried('fennel or anise')),
} as const satisfies Record<string, Form>;
