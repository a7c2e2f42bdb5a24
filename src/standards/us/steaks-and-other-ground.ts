import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { PHOSPHATE_PRODUCT, UNCURED } from './additives.ts';
import { NONE_LISTED } from './antioxidants.ts';
import { CHEEK_MEAT } from './ground.ts';
import { finishedFat, noByproducts, none, seasoningOnly } from './law.ts';
import { NO_MECHANICALLY_SEPARATED } from './mechanically-separated.ts';

/** Fabricated steak, 9 CFR 319.15(d), and ground meat of the species that have no standard. */

const STEAK = '9 CFR 319.15(d)';

const FABRICATED_STEAK: readonly Limit[] = [
  finishedFat('319.15d', 'A fabricated steak', 30, STEAK),
  none('us-319.15d-beef-or-veal-only', 'Only beef and veal go in.', FORMS.notBeefOrVeal, STEAK, {
    note: 'Each must be of the species indicated on the label; the paragraph reaches to similar products.',
  }),
  CHEEK_MEAT,
  noByproducts('319.15d', { note: 'The paragraph names meat and added fat.' }),
  none('us-319.15d-no-added-water', 'No water is added.', FORMS.waterPutIn, STEAK, {
    note: 'A liquid that brings water counts as water.',
  }),
  none(
    'us-319.15d-no-extender',
    'No extender goes in, and of the binders only transglutaminase enzyme.',
    FORMS.binderOtherThanTransglutaminase,
    STEAK,
    {
      note: 'The paragraph bans extenders and names one binder; the carrier of the enzyme counts as extender.',
    },
  ),
  {
    ...LAW,
    id: 'us-319.15d-transglutaminase',
    says: 'Transglutaminase enzyme in fabricated steak is at most 65 ppm.',
    numerator: FORMS.transglutaminase,
    basis: FORMS.formula,
    bound: 65e-6,
    unit: 'ppm',
    citation: STEAK,
    read: 'official',
    note: 'The paragraph writes no basis; 319.140 takes the product formulation for sausage.',
  },
  none(
    'us-319.15d-no-antimicrobial',
    'No antimicrobial is added: the paragraph names meat, fat and one binder.',
    FORMS.antimicrobials,
    '9 CFR 319.15(d) and 319.1(b)',
  ),
  seasoningOnly('319.15d', STEAK),
  NO_MECHANICALLY_SEPARATED,
  PHOSPHATE_PRODUCT,
  ...UNCURED,
  ...NONE_LISTED,
];

/** Ground pork and the like have no section of their own: what follows is labeling policy. */
const POLICY = 'agency labeling policy on ground meat';
const FROM_MEMORY = {
  read: 'from memory',
  note: 'No section of 9 CFR part 319 speaks of it and the policy was not read: verify.',
} as const;

const policyNone = (name: string, says: string, numerator: Limit['numerator'], basis = FORMS.formula) =>
  none(`us-ground-meat-${name}`, says, numerator, POLICY, { ...FROM_MEMORY, basis });

const GROUND_MEAT: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-ground-meat-fat',
    says: 'Ground meat of one species holds at most 30 % fat.',
    numerator: FORMS.finishedFat,
    basis: FORMS.finished,
    bound: 0.3,
    citation: POLICY,
    ...FROM_MEMORY,
  },
  policyNone('no-byproducts', 'No byproducts go in.', FORMS.byproducts, FORMS.greenWeight),
  policyNone('no-heart-or-tongue', 'Heart and tongue meat do not go in.', FORMS.organMeat, FORMS.greenWeight),
  policyNone(
    'no-mechanically-separated',
    'No mechanically separated meat goes in under the plain name.',
    FORMS.mechanicallySeparatedMeat,
    FORMS.greenWeight,
  ),
  policyNone('no-added-water', 'No water is added under the plain name.', FORMS.waterPutIn),
  policyNone('no-binder', 'No binder or extender is added under the plain name.', FORMS.anyBinder),
  policyNone('no-phosphate', 'No phosphate is added under the plain name.', FORMS.phosphate),
  policyNone('no-antimicrobial', 'No antimicrobial is added under the plain name.', FORMS.antimicrobials),
  policyNone('seasoning-only', `No ${FORMS.notSeasoning.says} go in.`, FORMS.notSeasoning),
  ...UNCURED,
  ...NONE_LISTED,
];

const groundMeat = (species: string, others: Limit['numerator']): Standard => ({
  productClass: `ground-${species}`,
  says: `Ground ${species} (no standard of its own; labeling policy)`,
  citation: '9 CFR 319.1 and agency labeling policy',
  cooking: ['raw'],
  limits: [
    policyNone(`${species}-only`, `Only ${species} goes in.`, others, FORMS.greenWeight),
    ...GROUND_MEAT,
  ],
  naming: {
    name: `Ground ${species.charAt(0).toUpperCase()}${species.slice(1)}`,
    species: 'in name',
    leanPair: true,
  },
});

export const STEAKS_AND_OTHER_GROUND: readonly Standard[] = [
  {
    productClass: 'fabricated-steak',
    says: 'Fabricated beef or veal steak',
    citation: STEAK,
    cooking: ['raw'],
    limits: FABRICATED_STEAK,
    naming: { name: 'Steak, Chopped, Shaped', species: 'lead', leanPair: false },
  },
  groundMeat('pork', FORMS.notPork),
  groundMeat('veal', FORMS.notVeal),
  groundMeat('lamb', FORMS.notLamb),
];
