import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { additives, LAW, none } from './law.ts';

/**
 * Additives of the retained text: the figures of the European Union before October 2025, as sodium salts. That no later
 * text of Great Britain changed them is from memory.
 */

const PPM = { ...LAW, unit: 'ppm', basis: FORMS.formula } as const;
const LATER = 'Read in retained texts up to 2023; that they still stand is from memory.';

const nitrite = (slug: string, category: string, ppm: number): Limit => ({
  ...PPM,
  id: `gb-1333-${slug}-nitrite`,
  says: `Nitrite added is at most ${ppm} ppm, as sodium nitrite.`,
  numerator: FORMS.nitriteAsSodiumNitrite,
  bound: ppm / 1e6,
  citation: `${additives(category)}, note (7)`,
  read: 'from memory',
  note: LATER,
});

export const NITRITE_RAW = nitrite('08.3.1', '08.3.1', 150);
export const NITRITE_COOKED = nitrite('08.3.2', '08.3.2', 150);
export const NITRITE_STERILISED = nitrite('08.3.2-sterilised', '08.3.2', 100);

export const NITRATE_RAW: Limit = {
  ...PPM,
  id: 'gb-1333-08.3.1-nitrate',
  says: 'Nitrate added is at most 150 ppm, as sodium nitrate.',
  numerator: FORMS.nitrateAsSodiumNitrate,
  bound: 150e-6,
  citation: `${additives('08.3.1')}, note (7)`,
  read: 'from memory',
  note: LATER,
};

/** Traditional cures: what is left is bounded; what goes in is held to the same figure. */
export function traditional(slug: string, category: string, ppm: number) {
  const limit: Limit = {
    ...nitrite(slug, category, ppm),
    citation: `${additives(category)}, note (39)`,
    note: `The row bounds what is left; holding what goes in to it is our reading, on the safe side. ${LATER}`,
  };
  const nitrate: Limit = {
    ...NITRATE_RAW,
    id: `gb-1333-${slug}-nitrate`,
    says: 'Nitrate put in is at most 250 ppm, as sodium nitrate.',
    bound: 250e-6,
    citation: `${additives(category)}, notes (39) and (59)`,
    note: limit.note ?? LATER,
  };
  const laboratory: LaboratoryLimit[] = [
    {
      id: `gb-1333-${slug}-residual-nitrite`,
      says: `Residual nitrite at the end of production is at most ${ppm} mg/kg, as sodium nitrite.`,
      citation: `${additives(category)}, note (39)`,
      read: 'official',
    },
    {
      id: `gb-1333-${slug}-residual-nitrate`,
      says: 'Residual nitrate at the end of production is at most 250 mg/kg, as sodium nitrate.',
      citation: `${additives(category)}, notes (39) and (59)`,
      read: 'official',
    },
  ];
  return { limits: [limit, nitrate], laboratory };
}

export const NOT_CURED: Limit = none(
  'gb-1333-no-nitrite',
  'Nitrite and nitrate are not authorised in fresh products outside a closed list.',
  FORMS.nitriteAndNitrate,
  additives('08.1 and 08.2'),
);
export const NO_NITRATE: Limit = none(
  'gb-1333-no-nitrate',
  'Nitrate is not authorised in this product.',
  FORMS.nitrate,
  additives('08.3.2'),
);
export const PHOSPHATE: Limit = {
  ...LAW,
  id: 'gb-1333-phosphate',
  says: 'Phosphates added are at most 0.5 % of the product, as phosphorus pentoxide.',
  numerator: FORMS.phosphateAsP2O5,
  basis: FORMS.finished,
  bound: 0.005,
  citation: `${additives('08')}, notes (1) and (4)`,
  note: 'Of the food as marketed (Article 11(3)). In fresh products for breakfast sausage and burgers with at least 4 % vegetables or cereal only.',
};
export const NO_PHOSPHATE: Limit = none(
  'gb-1333-no-phosphate',
  'Phosphates are authorised in listed meat preparations only.',
  FORMS.phosphate,
  additives('08.2'),
);
export const SULFITE: Limit = {
  ...PPM,
  basis: FORMS.finished,
  id: 'gb-1333-sulfite',
  says: 'Sulfites from all sources are at most 450 ppm, as sulfur dioxide.',
  numerator: FORMS.sulfurDioxide,
  bound: 450e-6,
  citation: `${additives('08.2')}, notes (1) and (3)`,
  note: 'Breakfast sausage, and burgers with at least 4 % vegetables or cereal mixed in. Above 10 mg/kg an allergen.',
};
export const NO_SULFITE: Limit = none(
  'gb-1333-no-sulfite',
  'Sulfites are authorised in listed meat preparations only.',
  FORMS.sulfurDioxide,
  additives('08'),
);
export const NO_ANTIOXIDANTS: Limit = none(
  'gb-1333-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ are not authorised in this product.',
  FORMS.antioxidants,
  additives('08'),
  {
    read: 'from memory',
    note: 'Read in the text of the European Union of 2026; the retained one was not read for them.',
  },
);
export const ERYTHORBIC_ACID: Limit = {
  ...PPM,
  basis: FORMS.finished,
  id: 'gb-1333-erythorbic-acid',
  says: 'Erythorbic acid and its sodium salt in cured meat products are at most 500 ppm, as erythorbic acid.',
  numerator: FORMS.asErythorbicAcid,
  bound: 500e-6,
  citation: `${additives('08.3')}, note (9)`,
};
export const NO_ERYTHORBIC_ACID: Limit = none(
  'gb-1333-no-erythorbic-acid',
  'Erythorbic acid and erythorbate are for cured meat products only.',
  FORMS.asErythorbicAcid,
  additives('08.2'),
);
