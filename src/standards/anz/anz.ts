import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { RuleSet, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import {
  IN_THE_FOOD,
  NITRATE,
  NITRITE,
  NO_ANTIOXIDANTS,
  NO_NITRATE,
  NO_SULFITE,
  NOT_CURED,
  SULFITE_SAUSAGE,
} from './additives.ts';
import { none, STANDARD_221 } from './law.ts';

const OF_FORMULA = {
  ...LAW,
  sense: 'min',
  basis: FORMS.formula,
  citation: STANDARD_221,
  read: 'secondary',
} as const;
const EARLIER = 'Read in the gazetted text of 2000; the sections were renumbered in the code of 2016.';

const SAUSAGE: readonly Limit[] = [
  {
    ...OF_FORMULA,
    id: 'anz-2.2.1-sausage-flesh',
    says: 'Sausage holds at least 50 % of fat free meat flesh.',
    numerator: FORMS.fatFreeMeatFlesh,
    bound: 0.5,
    note: `Written as 500 g/kg. ${EARLIER}`,
  },
  {
    ...LAW,
    id: 'anz-2.2.1-sausage-fat',
    says: 'Fat in sausage is at most 50 % of its fat free meat flesh.',
    numerator: FORMS.fat,
    basis: FORMS.fatFreeMeatFlesh,
    bound: 0.5,
    citation: STANDARD_221,
    read: 'secondary',
    note: `Half of the fat free flesh, not half of the sausage. ${EARLIER}`,
  },
];

const meatAtLeast = (id: string, name: string, percent: number, extra: Partial<Limit> = {}): Limit => ({
  ...OF_FORMULA,
  id: `anz-2.2.1-${id}`,
  says: `${name} holds at least ${percent} % of meat.`,
  numerator: FORMS.greenWeight,
  bound: percent / 100,
  note: EARLIER,
  ...extra,
});
const PROCESSED = meatAtLeast('processed-meat', 'Processed meat', 30);

const FAT_FREE_PROTEIN: Limit = {
  ...OF_FORMULA,
  id: 'anz-2.2.1-cured-protein',
  says: 'Protein of the meat is at least 16 % of cured or dried meat flesh in whole cuts, without its fat.',
  numerator: FORMS.meatProtein,
  basis: FORMS.finishedWithoutFat,
  bound: 0.16,
  note: EARLIER,
};

const ONLY_MEAT = none(
  'anz-2.2.1-mince-only-meat',
  'Nothing but meat goes into mince.',
  FORMS.notMeat,
  STANDARD_221,
  {
    note: 'The code has no standard of its own for mince; a word such as "lean" or "premium" makes its most fat a declaration.',
  },
);

const naming = { species: 'none', leanPair: false } as const;

const STANDARDS: readonly Standard[] = [
  {
    productClass: 'mince',
    says: 'Mince',
    citation: STANDARD_221,
    cooking: ['raw'],
    limits: [ONLY_MEAT, NO_SULFITE, NOT_CURED],
    naming,
  },
  {
    productClass: 'patties',
    says: 'Patties and rissoles that are not of sausage meat',
    citation: STANDARD_221,
    cooking: ['raw'],
    limits: [NO_SULFITE, NOT_CURED],
    naming,
  },
  {
    productClass: 'fresh-sausage',
    says: 'Sausage and sausage meat of raw meat',
    citation: STANDARD_221,
    cooking: ['raw'],
    limits: [...SAUSAGE, SULFITE_SAUSAGE, NOT_CURED],
    naming,
  },
  {
    productClass: 'cooked-sausage',
    says: 'Cooked sausage, cured or not',
    citation: STANDARD_221,
    cooking: ['cooked'],
    limits: [...SAUSAGE, PROCESSED, NITRITE, NO_NITRATE, NO_SULFITE],
    laboratory: IN_THE_FOOD,
    naming,
  },
  {
    productClass: 'fermented-sausage',
    says: 'Fermented comminuted meat',
    citation: STANDARD_221,
    cooking: ['dried', 'cooked'],
    limits: [PROCESSED, NITRITE, NITRATE, NO_SULFITE],
    laboratory: [
      ...IN_THE_FOOD,
      {
        id: 'anz-2.2.1-fermented-name',
        says: 'The name says whether it was heat treated, cooked or neither; which of them needs the record of its temperatures.',
        citation: STANDARD_221,
        read: 'secondary',
      },
    ],
    naming,
  },
  {
    productClass: 'processed-meat',
    says: 'Processed meat',
    citation: STANDARD_221,
    cooking: ['cooked', 'dried'],
    limits: [PROCESSED, NITRITE, NO_NITRATE, NO_SULFITE],
    laboratory: IN_THE_FOOD,
    naming,
  },
  {
    productClass: 'manufactured-meat',
    says: 'Manufactured meat',
    citation: STANDARD_221,
    cooking: ['cooked', 'dried'],
    limits: [meatAtLeast('manufactured-meat', 'Manufactured meat', 66), NITRITE, NO_NITRATE, NO_SULFITE],
    laboratory: IN_THE_FOOD,
    naming,
  },
  {
    productClass: 'cured-cut',
    says: 'Cured or dried meat flesh in whole cuts or pieces, such as ham and bacon',
    citation: STANDARD_221,
    cooking: ['raw', 'cooked', 'dried'],
    limits: [FAT_FREE_PROTEIN, NITRITE, NO_NITRATE, NO_SULFITE],
    laboratory: IN_THE_FOOD,
    naming,
  },
  {
    productClass: 'slow-dry-cured-cut',
    says: 'Slow dry cured meat in whole cuts',
    citation: STANDARD_221,
    cooking: ['dried'],
    limits: [FAT_FREE_PROTEIN, NITRITE, NITRATE, NO_SULFITE],
    laboratory: IN_THE_FOOD,
    naming,
  },
  {
    productClass: 'meat-pie',
    says: 'Meat pie',
    citation: STANDARD_221,
    cooking: ['cooked'],
    limits: [
      {
        ...OF_FORMULA,
        id: 'anz-2.2.1-meat-pie',
        says: 'A meat pie holds at least 25 % of meat flesh.',
        numerator: FORMS.meatFlesh,
        basis: FORMS.formula,
        bound: 0.25,
        note: `The pie as a whole: give its pastry as an ingredient. ${EARLIER}`,
      },
      NO_SULFITE,
      NOT_CURED,
    ],
    naming,
  },
];

/** Australia and New Zealand. */
export const ANZ: RuleSet = {
  jurisdiction: 'anz',
  says: 'Australia and New Zealand, Food Standards Code',
  knownFrom: '2016-03-01',
  edition:
    'Standard 2.2.1 as gazetted in 2000 and quoted in guides to the code of 2016; Schedule 15 mostly from memory, look at the code itself',
  standards: STANDARDS.map((standard) => ({
    ...standard,
    limits: [...standard.limits, NO_ANTIOXIDANTS],
  })),
};
