import { FORMS } from '../../rules/forms.ts';
import type { Limit, Read } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import {
  ANTIMICROBIALS,
  CURING_ACIDS,
  CURING_ACIDS_GENOA,
  NITRITE_FOUND_COMMINUTED,
  PHOSPHATE_PRODUCT,
} from './additives.ts';
import { ANTIOXIDANTS_DRIED_MEAT, ANTIOXIDANTS_DRY, NO_ANTIOXIDANTS, TOCOPHEROLS } from './antioxidants.ts';
import { SAUSAGE_BINDERS } from './binders.ts';
import { CURING } from './cure.ts';
import { none } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';
import { POULTRY_AT_MOST_HALF } from './poultry.ts';
import { UNCOOKED } from './uncooked-sausage.ts';

/**
 * Dry and semi-dry sausage and jerky. 9 CFR has no standard for them (subparts I and J of part 319 are reserved): their
 * names rest on a ratio of moisture to protein in labeling policy. The ratio says what a product is called and proves
 * nothing about its safety: water activity, pH and the process authority of the plant decide that.
 */

const NO_PROOF =
  'A ratio for the name and no proof of safety: water activity, pH and the process authority of the plant decide.';

const ratio = (
  name: string,
  product: string,
  bound: number,
  read: Read,
  citation: string,
  more = '',
): Limit => ({
  ...LAW,
  id: `us-mpr-${name}`,
  says: `Moisture to protein in ${product} is at most ${bound} to 1.`,
  numerator: FORMS.finishedWater,
  basis: FORMS.protein,
  bound,
  unit: 'to 1',
  citation,
  read,
  note: `${NO_PROOF}${more === '' ? '' : ` ${more}`}`,
});

const POLICY_BOOK = 'agency standards and labeling policy book';
const TRAINING = 'agency training text on shelf-stable products, as quoted';

const WATER_ACTIVITY: LaboratoryLimit = {
  id: 'us-317.17c-not-preserved',
  says: 'Without nitrite or nitrate, and unless commercially sterile, the label says "Not Preserved" but for a pH of at most 4.6, a water activity of at most 0.92 or a brine of at least 10 %.',
  citation: '9 CFR 317.17(c)(2), (3)',
  read: 'official',
};

const SEMI_DRY_PH: LaboratoryLimit = {
  id: 'us-semi-dry-ph-shelf-stable',
  says: 'Semi-dry sausage kept without refrigeration has a pH of at most 5.0.',
  citation: TRAINING,
  read: 'secondary',
  note: 'Beside a ratio of moisture to protein of 3.1 to 1. The pH of 5.3 of the fermentation is another figure.',
};

const FERMENTATION_PH: LaboratoryLimit = {
  id: 'us-semi-dry-ph-fermented',
  says: 'Semi-dry sausage reaches a pH of at most 5.3 in the fermentation.',
  citation: TRAINING,
  read: 'secondary',
};

const JERKY_WATER_ACTIVITY: LaboratoryLimit = {
  id: 'us-jerky-water-activity',
  says: 'Jerky kept without refrigeration has a water activity of at most 0.85.',
  citation: 'agency guideline on jerky',
  read: 'from memory',
  note: 'Not read: verify, and ask the process authority of the plant.',
};

const NITRITE: readonly LaboratoryLimit[] = [NITRITE_FOUND_COMMINUTED, WATER_ACTIVITY];

const DRIED: readonly Limit[] = [POULTRY_AT_MOST_HALF, ...UNCOOKED, ...CURING];
const DRY: readonly Limit[] = [...DRIED, ...SAUSAGE_BINDERS, ...ANTIOXIDANTS_DRY];
/** BHA and its like are listed for dry sausage, not for semi-dry. */
const SEMI_DRY: readonly Limit[] = [...DRIED, ...CURING_ACIDS, NO_ANTIOXIDANTS, TOCOPHEROLS];

export const DRY_SAUSAGE: readonly Standard[] = [
  {
    productClass: 'dry-sausage',
    says: 'Dry sausage, such as hard salami',
    citation: '9 CFR 319.140 and agency labeling policy',
    cooking: ['dried'],
    limits: [
      ratio('dry-sausage', 'shelf-stable dry sausage', 1.9, 'secondary', TRAINING),
      ...DRY,
      ...CURING_ACIDS,
    ],
    laboratory: NITRITE,
    naming: { species: 'none', leanPair: false },
  },
  {
    productClass: 'pepperoni',
    says: 'Pepperoni',
    citation: '9 CFR 319.140 and agency labeling policy',
    cooking: ['dried'],
    limits: [
      ratio('pepperoni', 'pepperoni', 1.6, 'from memory', POLICY_BOOK, 'No text was found: verify.'),
      ...DRY,
      ...CURING_ACIDS,
    ],
    laboratory: NITRITE,
    naming: { name: 'Pepperoni', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'genoa-salami',
    says: 'Genoa salami',
    citation: '9 CFR 319.140, 424.21(c) and agency labeling policy',
    cooking: ['dried'],
    limits: [
      ratio('genoa-salami', 'Genoa salami', 2.3, 'secondary', POLICY_BOOK, 'Read in an encyclopedia.'),
      ...DRY,
      ...CURING_ACIDS_GENOA,
    ],
    laboratory: NITRITE,
    naming: { name: 'Genoa Salami', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'semi-dry-sausage',
    says: 'Semi-dry sausage, such as lebanon bologna or cervelat',
    citation: '9 CFR 319.140 and agency labeling policy',
    cooking: ['dried', 'cooked'],
    limits: [
      ratio('semi-dry-sausage', 'shelf-stable semi-dry sausage', 3.1, 'secondary', TRAINING),
      ...SEMI_DRY,
      ...SAUSAGE_BINDERS,
    ],
    laboratory: [...NITRITE, SEMI_DRY_PH, FERMENTATION_PH],
    naming: { species: 'none', leanPair: false },
  },
  {
    productClass: 'thuringer',
    says: 'Thuringer',
    citation: '9 CFR 319.140 and agency labeling policy',
    cooking: ['dried', 'cooked'],
    limits: [ratio('thuringer', 'thuringer', 3.7, 'secondary', TRAINING), ...SEMI_DRY, ...SAUSAGE_BINDERS],
    laboratory: [...NITRITE, FERMENTATION_PH],
    naming: { name: 'Thuringer', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'farmer-summer-sausage',
    says: 'Farmer summer sausage',
    citation: '9 CFR 319.140 and agency labeling policy',
    cooking: ['dried', 'cooked'],
    limits: [
      ratio('farmer-summer-sausage', 'farmer summer sausage', 1.9, 'secondary', POLICY_BOOK),
      none(
        'us-farmer-summer-sausage-no-extender',
        'No extender goes into farmer summer sausage.',
        FORMS.anyBinder,
        POLICY_BOOK,
        { read: 'secondary', note: 'The policy book classes it as cervelat and permits no extenders.' },
      ),
      ...SEMI_DRY,
    ],
    laboratory: [...NITRITE, FERMENTATION_PH],
    naming: { name: 'Farmer Summer Sausage', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'jerky',
    says: 'Jerky, chopped and formed or whole',
    citation: '9 CFR 319.1, 424.21(c) and agency labeling policy',
    cooking: ['dried', 'cooked'],
    limits: [
      ratio('jerky', 'jerky', 0.75, 'secondary', TRAINING),
      POULTRY_AT_MOST_HALF,
      ...MECHANICALLY_SEPARATED,
      ...CURING,
      ...CURING_ACIDS,
      PHOSPHATE_PRODUCT,
      ...ANTIMICROBIALS,
      ...ANTIOXIDANTS_DRIED_MEAT,
    ],
    laboratory: [...NITRITE, JERKY_WATER_ACTIVITY],
    naming: { name: 'Jerky', species: 'lead', leanPair: false },
  },
];
