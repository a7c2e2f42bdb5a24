import { TEST_MATERIALS } from '../../helpers/materials.ts';

/** Groups of test materials that the limits of several markets keep out. */

export const idsWhere = (wanted: (material: (typeof TEST_MATERIALS)[number]) => boolean): string[] =>
  TEST_MATERIALS.filter(wanted).map(({ id }) => id);

/** Carcass materials of species other than these. */
export const otherThan = (...species: string[]): string[] =>
  idsWhere((material) => material.species !== undefined && !species.includes(material.species));
export const NOT_MEAT = idsWhere(({ species }) => species === undefined);

export const NITRITES = [
  'sodium-nitrite',
  'potassium-nitrite',
  'cure-6.25',
  'cure-0.6',
  'cure-with-citric-acid',
  'pickle-nitrite',
];
export const NITRATES = ['pickle-nitrate', 'sodium-nitrate', 'potassium-nitrate'];
export const PHOSPHATES = ['sodium-tripolyphosphate', 'sodium-acid-pyrophosphate'];
export const ANTIOXIDANTS = ['BHA', 'BHT', 'propyl-gallate', 'TBHQ', 'BHA-and-BHT', 'BHA-and-citric-acid'];
export const BINDERS = [...idsWhere(({ kind }) => kind === 'binder'), 'mix-with-soy'];
