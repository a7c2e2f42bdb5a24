import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { NO_SULFITE, NOT_CURED, PHOSPHATE } from './cure.ts';
import { none, section } from './law.ts';
import { proteins } from './protein.ts';

/** Ground meat by its fat, patties and burgers. */

const BULLETIN = 'Canadian Food Inspection Agency, information bulletin on ground meat';
const BURGERS = 'Canadian Food Inspection Agency, information bulletin on beef burgers';
const naming = { species: 'none', leanPair: false } as const;

const FAT: readonly (readonly [name: string, percent: number])[] = [
  ['Extra lean', 10],
  ['Lean', 17],
  ['Medium', 23],
  ['Regular', 30],
];
const slug = (name: string) => name.toLowerCase().replace(' ', '-');

const fat = (name: string, percent: number): Limit => ({
  ...LAW,
  id: `ca-ground-${slug(name)}-fat`,
  says: `${name} ground meat holds at most ${percent} % fat.`,
  numerator: FORMS.finishedFat,
  basis: FORMS.finished,
  bound: percent / 100,
  citation:
    percent === 30 ? `${BULLETIN}; for beef ${section('B.14.015C')} and its incorporated table` : BULLETIN,
  read: 'secondary',
});

const BEEF_ONLY = none('ca-ground-beef-only', 'Only beef goes in.', FORMS.notBeef, BULLETIN);
const PORK_ONLY = none('ca-ground-pork-only', 'Only pork goes in.', FORMS.notPork, BULLETIN);
const GROUND: readonly Limit[] = [
  none(
    'ca-ground-only-meat',
    'Nothing but meat goes into ground meat: no filler, seasoning, phosphate or preservative.',
    FORMS.notMeat,
    BULLETIN,
  ),
  none(
    'ca-ground-no-mechanically-separated',
    'No mechanically separated meat goes into ground meat.',
    FORMS.mechanicallySeparatedMeat,
    BULLETIN,
  ),
];

const ground = (species: 'beef' | 'pork', only: Limit): Standard[] =>
  FAT.map(([name, percent]) => ({
    productClass: `${slug(name)}-ground-${species}`,
    says: `${name} ground ${species}`,
    citation: BULLETIN,
    cooking: ['raw'],
    limits: [fat(name, percent), only, ...GROUND],
    naming: {
      name: `${name} Ground ${species === 'beef' ? 'Beef' : 'Pork'}`,
      species: 'in name',
      leanPair: false,
    },
  }));

const NO_FILLER = none(
  'ca-patty-no-filler',
  'No filler goes into a patty; seasoning may.',
  FORMS.anyBinder,
  BURGERS,
);
const LEAN_WORD =
  'On patties and burgers "lean" means at most 10 % fat and "extra lean" 7.5 %; on ground beef patties 17 % and 10 %.';

export const GROUND_MEAT: readonly Standard[] = [
  ...ground('beef', BEEF_ONLY),
  ...ground('pork', PORK_ONLY),
  {
    productClass: 'beef-patty',
    says: 'Beef patty: ground beef with seasoning',
    citation: section('B.14.041'),
    cooking: ['raw'],
    limits: [
      BEEF_ONLY,
      ...proteins('patty', 'A patty', 16, 'B.14.041(a)').map((limit) => ({ ...limit, note: LEAN_WORD })),
      NO_FILLER,
      NOT_CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'beef-burger',
    says: 'Beef burger: ground beef with filler',
    citation: section('B.14.040'),
    cooking: ['raw'],
    limits: [
      BEEF_ONLY,
      ...proteins('burger', 'A burger', 13, 'B.14.040(a)').map((limit) => ({ ...limit, note: LEAN_WORD })),
      PHOSPHATE,
      NOT_CURED,
      NO_SULFITE,
    ],
    naming,
  },
];
