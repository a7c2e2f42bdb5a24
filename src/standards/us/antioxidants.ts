import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/**
 * Antioxidants of 9 CFR 424.21(c). In fresh sausage and poultry they are measured against the fat, in dry sausage and
 * dried meats against the whole product; tocopherols always against the fat.
 */

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

/** @param of what the figures are a part of, in words. */
const group = (
  family: string,
  product: string,
  of: string,
  basis: Limit['basis'],
  ppm: { readonly each: number; readonly together: number },
): readonly Limit[] => {
  const percent = (figure: number) => `${figure / 10_000} %`;
  return [
    ...ONE_BY_ONE.map(
      ([name, says, numerator]): Limit => ({
        ...OF_FAT,
        basis,
        id: `us-424.21c-${name}-${family}`,
        says: `${says} in ${product} is at most ${percent(ppm.each)} of ${of}.`,
        numerator,
        bound: ppm.each / 1e6,
        ...(name === 'tbhq' && { note: TBHQ_ALONE }),
      }),
    ),
    {
      ...OF_FAT,
      basis,
      id: `us-424.21c-antioxidants-${family}`,
      says: `Antioxidants together in ${product} are at most ${percent(ppm.together)} of ${of}.`,
      numerator: FORMS.antioxidants,
      bound: ppm.together / 1e6,
    },
  ];
};

const TOTAL_WEIGHT = 'the total weight';

export const TOCOPHEROLS: Limit = {
  ...OF_FAT,
  id: 'us-424.21c-tocopherols',
  says: 'Tocopherols are at most 0.03 % of the fat content.',
  numerator: FORMS.tocopherols,
  bound: 300e-6,
  note: 'Not used in combination with other antioxidants.',
};

const CITRIC_ACID_POULTRY: Limit = {
  ...OF_FAT,
  id: 'us-424.21c-citric-acid-poultry',
  says: 'Citric acid that comes with antioxidants is at most 0.01 % of the fat content of poultry products.',
  numerator: FORMS.citricAcidAsSynergist,
  bound: 100e-6,
};

export const ANTIOXIDANTS_DRY: readonly Limit[] = [
  ...group('dry-sausage', 'dry sausage', TOTAL_WEIGHT, FORMS.finished, { each: 30, together: 60 }),
  TOCOPHEROLS,
];

export const ANTIOXIDANTS_DRIED_MEAT: readonly Limit[] = [
  ...group('dried-meat', 'dried meats', TOTAL_WEIGHT, FORMS.finished, { each: 100, together: 100 }),
  TOCOPHEROLS,
];

export const ANTIOXIDANTS_POULTRY: readonly Limit[] = [
  ...group('poultry', 'poultry products', 'the fat content', FORMS.fat, { each: 100, together: 200 }),
  CITRIC_ACID_POULTRY,
  {
    ...OF_FAT,
    id: 'us-424.21c-tocopherols-poultry',
    says: 'Tocopherols in poultry products are at most 0.03 % of the fat content.',
    numerator: FORMS.tocopherols,
    bound: 300e-6,
    note: 'With another antioxidant except TBHQ the rule stops at 0.02 percent.',
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

const NO_TOCOPHEROLS: Limit = none(
  'us-no-tocopherols',
  'Tocopherols are not listed for this product.',
  FORMS.tocopherols,
  '9 CFR 424.21(c)',
  {
    unit: 'ppm',
    note: 'The table lists fresh, Italian, dry and semidry sausage, dried and restructured meats and poultry products.',
  },
);

export const NONE_LISTED: readonly Limit[] = [NO_ANTIOXIDANTS, NO_TOCOPHEROLS];
