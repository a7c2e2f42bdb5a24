import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import {
  type Left,
  NO_NITRATE_WITH_NITRITE,
  NO_NITRITE,
  nitrateAdded,
  nitrateLeft,
  nitriteAdded,
  nitriteLeft,
  residualNitrate,
  residualNitrite,
  SPREADABLE_NITRATE,
} from './additives.ts';
import { additives, LAW } from './law.ts';
import { COOKED, DRIED, product } from './meat-products.ts';
import { READY_TO_EAT_CRITERIA } from './microbiology.ts';

/**
 * Products with nitrite and nitrate rows of their own: dry sausage without nitrite (08.3.1) and traditional cures
 * (08.3.4). Their other additives are those of 08.3.1 and 08.3.2.
 */

const WATER_TO_PROTEIN: Limit = {
  ...LAW,
  unit: 'to 1',
  id: 'eu-1333-08.3.4.3-water-protein',
  says: 'Moisture to protein is less than 1.7 to 1 when the sausage is ripe.',
  numerator: FORMS.finishedWater,
  basis: FORMS.protein,
  bound: 1.7,
  citation: additives('08.3.4.3'),
  note: 'Held as at most 1.7 to 1, at the yield of the process.',
};

/** Dry sausage with nitrate and no nitrite. */
const nitrateSausage = (
  productClass: string,
  says: string,
  ppmSalt: number,
  limits: readonly Limit[] = [],
): Standard =>
  product(
    productClass,
    '08.3.4.3',
    says,
    ['dried'],
    [NO_NITRITE, ...nitrateAdded(productClass, '08.3.4.3', [ppmSalt, 180]), ...limits],
    [residualNitrate(productClass, '08.3.4.3', 95, 'XK'), ...READY_TO_EAT_CRITERIA],
  );

/** A cure bounded by what is left of it alone. */
const residualCure = (
  productClass: string,
  category: string,
  says: string,
  cooking: Standard['cooking'],
  nitrite: Left | undefined,
  nitrate: Left,
): Standard =>
  product(
    productClass,
    category,
    says,
    cooking,
    [...(nitrite?.limits ?? [NO_NITRITE]), ...nitrate.limits],
    [...(nitrite?.laboratory ?? []), ...nitrate.laboratory, ...READY_TO_EAT_CRITERIA],
  );

const IMMERSION = '08.3.4.1';
const DRY = '08.3.4.2';
const OTHER = '08.3.4.3';
const ALL_THREE = '08.3.4.1, 08.3.4.2 and 08.3.4.3';

export const TRADITIONAL_PRODUCTS: readonly Standard[] = [
  product(
    'dried-sausage-without-nitrite',
    '08.3.1',
    'Dry sausage cured with nitrate alone',
    ['dried'],
    [NO_NITRITE, ...nitrateAdded('08.3.1-dry', '08.3.1', [150, 110])],
    [residualNitrate('08.3.1-dry', '08.3.1', 110, 'XF'), ...READY_TO_EAT_CRITERIA],
  ),
  nitrateSausage('rohwurst', 'Salami and Kantwurst without nitrite, ripened for at least 4 weeks', 300, [
    WATER_TO_PROTEIN,
  ]),
  nitrateSausage(
    'long-cured-chorizo',
    'Salchichón and chorizo of long curing without nitrite, ripened for at least 30 days',
    250,
  ),
  nitrateSausage('saucisson-sec', 'Saucisson sec without nitrite, ripened for at least 3 weeks', 250, [
    WATER_TO_PROTEIN,
  ]),
  product(
    'spreadable-raw-sausage',
    OTHER,
    'Spreadable, soft, short-ripened raw sausage (Mettwurst, Teewurst)',
    DRIED,
    [...nitriteAdded('08.3.4.3-spreadable', OTHER, [150, 100], '08.3.1'), ...SPREADABLE_NITRATE],
    [residualNitrite('08.3.4.3-spreadable', OTHER, 50, 'XJ'), ...READY_TO_EAT_CRITERIA],
  ),
  product(
    'vysocina',
    OTHER,
    'Vysočina, selský salám, poličan, lovecký salám, paprikáš and similar',
    ['cooked', 'dried'],
    [...nitriteAdded('vysocina', OTHER, [180, 105]), NO_NITRATE_WITH_NITRITE],
    [residualNitrite('vysocina', OTHER, 50, 'XJ'), ...READY_TO_EAT_CRITERIA],
  ),
  product(
    'svensk-leverpastej',
    OTHER,
    'Svensk leverpastej, svensk julskinka and similar, cooked in the package',
    COOKED,
    [...nitriteAdded('svensk-leverpastej', OTHER, [150, 100], '08.3.2'), NO_NITRATE_WITH_NITRITE],
    [residualNitrite('svensk-leverpastej', OTHER, 50, 'XJ'), ...READY_TO_EAT_CRITERIA],
  ),
  product(
    'filet-de-bacon',
    IMMERSION,
    'Bacon, filet de bacon and similar, immersion cured with nitrite',
    DRIED,
    [...nitriteAdded('filet-de-bacon', IMMERSION, [150, 100]), NO_NITRATE_WITH_NITRITE],
    [residualNitrite('filet-de-bacon', IMMERSION, 50, 'XJ')],
  ),
  product(
    'filet-de-bacon-without-nitrite',
    IMMERSION,
    'Bacon, filet de bacon and similar, immersion cured with nitrate alone',
    DRIED,
    [NO_NITRITE, ...nitrateAdded('filet-de-bacon-without-nitrite', IMMERSION, [250, 180])],
    [residualNitrate('filet-de-bacon-without-nitrite', IMMERSION, 95, 'XK')],
  ),
  residualCure(
    'immersion-cured-bacon',
    IMMERSION,
    'Wiltshire bacon, entremeada, toucinho fumado and similar, immersion cured',
    DRIED,
    nitriteLeft('immersion-cured-bacon', IMMERSION, [175, 105]),
    nitrateLeft('immersion-cured-bacon', IMMERSION, [250, 150]),
  ),
  residualCure(
    'immersion-cured-ham',
    IMMERSION,
    'Wiltshire ham and similar, immersion cured',
    ['raw', 'dried', 'cooked'],
    nitriteLeft('immersion-cured-ham', IMMERSION, [100, 65]),
    nitrateLeft('immersion-cured-ham', IMMERSION, [250, 150]),
  ),
  residualCure(
    'cured-tongue',
    IMMERSION,
    'Cured tongue, immersion cured for at least 4 days and cooked',
    COOKED,
    nitriteLeft('cured-tongue', IMMERSION, [50, 30]),
    nitrateLeft('cured-tongue', IMMERSION, [10, 7]),
  ),
  residualCure(
    'dry-cured-bacon',
    DRY,
    'Dry cured bacon and similar, matured for at least 4 days',
    DRIED,
    nitriteLeft('dry-cured-bacon', DRY, [175, 105]),
    nitrateLeft('dry-cured-bacon', DRY, [250, 150]),
  ),
  residualCure(
    'dry-cured-ham',
    DRY,
    'Dry cured ham, jamón curado, lomo embuchado, presunto and similar',
    DRIED,
    nitriteLeft('dry-cured-ham', DRY, [100, 65]),
    nitrateLeft('dry-cured-ham', DRY, [250, 150]),
  ),
  residualCure(
    'jambon-sec',
    DRY,
    'Jambon sec, jambon sel and similar, without nitrite',
    DRIED,
    undefined,
    nitrateLeft('jambon-sec', DRY, [250, 150]),
  ),
  residualCure(
    'rohschinken',
    ALL_THREE,
    'Rohschinken, immersion cured, dry cured or both',
    DRIED,
    nitriteLeft('rohschinken', ALL_THREE, [50, 30]),
    nitrateLeft('rohschinken', ALL_THREE, [250, 150]),
  ),
  residualCure(
    'jellied-veal',
    OTHER,
    'Jellied veal and brisket, injected and cooked',
    COOKED,
    nitriteLeft('jellied-veal', OTHER, [50, 30]),
    nitrateLeft('jellied-veal', OTHER, [10, 7]),
  ),
];
