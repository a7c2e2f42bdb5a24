import { MEAT_KINDS, POULTRY, type Species } from '../../batch/material.ts';
import { carried, form, kinds, mass, massOf, NOT_MEAT } from './build.ts';

/** Which meats, fats and byproducts went in. */

const otherThan = (id: string, says: string, ...species: Species[]) =>
  massOf(id, says, { kinds: MEAT_KINDS, exceptSpecies: species });

/** The animals whose flesh 9 CFR 301.2 calls meat. */
const LIVESTOCK: readonly Species[] = ['beef', 'veal', 'pork', 'lamb', 'goat'];

export const MEATS = {
  notBeef: otherThan('notBeef', 'meat of species other than beef', 'beef'),
  notPork: otherThan('notPork', 'meat of species other than pork', 'pork'),
  notVeal: otherThan('notVeal', 'meat of species other than veal', 'veal'),
  notLamb: otherThan('notLamb', 'meat of species other than lamb', 'lamb'),
  notBeefOrVeal: otherThan('notBeefOrVeal', 'meat of species other than beef and veal', 'beef', 'veal'),
  notPorkBeefOrVeal: otherThan(
    'notPorkBeefOrVeal',
    'meat of species other than pork, beef and veal',
    'pork',
    'beef',
    'veal',
  ),
  notForLiverSausage: form(
    'notForLiverSausage',
    'meat of species other than pork, beef and veal, sheep and goat liver excepted',
    mass({ kinds: MEAT_KINDS, exceptSpecies: ['pork', 'beef', 'veal'] }),
    mass({ kinds: ['liver'], species: ['lamb', 'goat'] }, -1),
  ),
  notChicken: otherThan('notChicken', 'meat of species other than chicken', 'chicken'),
  notTurkey: otherThan('notTurkey', 'meat of species other than turkey', 'turkey'),
  cheekMeat: massOf('cheekMeat', 'cheek meat', kinds('cheek meat')),
  organMeat: massOf('organMeat', 'heart and tongue meat', kinds('heart meat', 'tongue meat')),
  liver: massOf('liver', 'liver', kinds('liver')),
  byproducts: massOf(
    'byproducts',
    'byproducts',
    kinds('liver', 'other byproduct', 'partially defatted tissue', 'skin'),
  ),
  byproductsOtherThanLiver: massOf(
    'byproductsOtherThanLiver',
    'byproducts other than liver',
    kinds('other byproduct', 'partially defatted tissue', 'skin'),
  ),
  liverOrSkinOfLivestock: massOf('liverOrSkinOfLivestock', 'liver or skin other than of poultry', {
    kinds: ['liver', 'skin'],
    exceptSpecies: POULTRY,
  }),
  byproductsOtherThanDefattedTissue: massOf(
    'byproductsOtherThanDefattedTissue',
    'byproducts other than partially defatted tissue',
    kinds('liver', 'other byproduct', 'skin'),
  ),
  defattedTissue: massOf('defattedTissue', 'partially defatted tissue', kinds('partially defatted tissue')),
  notMeat: massOf('notMeat', 'anything that is not meat', NOT_MEAT),
  skeletalMeat: massOf('skeletalMeat', 'skeletal meat', kinds('skeletal meat')),
  skeletalMeatOfLivestock: massOf('skeletalMeatOfLivestock', 'skeletal meat of livestock', {
    kinds: ['skeletal meat'],
    species: LIVESTOCK,
  }),
  meatOfLivestock: massOf('meatOfLivestock', 'meat of livestock, fat and byproducts not counted', {
    kinds: ['skeletal meat', 'head meat', 'cheek meat', 'heart meat', 'tongue meat'],
    species: LIVESTOCK,
  }),
  notMuscleOfOneAnimal: massOf(
    'notMuscleOfOneAnimal',
    'parts other than muscle tissue in the proportions of one animal',
    { kinds: MEAT_KINDS, exceptKinds: ['skeletal meat', 'fat'] },
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
  poultrySkin: massOf('poultrySkin', 'poultry skin', { kinds: ['skin'], species: POULTRY }),
  meatOrFat: massOf('meatOrFat', 'meat and fat', kinds('skeletal meat', 'head meat', 'cheek meat', 'fat')),
  cheese: massOf('cheese', 'cheese', kinds('dairy')),
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
