import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { additives, FROM_2025, LAW, none, UNTIL_2025 } from './law.ts';

/**
 * Food additives in meat. Parts per million are of the batch as mixed. Until 9 October 2025 nitrite and nitrate count as
 * their sodium salts, from that day as the ions (Regulation (EU) 2023/2108).
 */

const PPM = { ...LAW, unit: 'ppm', basis: FORMS.formula } as const;

/** Nitrite that may be added, before and after. @param slug as in the ids. */
export function nitriteAdded(slug: string, category: string, ppmSalt: number, ppmIon: number): Limit[] {
  return [
    {
      ...PPM,
      id: `eu-1333-${slug}-nitrite-2025`,
      says: `Nitrite added is at most ${ppmSalt} ppm, as sodium nitrite.`,
      numerator: FORMS.nitriteAsSodiumNitrite,
      bound: ppmSalt / 1e6,
      citation: `${additives(category)}, note (7)`,
      inForce: UNTIL_2025,
    },
    {
      ...PPM,
      id: `eu-1333-${slug}-nitrite`,
      says: `Nitrite added is at most ${ppmIon} ppm, as the ion.`,
      numerator: FORMS.nitriteIon,
      bound: ppmIon / 1e6,
      citation: `${additives(category)}, note (XC); Regulation (EU) 2023/2108`,
      inForce: FROM_2025,
    },
  ];
}

export function nitrateAdded(slug: string, category: string, ppmSalt: number, ppmIon: number): Limit[] {
  return [
    {
      ...PPM,
      id: `eu-1333-${slug}-nitrate-2025`,
      says: `Nitrate added is at most ${ppmSalt} ppm, as sodium nitrate.`,
      numerator: FORMS.nitrateAsSodiumNitrate,
      bound: ppmSalt / 1e6,
      citation: `${additives(category)}, note (7)`,
      inForce: UNTIL_2025,
    },
    {
      ...PPM,
      id: `eu-1333-${slug}-nitrate`,
      says: `Nitrate added is at most ${ppmIon} ppm, as the ion.`,
      numerator: FORMS.nitrateIon,
      bound: ppmIon / 1e6,
      citation: `${additives(category)}, note (XA); Regulation (EU) 2023/2108`,
      inForce: FROM_2025,
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
  citation: `${additives(category)}, note (${note}); Regulation (EU) 2023/2108`,
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
  citation: `${additives(category)}, note (${note}); Regulation (EU) 2023/2108`,
  read: 'official',
  inForce: FROM_2025,
  note: 'No bar to sale by itself.',
});

/**
 * Traditional cures are bounded by what is left alone; what goes in is held to the same figure, which is our reading on
 * the safe side.
 */
export function traditionalNitrite(
  slug: string,
  category: string,
  ppmSalt: number,
  ppmIon: number,
): { readonly limits: Limit[]; readonly laboratory: LaboratoryLimit[] } {
  const SAFE_SIDE =
    'The row bounds what is left; holding what goes in to the same figure is our reading, on the safe side.';
  const says = (ppm: number, as: string) => `Residual nitrite is at most ${ppm} mg/kg, as ${as}.`;
  return {
    limits: nitriteAdded(slug, category, ppmSalt, ppmIon).map((limit, index) => ({
      ...limit,
      citation: `${additives(category)}, note ${index === 0 ? '(39)' : '(XH); Regulation (EU) 2023/2108'}`,
      note: SAFE_SIDE,
    })),
    laboratory: [
      {
        id: `eu-1333-${slug}-residual-nitrite-2025`,
        says: says(ppmSalt, 'sodium nitrite, at the end of production'),
        citation: `${additives(category)}, note (39)`,
        read: 'official',
        inForce: UNTIL_2025,
      },
      {
        id: `eu-1333-${slug}-residual-nitrite`,
        says: says(ppmIon, 'the ion, from all sources through the shelf life'),
        citation: `${additives(category)}, note (XH); Regulation (EU) 2023/2108`,
        read: 'official',
        inForce: FROM_2025,
      },
    ],
  };
}

export const NOT_CURED: Limit = none(
  'eu-1333-no-nitrite',
  'Nitrite and nitrate are not authorised in this category.',
  FORMS.nitriteAndNitrate,
  additives('08.1 and 08.2'),
  { note: '08.2 has them for a closed list of preparations only.' },
);
export const NO_NITRATE: Limit = none(
  'eu-1333-no-nitrate',
  'Nitrate is not authorised in this product.',
  FORMS.nitrate,
  additives('08.2 and 08.3.2'),
);
export const NO_NITRITE: Limit = none(
  'eu-1333-only-nitrate',
  'A product under the row for nitrate alone takes no nitrite.',
  FORMS.nitrite,
  additives('08.3.1, "dry sausages without nitrites added"'),
);

export const PHOSPHATE: Limit = {
  ...LAW,
  id: 'eu-1333-phosphate',
  says: 'Phosphates added are at most 0.5 % of the product, as phosphorus pentoxide.',
  numerator: FORMS.phosphateAsP2O5,
  basis: FORMS.formula,
  bound: 0.005,
  citation: `${additives('08.2, 08.3.1 and 08.3.2')}, notes (1) and (4)`,
  note: 'Written as 5000 mg/kg, E 338 to E 452 alone or together. Meat brings phosphate of its own, which does not count.',
};
export const NO_PHOSPHATE: Limit = none(
  'eu-1333-no-phosphate',
  'Phosphates are authorised in listed meat preparations only.',
  FORMS.phosphate,
  additives('08.2'),
);

export const ERYTHORBIC_ACID: Limit = {
  ...PPM,
  id: 'eu-1333-erythorbic-acid',
  says: 'Erythorbic acid and its sodium salt in cured meat products are at most 500 ppm, as erythorbic acid.',
  numerator: FORMS.asErythorbicAcid,
  bound: 500e-6,
  citation: `${additives('08.3.1 and 08.3.2')}, note (9)`,
  note: 'Ascorbic acid and ascorbates have no figure: as much as is needed.',
};
export const NO_ERYTHORBIC_ACID: Limit = none(
  'eu-1333-no-erythorbic-acid',
  'Erythorbic acid and erythorbate are for cured meat products only.',
  FORMS.asErythorbicAcid,
  additives('08.2'),
);

export const SULFITE: Limit = {
  ...PPM,
  id: 'eu-1333-sulfite',
  says: 'Sulfites from all sources are at most 450 ppm, as sulfur dioxide.',
  numerator: FORMS.sulfurDioxide,
  bound: 450e-6,
  citation: `${additives('08.2')}, notes (1) and (3)`,
  note: 'Above 10 mg/kg they are an allergen to be declared. Seasoning mixes may bring some.',
};
export const NO_SULFITE: Limit = none(
  'eu-1333-no-sulfite',
  'Sulfites are authorised in listed meat preparations only.',
  FORMS.sulfurDioxide,
  additives('08'),
);

export const NO_ANTIOXIDANTS: Limit = none(
  'eu-1333-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ are not authorised in this category.',
  FORMS.antioxidants,
  additives('08'),
  { read: 'from memory' },
);
