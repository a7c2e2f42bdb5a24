import {
  type Brings,
  carries,
  finished,
  holds,
  isCarcass,
  isKind,
  type Meaning,
  minus,
  plus,
  times,
  WHOLE,
  whole,
} from './quantities.ts';

/** Potassium nitrite counts as the rule's two figures for bacon stand to each other. */
const nitriteBy = (sodium: bigint, potassium: bigint): Brings =>
  plus(carries('sodium nitrite'), times(carries('potassium nitrite'), sodium, potassium));

const NAMED_FOR_HAM = [
  'carrageenan',
  'modified food starch',
  'isolated soy protein',
  'sodium caseinate',
  'soy protein concentrate',
  'pork collagen',
] as const;

const weightOf =
  (...kinds: string[]): Brings =>
  (supply) =>
    whole(isKind(supply, ...kinds));

/** Forms of cured cuts, loaves and liver sausage of the United States. */
export const CURED_CUTS: Readonly<Record<string, Meaning>> = {
  nitriteAt120Of148: nitriteBy(120n, 148n),
  nitriteAt100Of123: nitriteBy(100n, 123n),
  nitriteAt40Of49: nitriteBy(40n, 49n),
  nitriteAt80Of99: nitriteBy(80n, 99n),
  nitriteAt200Of246: nitriteBy(200n, 246n),
  skinFreeGreenWeight: (supply) => whole(isCarcass(supply) && !isKind(supply, 'skin')),
  fermentableSugar: (supply) => (isKind(supply, 'sweetener') ? WHOLE - holds(supply, 'sorbitol') : 0n),
  finishedWithoutFlavoring: minus(finished, weightOf('salt', 'spice', 'flavoring')),
  notCut: (supply) =>
    whole(isCarcass(supply) && !isKind(supply, 'skeletal meat', 'fat', 'skin', 'mechanically separated')),
  notCutNorHeadNorHeart: weightOf('tongue meat', 'liver', 'other byproduct', 'partially defatted tissue'),
  cheekHeadAndHeart: weightOf('cheek meat', 'head meat', 'heart meat'),
  otherThanTongue: (supply) => whole(isCarcass(supply) && !isKind(supply, 'tongue meat')),
  binderNotForHam: (supply, process) =>
    isKind(supply, 'binder') ? WHOLE - carries(...NAMED_FOR_HAM)(supply, process) : 0n,
  namedBinders: carries(...NAMED_FOR_HAM, 'methyl cellulose', 'gelatin'),
};
