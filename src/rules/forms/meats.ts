import { MEAT_KINDS, POULTRY } from '../../batch/material.ts';
import { carried, form, kinds, mass, massOf, NOT_MEAT } from './build.ts';

/** Which meats, fats and byproducts went in. */

const otherThan = (id: string, says: string, ...species: ('beef' | 'pork' | 'veal' | 'lamb')[]) =>
  massOf(id, says, { kinds: MEAT_KINDS, exceptSpecies: species });

export const MEATS = {
  notBeef: otherThan('notBeef', 'meat of species other than beef', 'beef'),
  notPork: otherThan('notPork', 'meat of species other than pork', 'pork'),
  cheekMeat: massOf('cheekMeat', 'cheek meat', kinds('cheek meat')),
  organMeat: massOf('organMeat', 'heart and tongue meat', kinds('heart meat', 'tongue meat')),
  liver: massOf('liver', 'liver', kinds('liver')),
  byproducts: massOf(
    'byproducts',
    'byproducts',
    kinds('liver', 'other byproduct', 'partially defatted tissue', 'skin'),
  ),
  byproductsOtherThanDefattedTissue: massOf(
    'byproductsOtherThanDefattedTissue',
    'byproducts other than partially defatted tissue',
    kinds('liver', 'other byproduct', 'skin'),
  ),
  defattedTissue: massOf('defattedTissue', 'partially defatted tissue', kinds('partially defatted tissue')),
  notMeat: massOf('notMeat', 'anything that is not meat', NOT_MEAT),
  skeletalMeat: massOf('skeletalMeat', 'skeletal meat', kinds('skeletal meat')),
  notMuscleOfOneAnimal: massOf(
    'notMuscleOfOneAnimal',
    'parts other than muscle tissue in the proportions of one animal',
    kinds(
      'head meat',
      'cheek meat',
      'heart meat',
      'tongue meat',
      'liver',
      'other byproduct',
      'mechanically separated',
      'partially defatted tissue',
      'skin',
    ),
  ),
  fatAsSuch: massOf('fatAsSuch', 'fat added as such', kinds('fat')),
  skin: massOf('skin', 'skin', kinds('skin')),
  mechanicallySeparated: massOf('mechanicallySeparated', 'mechanically separated (species)', {
    kinds: ['mechanically separated'],
    exceptSpecies: POULTRY,
  }),
  mechanicallySeparatedBeef: massOf('mechanicallySeparatedBeef', 'mechanically separated beef', {
    kinds: ['mechanically separated'],
    species: ['beef', 'veal'],
  }),
  mechanicallySeparatedMeat: massOf(
    'mechanicallySeparatedMeat',
    'any mechanically separated meat or poultry',
    kinds('mechanically separated'),
  ),
  poultry: massOf('poultry', 'poultry', { kinds: MEAT_KINDS, species: POULTRY }),
  notPoultry: massOf('notPoultry', 'meat other than poultry', {
    kinds: MEAT_KINDS,
    exceptSpecies: POULTRY,
  }),
  poultrySkinAndFat: massOf('poultrySkinAndFat', 'poultry skin and poultry fat', {
    kinds: ['skin', 'fat'],
    species: POULTRY,
  }),
  meatOrFat: massOf('meatOrFat', 'meat and fat', kinds('skeletal meat', 'head meat', 'cheek meat', 'fat')),
  notSeasoning: massOf('notSeasoning', 'vegetables, fruit, nuts or cheese', kinds('vegetable', 'dairy')),
  notSeasoningNorPepper: form(
    'notSeasoningNorPepper',
    'fruit, nuts, cheese, or vegetables other than red and green peppers',
    mass(kinds('vegetable', 'dairy')),
    carried('red or green pepper', -1, kinds('vegetable', 'dairy')),
  ),
  saltPutIn: form('saltPutIn', 'salt', carried('salt')),
  pepper: form('pepper', 'pepper', carried('pepper')),
  fennelOrAnise: form('fennelOrAnise', 'fennel or anise', carried('fennel or anise')),
} as const;
