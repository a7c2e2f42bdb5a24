import { MEAT_KINDS } from '../../batch/material.ts';
import { carried, form, kinds, MEAT, mass, massOf } from './build.ts';

/** Forms of cured cuts, loaves and liver sausage of the United States. */

/** Seasonings that 9 CFR 319.81 leaves out of the finished weight. */
const SALT_AND_FLAVORING = kinds('salt', 'spice', 'flavoring');
const SWEETENER = kinds('sweetener');
const BINDER = kinds('binder');

/**
 * Bacon has a figure of its own for each of the two nitrites, 9 CFR 424.22(b): the potassium salt counts at the
 * quotient of the two, cut off after 12 digits under a maximum and raised there under a minimum, so that its own
 * figure holds to the last digit.
 */
const baconNitrite = (id: string, sodium: number, potassium: number, times: number) =>
  form(
    id,
    `nitrite, ${potassium} of potassium nitrite counted as ${sodium}`,
    carried('sodium nitrite'),
    carried('potassium nitrite', times),
  );

export const CURED_CUTS = {
  nitriteAt120Of148: baconNitrite('nitriteAt120Of148', 120, 148, 0.81081081081),
  nitriteAt100Of123: baconNitrite('nitriteAt100Of123', 100, 123, 0.813008130081),
  nitriteAt40Of49: baconNitrite('nitriteAt40Of49', 40, 49, 0.816326530613),
  nitriteAt80Of99: baconNitrite('nitriteAt80Of99', 80, 99, 0.80808080808),
  nitriteAt200Of246: baconNitrite('nitriteAt200Of246', 200, 246, 0.813008130081),
  skinFreeGreenWeight: form(
    'skinFreeGreenWeight',
    'green weight of the meat without skin',
    mass(MEAT),
    mass(kinds('skin'), -1),
  ),
  fermentableSugar: form(
    'fermentableSugar',
    'sugars and syrups, sorbitol not counted',
    mass(SWEETENER),
    carried('sorbitol', -1, SWEETENER),
  ),
  finishedWithoutFlavoring: form(
    'finishedWithoutFlavoring',
    'finished product less salt, spices and flavorings',
    mass(undefined, 1, 'yield'),
    mass(SALT_AND_FLAVORING, -1),
  ),
  notCut: massOf(
    'notCut',
    'head, cheek, heart and tongue meat, liver, partially defatted tissue and other byproducts',
    kinds(
      'head meat',
      'cheek meat',
      'heart meat',
      'tongue meat',
      'liver',
      'other byproduct',
      'partially defatted tissue',
    ),
  ),
  notCutNorHeadNorHeart: massOf(
    'notCutNorHeadNorHeart',
    'tongue meat, liver, partially defatted tissue and other byproducts',
    kinds('tongue meat', 'liver', 'other byproduct', 'partially defatted tissue'),
  ),
  cheekHeadAndHeart: massOf(
    'cheekHeadAndHeart',
    'cheek, head and heart meat together',
    kinds('cheek meat', 'head meat', 'heart meat'),
  ),
  otherThanTongue: massOf(
    'otherThanTongue',
    'meat other than tongue',
    kinds(...MEAT_KINDS.filter((kind) => kind !== 'tongue meat')),
  ),
  binderNotForHam: form(
    'binderNotForHam',
    'binders other than those listed for ham',
    mass(BINDER),
    carried('carrageenan', -1, BINDER),
    carried('modified food starch', -1, BINDER),
    carried('isolated soy protein', -1, BINDER),
    carried('sodium caseinate', -1, BINDER),
    carried('soy protein concentrate', -1, BINDER),
    carried('pork collagen', -1, BINDER),
  ),
  namedBinders: form(
    'namedBinders',
    'soy protein, caseinate, starch, gums, collagen and gelatin as binders',
    carried('isolated soy protein'),
    carried('sodium caseinate'),
    carried('soy protein concentrate'),
    carried('modified food starch'),
    carried('carrageenan'),
    carried('methyl cellulose'),
    carried('pork collagen'),
    carried('gelatin'),
  ),
} as const;
