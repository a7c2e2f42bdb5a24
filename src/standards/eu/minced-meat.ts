import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW, none } from './law.ts';
import { MINCED_MEAT_CRITERIA } from './microbiology.ts';

/** Minced meat by its designation: Regulation (EU) No 1169/2011, Annex VI part B. */

const TABLE = 'Regulation (EU) No 1169/2011, Annex VI part B 1';
const HYGIENE = 'Regulation (EC) No 853/2004, Annex I 1.13';
/** The words of the two statements in English were not read in the act itself. */
const DAILY =
  'Checked on a daily average; the label also states that the fat content and the ratio of collagen to meat protein are under these figures.';

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
  laboratory: MINCED_MEAT_CRITERIA,
  limits: [
    {
      ...LAW,
      id: `eu-1169-${productClass}-fat`,
      says: `${says} holds at most ${fatPercent} % fat.`,
      numerator: FORMS.finishedFat,
      basis: FORMS.finished,
      bound: fatPercent / 100,
      citation: TABLE,
      note: DAILY,
    },
    {
      ...LAW,
      id: `eu-1169-${productClass}-collagen`,
      says: `Collagen is at most ${collagenPercent} % of the meat protein of ${says.toLowerCase()}.`,
      numerator: FORMS.collagen,
      basis: FORMS.meatProtein,
      bound: collagenPercent / 100,
      citation: TABLE,
      note: DAILY,
    },
    ...species,
    ...MINCE,
  ],
  naming: { name: says, species: 'none', leanPair: false },
});

const MINCE: readonly Limit[] = [
  {
    ...LAW,
    id: 'eu-853-minced-salt',
    says: 'Minced meat holds less than 1 % salt.',
    numerator: FORMS.saltPutIn,
    basis: FORMS.formula,
    bound: 0.01,
    citation: HYGIENE,
    note: 'Held as at most 1 %: with just that or more it is a meat preparation.',
  },
  none(
    'eu-853-minced-only-meat',
    'Nothing but meat and a little salt goes into minced meat.',
    FORMS.notMeatNorSalt,
    `${HYGIENE} and 1.15`,
    {
      note: 'With seasoning, additives or other food it is a meat preparation, which has classes of its own.',
    },
  ),
  none(
    'eu-853-minced-muscle',
    'Minced meat is of skeletal muscle with the fat attached to it; masseters may go in.',
    FORMS.notMuscle,
    'Regulation (EC) No 853/2004, Annex III section V chapter II',
  ),
];

export const MINCED_MEAT: readonly Standard[] = [
  designation('lean-minced-meat', 'Lean minced meat', 7, 12),
  designation('minced-pure-beef', 'Minced pure beef', 20, 15, [
    none('eu-1169-minced-pure-beef-only', 'Only beef goes into minced pure beef.', FORMS.notBovine, TABLE),
  ]),
  designation('minced-meat-with-pigmeat', 'Minced meat containing pigmeat', 30, 18),
  designation('minced-meat-other-species', 'Minced meat of other species', 25, 15, [
    none(
      'eu-1169-minced-other-species-no-pigmeat',
      'Minced meat with pigmeat has a designation of its own.',
      FORMS.pigmeat,
      TABLE,
    ),
  ]),
];
