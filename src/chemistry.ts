import { compare, type Exact, exact, multiply, ratio, ZERO } from './exact.ts';

/**
 * The ways in which rules count one substance: as an ion, as another salt, without its water. Every factor comes
 * from atomic masses; only what regulators fix by decree stands as a figure.
 */

/**
 * Abridged standard atomic weights, grams per mole (IUPAC commission CIAAW, 2021). Na, P and K are the weights of
 * its table to five digits; for the others it prints intervals, and the single figure is from memory, verify.
 */
const ATOMIC_MASS: Readonly<Record<string, number>> = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.99,
  P: 30.974,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
};

type Atoms = Map<string, number>;

const PART = /^([A-Z][a-z]?|\((?:[A-Z][a-z]?\d*)+\))([1-9]\d*)?/;

/**
 * Atoms of a formula such as 'NaNO2', '(NaPO3)6' or, with water of crystallization, 'C6H7NaO6.H2O'.
 * @throws RangeError for a text that is no formula.
 */
function atomsOf(formula: string): Atoms {
  const atoms: Atoms = new Map();
  for (const part of formula.split('.')) {
    let rest = part;
    do {
      const [found = '', what, count] = PART.exec(rest) ?? [];
      if (what === undefined) throw new RangeError(`"${formula}" is no formula; write one such as Na2HPO4`);
      const group: Atoms = what.startsWith('(') ? atomsOf(what.slice(1, -1)) : new Map([[what, 1]]);
      for (const [element, inGroup] of group) {
        atoms.set(element, (atoms.get(element) ?? 0) + inGroup * Number(count ?? 1));
      }
      rest = rest.slice(found.length);
    } while (rest !== '');
  }
  return atoms;
}

/**
 * Grams per mole of a formula.
 * @throws RangeError for an element that is not in the table or a text that is no formula.
 */
export function molarMass(formula: string): number {
  let total = 0;
  for (const [element, count] of atomsOf(formula)) {
    const mass = ATOMIC_MASS[element];
    if (mass === undefined) {
      const known = Object.keys(ATOMIC_MASS).join(', ');
      throw new RangeError(`"${element}" in "${formula}" has no atomic mass here; the elements are ${known}`);
    }
    total += count * mass;
  }
  return round12(total);
}

/** Grams of so many moles of the part that come with a gram of the whole: 0.66679 of NO2 with NaNO2. */
export function massShare(part: string, whole: string, count = 1): number {
  return round12((count * molarMass(part)) / molarMass(whole));
}

/** Factors are kept to 12 digits, so that exact sums downstream stay short. */
function round12(value: number): number {
  return Number(value.toPrecision(12));
}

export const NITRITE_ION_PER_SODIUM_NITRITE = massShare('NO2', 'NaNO2');
export const NITRITE_ION_PER_POTASSIUM_NITRITE = massShare('NO2', 'KNO2');
export const SODIUM_NITRITE_PER_POTASSIUM_NITRITE = massShare('NaNO2', 'KNO2');
export const NITRATE_ION_PER_SODIUM_NITRATE = massShare('NO3', 'NaNO3');
export const NITRATE_ION_PER_POTASSIUM_NITRATE = massShare('NO3', 'KNO3');
export const SODIUM_NITRATE_PER_POTASSIUM_NITRATE = massShare('NaNO3', 'KNO3');
export const ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE = massShare('C6H8O6', 'C6H7NaO6');
export const SODIUM_ERYTHORBATE_PER_MONOHYDRATE = massShare('C6H7NaO6', 'C6H7NaO6.H2O');
export const PHOSPHORUS_PER_P2O5 = massShare('P', 'P2O5', 2);
export const P2O5_PER_DISODIUM_PHOSPHATE = round12(molarMass('P2O5') / (2 * molarMass('Na2HPO4')));
export const DISODIUM_PHOSPHATE_PER_P2O5 = massShare('Na2HPO4', 'P2O5', 2);
export const SO2_PER_SODIUM_METABISULFITE = massShare('SO2', 'Na2S2O5', 2);
export const SODIUM_PER_SALT = massShare('Na', 'NaCl');

/** Collagen is hydroxyproline times 8 (Regulation (EU) 1169/2011, Annex VII part B 17). */
export const COLLAGEN_PER_HYDROXYPROLINE = 8;
/** Wet connective tissue is hydroxyproline times 37, so collagen times 37/8 (guidance note 17 of the Irish authority, 8.1). */
export const CONNECTIVE_TISSUE_PER_COLLAGEN = 37 / 8;
/** "Salt" on a European label is sodium times 2.5 (Regulation (EU) 1169/2011, Annex I 11). */
export const LABEL_SALT_PER_SODIUM = 2.5;
/** Protein is nitrogen times 6.25 (9 CFR 317.309(c)(7); Regulation (EU) 1169/2011, Annex I 10). */
export const PROTEIN_PER_NITROGEN = 6.25;

/** Phosphates of the trade, without water of crystallization. */
export const PHOSPHATE_SALTS = {
  'monosodium phosphate': 'NaH2PO4',
  'disodium phosphate': 'Na2HPO4',
  'trisodium phosphate': 'Na3PO4',
  'monopotassium phosphate': 'KH2PO4',
  'dipotassium phosphate': 'K2HPO4',
  'sodium acid pyrophosphate': 'Na2H2P2O7',
  'tetrasodium pyrophosphate': 'Na4P2O7',
  'tetrapotassium pyrophosphate': 'K4P2O7',
  'sodium tripolyphosphate': 'Na5P3O10',
  'potassium tripolyphosphate': 'K5P3O10',
  'sodium hexametaphosphate': '(NaPO3)6',
} as const;
export type PhosphateSalt = keyof typeof PHOSPHATE_SALTS;

/** Grams of phosphorus pentoxide per gram of a phosphate: half of it for every atom of phosphorus. */
export function p2o5Share(salt: PhosphateSalt): number {
  const formula = PHOSPHATE_SALTS[salt];
  return massShare('P2O5', formula, (atomsOf(formula).get('P') ?? 0) / 2);
}

/** An agent of any strength on a weight: curing salt of 6.25 % nitrite has a strength of 0.0625. */
export interface Dose {
  readonly agentKg: number;
  readonly strengthFraction: number;
  readonly basisKg: number;
}

/**
 * Parts per million that the agent brings on the basis, worked out on exact decimals.
 * @throws RangeError for a basis of nothing.
 */
export function ingoingPpm({ agentKg, strengthFraction, basisKg }: Dose): number {
  const basis = exact(basisKg);
  if (compare(basis, ZERO) <= 0) throw new RangeError(`a basis of ${basisKg} kg has no parts per million`);
  return ratio(multiply(multiply(exact(agentKg), exact(strengthFraction)), MILLION), basis);
}

/**
 * Kilograms of the agent for so many parts per million on the basis.
 * @throws RangeError for an agent without strength.
 */
export function agentKgFor({
  ppm,
  strengthFraction,
  basisKg,
}: Omit<Dose, 'agentKg'> & { readonly ppm: number }): number {
  if (strengthFraction <= 0) throw new RangeError(`a strength of ${strengthFraction} brings nothing`);
  return ratio(multiply(exact(ppm), exact(basisKg)), multiply(exact(strengthFraction), MILLION));
}

const MILLION: Exact = exact(1e6);
