import {
  BEEF_DEFINITION,
  BIRD_DEFINITION,
  MAMMAL_DEFINITION,
  MIXED_DEFINITION,
  PORK_DEFINITION,
} from '../../rules/forms/europe.ts';
import type { MeatDefinition } from '../../rules/forms/meat-content.ts';
import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { MeatContent, Standard } from '../../rules/standard.ts';
import {
  ERYTHORBIC_ACID,
  NITRITE_COOKED,
  NITRITE_STERILISED,
  NO_ERYTHORBIC_ACID,
  NO_NITRATE,
  NO_PHOSPHATE,
  NO_SULFITE,
  NOT_CURED,
  PHOSPHATE,
  SULFITE,
} from './additives.ts';
import { LAW, none, REGULATIONS } from './law.ts';

/** Reserved descriptions: names that a product may bear only with the least meat of its column. */

const SCHEDULE = `${REGULATIONS}, Schedule 1`;
const naming = { species: 'none', leanPair: false } as const;

export const meatContent = (...meats: MeatDefinition[]): MeatContent => ({
  citation: 'retained Regulation (EU) No 1169/2011, Annex VII part B 17',
  read: 'official',
  meats,
});
const EACH_KIND = meatContent(PORK_DEFINITION, MAMMAL_DEFINITION, BIRD_DEFINITION);

/** A column of the schedule: which meat it speaks of and which meat may go in. */
interface Column {
  readonly slug: string;
  readonly says: string;
  readonly numerator: Limit['numerator'];
  readonly only: readonly Limit[];
  readonly content: MeatContent;
}

const only = (id: string, says: string, numerator: Limit['numerator']) =>
  none(`gb-3001-${id}-only`, `Only ${says} goes in.`, numerator, SCHEDULE);

const PIGS: Column = {
  slug: 'pork',
  says: 'pork',
  numerator: FORMS.declarablePork,
  only: [only('pork', 'pork', FORMS.notPork)],
  content: meatContent(PORK_DEFINITION),
};
const BIRDS: Column = {
  slug: 'birds',
  says: 'meat of birds and rabbits',
  numerator: FORMS.declarableBirds,
  only: [only('birds', 'meat of birds and rabbits', FORMS.notBirds)],
  content: meatContent(BIRD_DEFINITION),
};
const MAMMALS_PREDOMINATE: Limit = {
  ...LAW,
  id: 'gb-1169-mammals-predominate',
  says: 'Birds and rabbits are at most 50 % of the meat, which is then reckoned by the limits of mammals.',
  numerator: FORMS.birdsAndRabbits,
  basis: FORMS.greenWeight,
  bound: 0.5,
  citation: 'retained Regulation (EU) No 1169/2011, Annex VII part B 17',
};
const OTHERS: Column = {
  slug: 'other',
  says: 'meat',
  numerator: FORMS.declarableMixed,
  only: [MAMMALS_PREDOMINATE],
  content: meatContent(MIXED_DEFINITION),
};
/** The name says beef: that meat alone must reach the figure of other species. */
const BEEF: Column = {
  slug: 'beef',
  says: 'beef',
  numerator: FORMS.declarableBeef,
  only: [],
  content: meatContent(BEEF_DEFINITION, PORK_DEFINITION, BIRD_DEFINITION),
};

type Read = Pick<Limit, 'read'> & Partial<Pick<Limit, 'note'>>;
const OFFICIAL: Read = { read: 'official' };
const SECONDARY: Read = {
  read: 'secondary',
  note: 'The figure was read on a page that cites the regulations, not in their schedule.',
};
const MEMORY: Read = { read: 'from memory', note: 'The row of the schedule could not be read: look at it.' };

/** @param item as in the ids, for example 'burger'. */
const least = (item: string, name: string, column: Column, percent: number, read: Read): Limit => ({
  ...LAW,
  ...read,
  sense: 'min',
  id: `gb-3001-${item}-${column.slug}`,
  says: `${name} holds at least ${percent} % of ${column.says}, its excess fat and connective tissue not counted.`,
  numerator: column.numerator,
  basis: FORMS.finished,
  bound: percent / 100,
  citation: SCHEDULE,
});

/** Uncooked products: the inspection regulations name the parts; a byproduct other than liver is kept out whole. */
const NO_OFFAL = none(
  'gb-3001-no-offal',
  'Certain offal of mammals does not go into uncooked products.',
  FORMS.otherByproducts,
  `${REGULATIONS}, regulation 5`,
  {
    read: 'secondary',
    note: 'Intestine as a casing is allowed. The list of parts was not read: every byproduct but liver is kept out.',
  },
);

const FRESH: readonly Limit[] = [NOT_CURED, NO_ERYTHORBIC_ACID, NO_OFFAL];

/** Fresh products with and without the sulfite and phosphate of breakfast sausage, and cooked ones. */
const PLAIN: readonly Limit[] = [...FRESH, NO_PHOSPHATE, NO_SULFITE];
const BREAKFAST: readonly Limit[] = [...FRESH, PHOSPHATE, SULFITE];
const COOKED: readonly Limit[] = [NITRITE_COOKED, NO_NITRATE, PHOSPHATE, ERYTHORBIC_ACID, NO_SULFITE];

const reserved = (
  productClass: string,
  says: string,
  minimum: Limit,
  column: Column,
  rest: readonly Limit[],
  cooking: Standard['cooking'] = ['raw'],
): Standard => ({
  productClass,
  says,
  citation: SCHEDULE,
  cooking,
  limits: [minimum, ...column.only, ...rest],
  meatContent: column === OTHERS ? EACH_KIND : column.content,
  naming,
});

const burgers = (
  item: 'burger' | 'economy-burger',
  name: string,
  percents: readonly [number, number, number],
): Standard[] =>
  ([PIGS, BIRDS, OTHERS] as const).map((column, index) =>
    reserved(
      index === 2 ? item : `${column.slug}-${item}`,
      index === 2 ? `${name} of other species or mixed` : `${name} of ${column.says} only`,
      least(item, name, column, percents[index] ?? 0, OFFICIAL),
      column,
      PLAIN,
    ),
  );

const HAMBURGER_SPECIES = none(
  'gb-3001-hamburger-species',
  'The meat of a hamburger is beef, pork or both.',
  FORMS.neitherBeefNorPork,
  SCHEDULE,
);

export const RESERVED: readonly Standard[] = [
  reserved(
    'pork-sausage',
    'Pork sausage, link or chipolata',
    least('pork-sausage', 'Pork sausage', PIGS, 42, SECONDARY),
    PIGS,
    PLAIN,
  ),
  reserved(
    'breakfast-pork-sausage',
    'Pork breakfast sausage, which may hold sulfite and phosphate',
    least('pork-sausage', 'Pork sausage', PIGS, 42, SECONDARY),
    PIGS,
    BREAKFAST,
  ),
  reserved(
    'sausage-of-pork',
    'Sausage of pork that is not called pork sausage',
    least('sausage', 'Sausage', PIGS, 32, SECONDARY),
    PIGS,
    PLAIN,
  ),
  reserved(
    'poultry-sausage',
    'Sausage of birds or rabbits',
    least('sausage', 'Sausage', BIRDS, 26, MEMORY),
    BIRDS,
    PLAIN,
  ),
  reserved(
    'sausage',
    'Sausage of other species or mixed',
    least('sausage', 'Sausage', OTHERS, 30, MEMORY),
    OTHERS,
    PLAIN,
  ),
  reserved(
    'breakfast-sausage',
    'Breakfast sausage of other species or mixed, which may hold sulfite and phosphate',
    least('sausage', 'Sausage', OTHERS, 30, MEMORY),
    OTHERS,
    BREAKFAST,
  ),
  ...burgers('burger', 'Burger', [67, 55, 62]),
  reserved('beef-burger', 'Beef burger', least('burger', 'Beef burger', BEEF, 62, OFFICIAL), BEEF, PLAIN),
  ...burgers('economy-burger', 'Economy burger', [50, 41, 47]),
  reserved('hamburger', 'Hamburger', least('hamburger', 'Hamburger', OTHERS, 62, MEMORY), OTHERS, [
    HAMBURGER_SPECIES,
    ...PLAIN,
  ]),
  reserved(
    'luncheon-meat',
    'Luncheon meat of other species or mixed',
    least('luncheon-meat', 'Luncheon meat', OTHERS, 62, MEMORY),
    OTHERS,
    COOKED,
    ['cooked'],
  ),
  reserved(
    'luncheon-meat-of-pork',
    'Luncheon meat of pork only',
    least('luncheon-meat', 'Luncheon meat', PIGS, 67, MEMORY),
    PIGS,
    [NITRITE_STERILISED, NO_NITRATE, PHOSPHATE, ERYTHORBIC_ACID, NO_SULFITE],
    ['cooked'],
  ),
  reserved(
    'chopped-pork',
    'Chopped pork or ham',
    least('chopped', 'Chopped pork', PIGS, 75, MEMORY),
    PIGS,
    COOKED,
    ['cooked'],
  ),
];
