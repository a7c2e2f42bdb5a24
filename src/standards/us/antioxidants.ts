import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, none } from './law.ts';

/** Antioxidants of 9 CFR 424.21(c). In fresh sausage they are measured against the fat, not the product. */

const OF_FAT = {
  ...LAW,
  basis: FORMS.fat,
  unit: 'ppm',
  citation: '9 CFR 424.21(c)',
  read: 'official',
} as const;

const TBHQ_ALONE = 'Together with BHA or BHT only, not with propyl gallate.';

const ONE_BY_ONE = [
  ['bha', 'BHA', FORMS.BHA],
  ['bht', 'BHT', FORMS.BHT],
  ['propyl-gallate', 'Propyl gallate', FORMS.propylGallate],
  ['tbhq', 'TBHQ', FORMS.TBHQ],
] as const;

export const ANTIOXIDANTS_FRESH: readonly Limit[] = [
  ...ONE_BY_ONE.map(
    ([name, says, numerator]): Limit => ({
      ...OF_FAT,
      id: `us-424.21c-${name}-fresh-sausage`,
      says: `${says} in fresh sausage is at most 0.01 % of the fat content.`,
      numerator,
      bound: 100e-6,
      ...(name === 'tbhq' && { note: TBHQ_ALONE }),
    }),
  ),
  {
    ...OF_FAT,
    id: 'us-424.21c-antioxidants-fresh-sausage',
    says: 'Antioxidants together in fresh sausage are at most 0.02 % of the fat content.',
    numerator: FORMS.antioxidants,
    bound: 200e-6,
  },
  {
    ...OF_FAT,
    id: 'us-424.21c-citric-acid-fresh-sausage',
    says: 'Citric acid that comes with antioxidants is at most 0.01 % of the fat content.',
    numerator: FORMS.citricAcidAsSynergist,
    bound: 100e-6,
    note: 'As a synergist. To adjust acidity the table allows what suffices, for products named on inquiry.',
  },
];

export const NO_ANTIOXIDANTS: Limit = none(
  'us-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ are not listed for this product.',
  FORMS.antioxidants,
  '9 CFR 424.21(c)',
  {
    unit: 'ppm',
    note: 'The table lists fresh and brown-and-serve sausage, pregrilled beef patties, pizza toppings and meatballs.',
  },
);
