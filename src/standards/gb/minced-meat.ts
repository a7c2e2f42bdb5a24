import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW, none } from './law.ts';

/**
 * Minced meat by the retained table, and under the national mark, which frees every designation but lean from it.
 */

const TABLE = 'retained Regulation (EU) No 1169/2011, Annex VI part B 1';
const HYGIENE = 'retained Regulation (EC) No 853/2004, Annex I 1.13';
const MARK = 'Food Information Regulations 2014 (SI 2014/1855), regulation 4 and Schedule 2';

const MINCE: readonly Limit[] = [
  {
    ...LAW,
    id: 'gb-853-minced-salt',
    says: 'Minced meat holds less than 1 % salt.',
    numerator: FORMS.saltPutIn,
    basis: FORMS.formula,
    bound: 0.01,
    citation: HYGIENE,
    note: 'Held as at most 1 %.',
  },
  none(
    'gb-853-minced-only-meat',
    'Nothing but meat and a little salt goes into minced meat.',
    FORMS.notMeatNorSalt,
    HYGIENE,
  ),
  none(
    'gb-853-minced-muscle',
    'Minced meat is of skeletal muscle with the fat attached to it.',
    FORMS.notMuscle,
    'retained Regulation (EC) No 853/2004, Annex III section V chapter II',
  ),
];
const PURE_BEEF = none(
  'gb-1169-minced-pure-beef-only',
  'Only beef goes into minced pure beef.',
  FORMS.notBovine,
  TABLE,
);

const designation = (
  productClass: string,
  says: string,
  fatPercent: number,
  collagenPercent: number,
  species: readonly Limit[] = [],
): Standard => ({
  productClass,
  says,
  citation: TABLE,
  cooking: ['raw'],
  limits: [
    {
      ...LAW,
      id: `gb-1169-${productClass}-fat`,
      says: `${says} holds at most ${fatPercent} % fat.`,
      numerator: FORMS.finishedFat,
      basis: FORMS.finished,
      bound: fatPercent / 100,
      citation: TABLE,
    },
    {
      ...LAW,
      id: `gb-1169-${productClass}-collagen`,
      says: `Collagen is at most ${collagenPercent} % of the meat protein of ${says.toLowerCase()}.`,
      numerator: FORMS.collagen,
      basis: FORMS.meatProtein,
      bound: collagenPercent / 100,
      citation: TABLE,
    },
    ...species,
    ...MINCE,
  ],
  naming: { name: says, species: 'none', leanPair: false },
});

export const MINCED_MEAT: readonly Standard[] = [
  designation('lean-minced-meat', 'Lean minced meat', 7, 12),
  designation('minced-pure-beef', 'Minced pure beef', 20, 15, [PURE_BEEF]),
  designation('minced-meat-with-pigmeat', 'Minced meat containing pigmeat', 30, 18),
  designation('minced-meat-other-species', 'Minced meat of other species', 25, 15),
  {
    productClass: 'minced-beef-with-national-mark',
    says: 'Minced beef under the national mark "For UK market only"; not for lean mince',
    citation: MARK,
    cooking: ['raw'],
    limits: [PURE_BEEF, ...MINCE],
    naming: { name: 'Minced Beef', species: 'none', leanPair: false },
  },
];
