import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../rules/standard.ts';
import { LAW, noneReadAs } from './shapes.ts';

/**
 * Minced meat by its designation, Regulation (EU) No 1169/2011, Annex VI part B: the same table in the European Union
 * and, retained, in Great Britain.
 */

const OFFICIAL = { ...LAW, read: 'official' } as const;
const none = noneReadAs('official');
/** The words of the two statements in English were not read in the act itself. */
const DAILY =
  'Checked on a daily average; the label also states that the fat content and the ratio of collagen to meat protein are under these figures.';

/** @param prefix of the ids. @param retained before the names of the acts, where they are retained law. */
export function mincedMeat(
  prefix: 'eu' | 'gb',
  retained: '' | 'retained ',
  laboratory: readonly LaboratoryLimit[] = [],
) {
  const table = `${retained}Regulation (EU) No 1169/2011, Annex VI part B 1`;
  const hygiene = `${retained}Regulation (EC) No 853/2004`;

  const share = (what: 'fat' | 'collagen', productClass: string, says: string, percent: number): Limit => ({
    ...OFFICIAL,
    id: `${prefix}-1169-${productClass}-${what}`,
    says,
    numerator: what === 'fat' ? FORMS.finishedFat : FORMS.collagen,
    basis: what === 'fat' ? FORMS.finished : FORMS.meatProtein,
    bound: percent / 100,
    citation: table,
    note: DAILY,
  });

  const common: readonly Limit[] = [
    {
      ...OFFICIAL,
      id: `${prefix}-853-minced-salt`,
      says: 'Minced meat holds less than 1 % salt.',
      numerator: FORMS.saltPutIn,
      basis: FORMS.formula,
      bound: 0.01,
      citation: `${hygiene}, Annex I 1.13`,
      note: 'Held as at most 1 %: with just that or more it is a meat preparation.',
    },
    none(
      `${prefix}-853-minced-only-meat`,
      'Nothing but meat and a little salt goes into minced meat.',
      FORMS.notMeatNorSalt,
      `${hygiene}, Annex I 1.13 and 1.15`,
      {
        note: 'With seasoning, additives or other food it is a meat preparation, which has classes of its own.',
      },
    ),
    none(
      `${prefix}-853-minced-muscle`,
      'Minced meat is of skeletal muscle with the fat attached to it; masseters may go in.',
      FORMS.notMuscle,
      `${hygiene}, Annex III section V chapter II`,
    ),
  ];
  const pureBeef = none(
    `${prefix}-1169-minced-pure-beef-only`,
    'Only beef goes into minced pure beef.',
    FORMS.notBovine,
    table,
  );
  const noPigmeat = none(
    `${prefix}-1169-minced-other-species-no-pigmeat`,
    'Minced meat with pigmeat has a designation of its own.',
    FORMS.pigmeat,
    table,
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
    citation: table,
    cooking: ['raw'],
    laboratory,
    limits: [
      share('fat', productClass, `${says} holds at most ${fatPercent} % fat.`, fatPercent),
      share(
        'collagen',
        productClass,
        `Collagen is at most ${collagenPercent} % of the meat protein of ${says.toLowerCase()}.`,
        collagenPercent,
      ),
      ...species,
      ...common,
    ],
    naming: { name: says, species: 'none', leanPair: false },
  });

  const designations: readonly Standard[] = [
    designation('lean-minced-meat', 'Lean minced meat', 7, 12),
    designation('minced-pure-beef', 'Minced pure beef', 20, 15, [pureBeef]),
    designation('minced-meat-with-pigmeat', 'Minced meat containing pigmeat', 30, 18),
    designation('minced-meat-other-species', 'Minced meat of other species', 25, 15, [noPigmeat]),
  ];
  return { designations, common, pureBeef };
}
