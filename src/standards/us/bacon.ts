import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { ANTIMICROBIALS } from './additives.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { noBinder } from './binders.ts';
import { ACCELERATORS_BESIDE_ASCORBATE, ACCELERATORS_CUTS } from './cure.ts';
import { cutsOnly, PHOSPHATE_CUTS, porkOnly, weightOfFresh } from './cuts.ts';
import { none, seasoningOnly } from './law.ts';

/**
 * Bacon, 9 CFR 319.107 and 424.22(b). Nitrite in pumped bacon is no maximum but the amount that "shall be used",
 * and 550 ppm of ascorbate or erythorbate with it: less nitrite guards less against botulism, less ascorbate or more
 * nitrite leaves more nitrosamines.
 */

const BACON = {
  ...LAW,
  unit: 'ppm',
  basis: FORMS.skinFreeGreenWeight,
  read: 'official',
} as const;

/**
 * The rule gives no tolerance and no weighing is exact. Two percent of the figure is the reading of these rules, so
 * that one division of a scale does not decide.
 */
const AS_WEIGHED = {
  within: 0.02,
  note: 'The rule says "shall be used": less is as wrong as more. It gives no tolerance; the 2 % either way are for weighing and are the reading of these rules. The basis is not written for pumped bacon; the skin-free green weight is that of the other bacon.',
} as const;

const NITRITE_120: Limit = {
  ...BACON,
  ...AS_WEIGHED,
  sense: 'target',
  id: 'us-424.22b1-nitrite-pumped-bacon',
  says: 'Pumped or massaged bacon takes just 120 ppm of sodium nitrite, or 148 ppm of potassium nitrite.',
  numerator: FORMS.nitriteAt120Of148,
  bound: 120e-6,
  citation: '9 CFR 424.22(b)(1)',
};

const NITRITE_100: Limit = {
  ...BACON,
  ...AS_WEIGHED,
  sense: 'target',
  id: 'us-424.22b1iia-nitrite-pumped-bacon',
  says: 'Pumped bacon of the lower option takes just 100 ppm of sodium nitrite, or 123 ppm of potassium nitrite.',
  numerator: FORMS.nitriteAt100Of123,
  bound: 100e-6,
  citation: '9 CFR 424.22(b)(1)(ii)(A)',
};

const PREDETERMINED =
  'The rule wants a predetermined level: the plant fixes one between the two figures and keeps to it.';

const NITRITE_40_TO_80: readonly Limit[] = [
  {
    ...BACON,
    sense: 'min',
    id: 'us-424.22b1iib-nitrite-least',
    says: 'Pumped bacon with a starter takes at least 40 ppm of sodium nitrite, or 49 ppm of potassium nitrite.',
    numerator: FORMS.nitriteAt40Of49,
    bound: 40e-6,
    citation: '9 CFR 424.22(b)(1)(ii)(B)',
    note: PREDETERMINED,
  },
  {
    ...BACON,
    id: 'us-424.22b1iib-nitrite-most',
    says: 'Pumped bacon with a starter takes at most 80 ppm of sodium nitrite, or 99 ppm of potassium nitrite.',
    numerator: FORMS.nitriteAt80Of99,
    bound: 80e-6,
    citation: '9 CFR 424.22(b)(1)(ii)(B)',
    note: PREDETERMINED,
  },
];

const ASCORBATE_550: Limit = {
  ...BACON,
  sense: 'target',
  id: 'us-424.22b1-ascorbate-pumped-bacon',
  says: 'Pumped bacon takes just 550 ppm of sodium ascorbate or erythorbate, weighed without water of crystallization.',
  numerator: FORMS.anhydrousAscorbate,
  bound: 550e-6,
  citation: '9 CFR 424.22(b)(1)',
  within: AS_WEIGHED.within,
  note: `A hydrate goes in by so much more that 550 ppm are there without its water: 600 ppm of the monohydrate. ${AS_WEIGHED.note}`,
};

const SUGAR: Limit = {
  ...LAW,
  sense: 'min',
  id: 'us-424.22b1iib-sugar',
  says: 'Sucrose or another fermentable sugar is at least 0.7 % of bacon with a starter.',
  numerator: FORMS.fermentableSugar,
  basis: FORMS.formula,
  bound: 0.007,
  citation: '9 CFR 424.22(b)(1)(ii)(B)',
  read: 'official',
  note: 'The basis is not written; all ingredients is the stricter reading. Of a syrup only a part ferments.',
};

const NITRITE_IMMERSION: Limit = {
  ...BACON,
  id: 'us-424.22b2-nitrite-immersion-bacon',
  says: 'Immersion cured bacon takes at most 120 ppm of sodium nitrite, or 148 ppm of potassium nitrite.',
  numerator: FORMS.nitriteAt120Of148,
  bound: 120e-6,
  citation: '9 CFR 424.22(b)(2)',
  note: 'Of the actual or estimated skin-free green weight of the bellies; what they take up counts, or all that is there where the brine goes in whole.',
};

const NITRITE_DRY: Limit = {
  ...BACON,
  id: 'us-424.22b3-nitrite-dry-cured-bacon',
  says: 'Dry cured bacon takes at most 200 ppm of sodium nitrite, or 246 ppm of potassium nitrite.',
  numerator: FORMS.nitriteAt200Of246,
  bound: 200e-6,
  citation: '9 CFR 424.22(b)(3)',
  note: 'Of the actual or estimated skin-free green weight of the belly.',
};

const TOCOPHEROLS: Limit = {
  ...BACON,
  id: 'us-424.21c-tocopherols-pumped-bacon',
  says: 'Tocopherols in pumped bacon, against nitrosamines, are at most 500 ppm of the finished product.',
  numerator: FORMS.tocopherols,
  basis: FORMS.finished,
  bound: 500e-6,
  citation: '9 CFR 424.21(c)',
  note: 'Injected or put on the surface. The basis is not written; the finished product, which weighs no more than the bellies, is the stricter reading.',
};

const BELLY: readonly Limit[] = [
  weightOfFresh('319.107', 'Bacon ready for slicing weighs at most 100 % of the fresh uncured bellies.', 1),
  porkOnly('319.107'),
  cutsOnly('319.107', 'pork belly'),
  none(
    'us-319.107-no-mechanically-separated',
    'Bacon is pork belly, so no mechanically separated meat goes in.',
    FORMS.mechanicallySeparatedMeat,
    '9 CFR 319.107',
    { basis: FORMS.greenWeight },
  ),
  none('us-424.21c-no-nitrate-bacon', 'No nitrate goes into bacon.', FORMS.nitrate, '9 CFR 424.21(c)', {
    basis: FORMS.greenWeight,
    unit: 'ppm',
    note: 'The table has nitrate for cured meat products other than bacon.',
  }),
  seasoningOnly('319.107'),
  noBinder('319.107'),
  ...ANTIMICROBIALS,
  NO_ANTIOXIDANTS,
];

const PUMPED: readonly Limit[] = [
  ASCORBATE_550,
  ...ACCELERATORS_BESIDE_ASCORBATE,
  PHOSPHATE_CUTS,
  TOCOPHEROLS,
  ...BELLY,
];

const NITROSAMINES: LaboratoryLimit = {
  id: 'us-424.22b1-nitrosamines',
  says: 'Pumped bacon, fried, shows no nitrosamines that can be confirmed at 10 ppb.',
  citation: '9 CFR 424.22(b)(1)(i)',
  read: 'official',
  note: 'Cooked at 340 degrees F for 3 minutes on each side.',
};

const STARTER: LaboratoryLimit = {
  id: 'us-424.22b1iib-starter',
  says: 'Lactic acid bacteria go in at a level that keeps botulinum toxin from forming.',
  citation: '9 CFR 424.22(b)(1)(ii)(B)',
  read: 'official',
  note: 'Pediococcus or others shown to be equally effective; the level is shown by the plant and its process authority.',
};

const bacon = (
  productClass: string,
  says: string,
  paragraph: string,
  limits: readonly Limit[],
  laboratory: readonly LaboratoryLimit[] = [],
): Standard => ({
  productClass,
  says,
  citation: `9 CFR 319.107 and 424.22${paragraph}`,
  cooking: ['raw'],
  limits,
  ...(laboratory.length > 0 && { laboratory }),
  naming: { name: 'Bacon', species: 'none', leanPair: false, impliesCure: true },
});

export const BACON_STANDARDS: readonly Standard[] = [
  bacon('bacon-pumped', 'Bacon, pumped or massaged', '(b)(1)', [NITRITE_120, ...PUMPED], [NITROSAMINES]),
  bacon(
    'bacon-pumped-100',
    'Bacon, pumped, with 100 ppm of nitrite',
    '(b)(1)(ii)(A)',
    [NITRITE_100, ...PUMPED],
    [NITROSAMINES],
  ),
  bacon(
    'bacon-pumped-with-starter',
    'Bacon, pumped, with less nitrite, sugar and a starter',
    '(b)(1)(ii)(B)',
    [...NITRITE_40_TO_80, SUGAR, ...PUMPED],
    [STARTER, NITROSAMINES],
  ),
  bacon('bacon-immersion', 'Bacon, immersion cured', '(b)(2)', [
    NITRITE_IMMERSION,
    ...ACCELERATORS_CUTS,
    PHOSPHATE_CUTS,
    ...BELLY,
  ]),
  bacon('bacon-dry-cured', 'Bacon, dry cured', '(b)(3)', [
    NITRITE_DRY,
    ...ACCELERATORS_CUTS,
    PHOSPHATE_CUTS,
    ...BELLY,
  ]),
];
