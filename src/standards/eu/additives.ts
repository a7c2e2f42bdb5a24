import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { additives, FROM_2025, LAW, none, UNTIL_2025 } from './law.ts';

/**
 * Food additives in meat. What "may be added during the manufacturing" is of the batch as mixed; every other maximum
 * is of the food as marketed (Article 11(3)). Until 9 October 2025 nitrite and nitrate count as their sodium salts,
 * from that day as the ions (Regulation (EU) 2023/2108).
 */

const ADDED = { ...LAW, unit: 'ppm', basis: FORMS.formula } as const;
const MARKETED = { ...LAW, unit: 'ppm', basis: FORMS.finished } as const;
const AS_MARKETED = 'Article 11(3): of the food as marketed.';
const MIXED = 'Of the batch as mixed: our reading of "may be added during the manufacturing".';
const NEW_RULES = 'Regulation (EU) 2023/2108';

/** A figure before and from 9 October 2025, on sodium salt and on ion. */
type Figures = readonly [ppmSalt: number, ppmIon: number];

/** Nitrite that may be added. @param before the category that held until then, where it was another. */
export function nitriteAdded(
  slug: string,
  category: string,
  [ppmSalt, ppmIon]: Figures,
  before = category,
): Limit[] {
  return [
    {
      ...ADDED,
      id: `eu-1333-${slug}-nitrite-2025`,
      says: `Nitrite added is at most ${ppmSalt} ppm, as sodium nitrite.`,
      numerator: FORMS.nitriteAsSodiumNitrite,
      bound: ppmSalt / 1e6,
      citation: `${additives(before)}, note (7)`,
      inForce: UNTIL_2025,
      note: MIXED,
    },
    {
      ...ADDED,
      id: `eu-1333-${slug}-nitrite`,
      says: `Nitrite added is at most ${ppmIon} ppm, as the ion.`,
      numerator: FORMS.nitriteIon,
      bound: ppmIon / 1e6,
      citation: `${additives(category)}, note (XC); ${NEW_RULES}`,
      inForce: FROM_2025,
      note: MIXED,
    },
  ];
}

const nitrateBefore = (slug: string, category: string, ppmSalt: number): Limit => ({
  ...ADDED,
  id: `eu-1333-${slug}-nitrate-2025`,
  says: `Nitrate added is at most ${ppmSalt} ppm, as sodium nitrate.`,
  numerator: FORMS.nitrateAsSodiumNitrate,
  bound: ppmSalt / 1e6,
  citation: `${additives(category)}, note (7)`,
  inForce: UNTIL_2025,
  note: MIXED,
});

export function nitrateAdded(slug: string, category: string, [ppmSalt, ppmIon]: Figures): Limit[] {
  return [
    nitrateBefore(slug, category, ppmSalt),
    {
      ...ADDED,
      id: `eu-1333-${slug}-nitrate`,
      says: `Nitrate added is at most ${ppmIon} ppm, as the ion.`,
      numerator: FORMS.nitrateIon,
      bound: ppmIon / 1e6,
      citation: `${additives(category)}, note (XA); ${NEW_RULES}`,
      inForce: FROM_2025,
      note: MIXED,
    },
  ];
}

/** What may be left, from all sources, over the whole shelf life. */
export const residualNitrite = (
  slug: string,
  category: string,
  ppmIon: number,
  note: string,
): LaboratoryLimit => ({
  id: `eu-1333-${slug}-residual-nitrite`,
  says: `Residual nitrite from all sources is at most ${ppmIon} mg/kg through the shelf life, as the ion.`,
  citation: `${additives(category)}, note (${note}); ${NEW_RULES}`,
  read: 'official',
  inForce: FROM_2025,
});

export const residualNitrate = (
  slug: string,
  category: string,
  ppmIon: number,
  note: string,
): LaboratoryLimit => ({
  id: `eu-1333-${slug}-residual-nitrate`,
  says: `Residual nitrate from all sources above ${ppmIon} mg/kg, as the ion, must be investigated.`,
  citation: `${additives(category)}, note (${note}); ${NEW_RULES}`,
  read: 'official',
  inForce: FROM_2025,
  note: 'No bar to sale by itself.',
});

/** A row for what is left alone: what a laboratory finds, and the only thing a formula can show of it. */
export interface Left {
  readonly limits: Limit[];
  readonly laboratory: LaboratoryLimit[];
}

const NOT_MORE_THAN_LEFT =
  'The row bounds what is left, which a laboratory shows. Held on what goes in, it is kept even if nothing is used up: our reading, stricter than the row.';

export function nitriteLeft(slug: string, category: string, figures: Figures): Left {
  return left('nitrite', slug, category, figures);
}
export function nitrateLeft(slug: string, category: string, figures: Figures): Left {
  return left('nitrate', slug, category, figures);
}

function left(what: 'nitrite' | 'nitrate', slug: string, category: string, [ppmSalt, ppmIon]: Figures): Left {
  const before = `${additives(category)}, note (39)`;
  const after = `${additives(category)}, note (${what === 'nitrite' ? 'XH' : 'XI'}); ${NEW_RULES}`;
  const says = (ppm: number, as: string) =>
    `No more ${what} goes in than may be left: at most ${ppm} ppm of the finished product, as ${as}.`;
  return {
    limits: [
      {
        ...MARKETED,
        id: `eu-1333-${slug}-${what}-2025`,
        says: says(ppmSalt, `sodium ${what}`),
        numerator: what === 'nitrite' ? FORMS.nitriteAsSodiumNitrite : FORMS.nitrateAsSodiumNitrate,
        bound: ppmSalt / 1e6,
        citation: before,
        inForce: UNTIL_2025,
        note: NOT_MORE_THAN_LEFT,
      },
      {
        ...MARKETED,
        id: `eu-1333-${slug}-${what}`,
        says: says(ppmIon, 'the ion'),
        numerator: what === 'nitrite' ? FORMS.nitriteIon : FORMS.nitrateIon,
        bound: ppmIon / 1e6,
        citation: after,
        inForce: FROM_2025,
        note: NOT_MORE_THAN_LEFT,
      },
    ],
    laboratory: [
      {
        id: `eu-1333-${slug}-residual-${what}-2025`,
        says: `Residual ${what} is at most ${ppmSalt} mg/kg at the end of production, as sodium ${what}.`,
        citation: before,
        read: 'official',
        inForce: UNTIL_2025,
      },
      {
        id: `eu-1333-${slug}-residual-${what}`,
        says: `Residual ${what} from all sources is at most ${ppmIon} mg/kg through the shelf life, as the ion.`,
        citation: after,
        read: 'official',
        inForce: FROM_2025,
      },
    ],
  };
}

export const NOT_CURED: Limit = none(
  'eu-1333-no-nitrite',
  'Nitrite and nitrate are not authorised in this product.',
  FORMS.nitriteAndNitrate,
  additives('08.2'),
  { note: '08.2 has nitrite for a closed list of preparations only, and no nitrate at all.' },
);
export const NO_NITRATE: Limit = none(
  'eu-1333-no-nitrate',
  'Nitrate is not authorised in this product.',
  FORMS.nitrate,
  additives('08.2 and 08.3.2'),
);
export const NO_NITRATE_WITH_NITRITE: Limit = none(
  'eu-1333-08.3.4-no-nitrate',
  'A traditional product under a row for nitrite takes no nitrate.',
  FORMS.nitrate,
  additives('08.3.4.1 and 08.3.4.3'),
  { note: 'The rows for nitrate are for products without added nitrite, note (40), or for other products.' },
);
/** Until then these sausages stood under 08.3.1, which has both. */
export const SPREADABLE_NITRATE: readonly Limit[] = [
  nitrateBefore('08.3.4.3-spreadable', '08.3.1', 150),
  {
    ...none(
      'eu-1333-08.3.4.3-spreadable-no-nitrate',
      'Spreadable raw sausage under its own row takes no nitrate.',
      FORMS.nitrate,
      `${additives('08.3.4.3')}; ${NEW_RULES}`,
    ),
    inForce: FROM_2025,
  },
];
export const NO_NITRITE: Limit = none(
  'eu-1333-only-nitrate',
  'A product under a row for nitrate alone takes no nitrite.',
  FORMS.nitrite,
  `${additives('08.3.1, 08.3.4.1 to 08.3.4.3')}, "without nitrites added" and note (40)`,
);

export const PHOSPHATE: Limit = {
  ...MARKETED,
  unit: 'percent',
  id: 'eu-1333-phosphate',
  says: 'Phosphates added are at most 0.5 % of the finished product, as phosphorus pentoxide.',
  numerator: FORMS.phosphateAsP2O5,
  bound: 0.005,
  citation: `${additives('08.2, 08.3.1 and 08.3.2')}, notes (1) and (4)`,
  note: `Written as 5000 mg/kg, E 338 to E 452 alone or together. ${AS_MARKETED} Meat brings phosphate of its own, which does not count.`,
};
export const NO_PHOSPHATE: Limit = none(
  'eu-1333-no-phosphate',
  'Phosphates are authorised in listed meat preparations only.',
  FORMS.phosphate,
  additives('08.2'),
);

export const ERYTHORBIC_ACID: Limit = {
  ...MARKETED,
  id: 'eu-1333-erythorbic-acid',
  says: 'Erythorbic acid and its sodium salt in cured meat products are at most 500 ppm, as erythorbic acid.',
  numerator: FORMS.asErythorbicAcid,
  bound: 500e-6,
  citation: `${additives('08.3.1 and 08.3.2')}, note (9)`,
  note: `${AS_MARKETED} Ascorbic acid and ascorbates have no figure: as much as is needed.`,
};
export const NO_ERYTHORBIC_ACID: Limit = none(
  'eu-1333-no-erythorbic-acid',
  'Erythorbic acid and erythorbate are for cured and preserved meat products only.',
  FORMS.asErythorbicAcid,
  additives('08.2'),
);

export const SULFITE: Limit = {
  ...MARKETED,
  id: 'eu-1333-sulfite',
  says: 'Sulfites from all sources are at most 450 ppm, as sulfur dioxide.',
  numerator: FORMS.sulfurDioxide,
  bound: 450e-6,
  citation: `${additives('08.2')}, notes (1) and (3)`,
  note: `${AS_MARKETED} Above 10 mg/kg they are an allergen to be declared. Seasoning mixes may bring some.`,
};
export const NO_SULFITE: Limit = none(
  'eu-1333-no-sulfite',
  'Sulfites are authorised in listed meat preparations only.',
  FORMS.sulfurDioxide,
  additives('08.2, 08.3.1 and 08.3.2'),
  { note: 'Up to 10 mg/kg from all sources does not count as present; none is put in.' },
);

export const NO_ANTIOXIDANTS: Limit = none(
  'eu-1333-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ are not authorised in this product.',
  FORMS.antioxidants,
  additives('08.2, 08.3.1 and 08.3.2'),
  { note: 'Dehydrated meat alone has a row for gallate, TBHQ and BHA.' },
);

export const NO_GROUP_ONE: Limit = none(
  'eu-1333-08.2-no-group-one',
  'Glucono delta lactone, fumaric acid, tocopherols and methyl cellulose are not listed for meat preparations.',
  FORMS.additivesOfGroupOne,
  additives('08.2'),
  { note: '08.2 lists every additive by name; the general group of additives is not among them.' },
);
export const NO_FUMARIC_ACID: Limit = none(
  'eu-1333-08.3-no-fumaric-acid',
  'Fumaric acid is not listed for meat products.',
  FORMS.fumaricAcid,
  additives('08.3.1 and 08.3.2'),
  {
    read: 'from memory',
    note: 'It has no row of its own; that the general group leaves it out is from memory.',
  },
);
