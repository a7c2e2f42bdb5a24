import { MEAT_KINDS } from '../../batch/material.ts';
import { carried, form, kinds, mass, massOf, NO_INGREDIENT } from './build.ts';
import { declarableMeat, type MeatDefinition } from './meat-content.ts';

/** Muscle with the tissue attached to it; masseters (cheek) are muscle, heart, tongue and other muscles of the head not. */
const MUSCLE = ['skeletal meat', 'cheek meat'] as const;

/**
 * What is meat on an ingredient list, with the most fat and the most collagen of its protein (Regulation (EU) No
 * 1169/2011, Annex VII part B 17). A product is reckoned once for each kind that went in.
 */
export const PORK_DEFINITION: MeatDefinition = {
  id: 'declarablePork',
  says: 'declarable pork',
  meat: { kinds: MUSCLE, species: ['pork'] },
  fat: 0.3,
  collagenOfProtein: 0.25,
};
export const BEEF_DEFINITION: MeatDefinition = {
  id: 'declarableBeef',
  says: 'declarable beef',
  meat: { kinds: MUSCLE, species: ['beef', 'veal'] },
  fat: 0.25,
  collagenOfProtein: 0.25,
};
export const MAMMAL_DEFINITION: MeatDefinition = {
  id: 'declarableMammals',
  says: 'declarable meat of mammals other than pig and rabbit',
  meat: { kinds: MUSCLE, species: ['beef', 'veal', 'lamb', 'goat'] },
  fat: 0.25,
  collagenOfProtein: 0.25,
};
/** Species together, mammals being the most of them. */
export const MIXED_DEFINITION: MeatDefinition = {
  id: 'declarableMixed',
  says: 'declarable meat',
  meat: { kinds: MUSCLE },
  fat: 0.25,
  collagenOfProtein: 0.25,
};
export const BIRD_DEFINITION: MeatDefinition = {
  id: 'declarableBirds',
  says: 'declarable meat of birds and rabbits',
  meat: { kinds: MUSCLE, species: ['chicken', 'turkey', 'duck', 'goose', 'rabbit'] },
  fat: 0.15,
  collagenOfProtein: 0.1,
};

/** Binders of the ingredient tables that are neither vegetable nor cereal and carry no substance that says so. */
const NOT_CEREAL = [
  'nonfat-dry-milk',
  'calcium-reduced-dried-skim-milk',
  'dried-whey',
  'dried-whole-milk',
  'dried-buttermilk',
  'soy-flour',
  'textured-soy-protein',
  'wheat-gluten',
  'corn-starch',
  'potato-starch',
  'egg-white-dried',
  'gelatin',
] as const;
const NOT_CEREAL_SUBSTANCES = [
  'isolated soy protein',
  'sodium caseinate',
  'soy protein concentrate',
  'modified food starch',
  'carrageenan',
  'methyl cellulose',
  'transglutaminase',
  'pork collagen',
] as const;

/** Forms that only the rules of the European Union and Great Britain count. */
export const EUROPE = {
  declarablePork: declarableMeat(PORK_DEFINITION),
  declarableBeef: declarableMeat(BEEF_DEFINITION),
  declarableMammals: declarableMeat(MAMMAL_DEFINITION),
  declarableMixed: declarableMeat(MIXED_DEFINITION),
  declarableBirds: declarableMeat(BIRD_DEFINITION),
  notBovine: massOf('notBovine', 'meat of species other than beef and veal', {
    kinds: MEAT_KINDS,
    exceptSpecies: ['beef', 'veal'],
  }),
  notBirds: massOf('notBirds', 'meat other than of birds and rabbits', {
    kinds: MEAT_KINDS,
    exceptSpecies: ['chicken', 'turkey', 'duck', 'goose', 'rabbit'],
  }),
  birdsAndRabbits: massOf('birdsAndRabbits', 'meat of birds and rabbits', {
    kinds: MEAT_KINDS,
    species: ['chicken', 'turkey', 'duck', 'goose', 'rabbit'],
  }),
  separatedRuminants: massOf('separatedRuminants', 'mechanically separated meat of cattle, sheep and goats', {
    kinds: ['mechanically separated'],
    species: ['beef', 'veal', 'lamb', 'goat'],
  }),
  neitherBeefNorPork: massOf('neitherBeefNorPork', 'meat of species other than beef, veal and pork', {
    kinds: MEAT_KINDS,
    exceptSpecies: ['beef', 'veal', 'pork'],
  }),
  notMuscle: massOf('notMuscle', 'offal, head meat, skin, fat as such and mechanically separated meat', {
    kinds: MEAT_KINDS,
    exceptKinds: MUSCLE,
  }),
  otherByproducts: massOf(
    'otherByproducts',
    'offal other than liver',
    kinds('other byproduct', 'partially defatted tissue'),
  ),
  notMeatNorSalt: massOf('notMeatNorSalt', 'anything but meat and salt', {
    exceptKinds: [...MEAT_KINDS, 'salt', NO_INGREDIENT],
  }),
  pigmeat: massOf('pigmeat', 'pigmeat', { kinds: MEAT_KINDS, species: ['pork'] }),
  vegetableAndCereal: form(
    'vegetableAndCereal',
    'vegetables and cereal',
    mass(kinds('vegetable', 'binder')),
    mass({ kinds: ['binder'], materialIds: NOT_CEREAL }, -1),
    ...NOT_CEREAL_SUBSTANCES.map((name) => carried(name, -1, kinds('binder'))),
  ),
  additivesOfGroupOne: form(
    'additivesOfGroupOne',
    'glucono delta lactone, fumaric acid, tocopherols and methyl cellulose',
    carried('glucono delta lactone'),
    carried('fumaric acid'),
    carried('tocopherols'),
    carried('methyl cellulose'),
  ),
} as const;
