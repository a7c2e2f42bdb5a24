import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { ANTIMICROBIALS } from './additives.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { NOT_CURED } from './cure.ts';
import { beefOnly, cutsOnly, NO_SEPARATED_IN_CUTS, PHOSPHATE_CUTS, weightOfFresh } from './cuts.ts';
import { none, seasoningOnly } from './law.ts';

/** Meat cooked until it has lost three tenths of its weight, 9 CFR 319.80 and 319.81. */

const OF_MEAT = { basis: FORMS.greenWeight };

const SHARED: readonly Limit[] = [
  NO_SEPARATED_IN_CUTS,
  ...NOT_CURED,
  PHOSPHATE_CUTS,
  ...ANTIMICROBIALS,
  NO_ANTIOXIDANTS,
];

export const ROAST_BEEF_STANDARDS: readonly Standard[] = [
  {
    productClass: 'roast-beef-parboiled',
    says: 'Roast beef, parboiled and steam roasted',
    citation: '9 CFR 319.81',
    cooking: ['cooked'],
    limits: [
      weightOfFresh(
        '319.81',
        'Roast beef less its salt and flavoring weighs at most 70 % of the fresh beef.',
        0.7,
        { numerator: FORMS.finishedWithoutFlavoring, note: 'Salt, spices and flavorings, as they went in.' },
      ),
      {
        ...LAW,
        id: 'us-319.81-cheek-head-and-heart',
        says: 'Beef cheek, head and heart meat together are at most 5 % of the meat of roast beef.',
        numerator: FORMS.cheekHeadAndHeart,
        basis: FORMS.greenWeight,
        bound: 0.05,
        citation: '9 CFR 319.81',
        read: 'official',
        note: 'The rule allows them for canned product; none goes into other roast beef. Trimmed and declared.',
      },
      {
        ...LAW,
        id: 'us-319.81-transglutaminase',
        says: 'Transglutaminase in roast beef is at most 65 ppm of the formula.',
        numerator: FORMS.transglutaminase,
        basis: FORMS.formula,
        bound: 65e-6,
        unit: 'ppm',
        citation: '9 CFR 319.81',
        read: 'official',
        note: 'The basis is not written; 319.140 takes the product formulation.',
      },
      none(
        'us-319.81-no-other-binder',
        'No binder but transglutaminase goes in: the standard names no other.',
        FORMS.namedBinders,
        '9 CFR 319.81',
        {
          note: 'Told by the substances that rules name as binders, whatever carries them; flour and the like, which carry none, are for the plant to leave out.',
        },
      ),
      beefOnly('319.81'),
      cutsOnly('319.81', 'beef', '9 CFR 319.81', FORMS.notCutNorHeadNorHeart),
      seasoningOnly('319.81'),
      ...SHARED,
    ],
    naming: {
      name: 'Roast Beef Parboiled and Steam Roasted',
      species: 'in name',
      leanPair: false,
    },
  },
  {
    productClass: 'barbecued-meat',
    says: 'Barbecued meat, cooked by the direct heat of a fire',
    citation: '9 CFR 319.80',
    cooking: ['cooked'],
    limits: [
      weightOfFresh('319.80', 'Barbecued meat weighs at most 70 % of the fresh uncooked meat.', 0.7),
      none(
        'us-319.80-no-poultry',
        'No poultry goes in: the standard is of meat.',
        FORMS.poultry,
        '9 CFR 319.80 and 301.2',
        OF_MEAT,
      ),
      none(
        'us-319.80-no-byproducts',
        'No byproducts go in: the standard is of meat.',
        FORMS.byproducts,
        '9 CFR 319.80 and 301.2',
        OF_MEAT,
      ),
      ...SHARED,
    ],
    naming: { name: 'Barbecue', species: 'lead', leanPair: false },
  },
];
