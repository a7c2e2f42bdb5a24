import type { Supply } from '../../../src/batch/lot.ts';
import type { Process } from '../../../src/batch/product.ts';

/**
 * The trade's quantities worked out a second time, in whole numbers of fixed grains and by the words of each
 * limit, sharing no arithmetic with the product: a mass is a count of 1e-18 kg, a share of 1e-20.
 */
const MASS_GRAINS = 18;
const SHARE_GRAINS = 20;

/** A decimal as a whole number of grains of 10^-decimals. */
export function grains(value: number | string, decimals: number): bigint {
  const [mantissa = '', power = '0'] = String(value).toLowerCase().split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  const missing = decimals - fraction.length + Number(power);
  const digits = BigInt(whole + fraction);
  if (missing >= 0) return digits * 10n ** BigInt(missing);
  const step = 10n ** BigInt(-missing);
  if (digits % step !== 0n) throw new RangeError(`${value} is finer than 1e-${decimals}`);
  return digits / step;
}

export const share = (value: number) => grains(value, SHARE_GRAINS);
export const WHOLE = share(1);

/** One avoirdupois pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C). */
const GRAINS_PER_UNIT: Readonly<Record<string, bigint>> = {
  kg: grains(1, 15),
  g: grains(1, 12),
  lb: grains('0.45359237', 15),
  oz: grains('0.45359237', 15) / 16n,
};

/** Grains of 1e-18 kg in a printed weight; its text may have up to three decimals. */
export function printedGrains(text: string, unit: string): bigint {
  return grains(text, 3) * (GRAINS_PER_UNIT[unit] as bigint);
}

export const massGrains = (massKg: number) => grains(massKg, MASS_GRAINS);
export const inKg = (mass: bigint) => Number(mass) / 1e18;

export function divisionGrains({ division, unit }: { division: string; unit: string }): bigint {
  return printedGrains(division, unit);
}

/** How much of something one kilogram of a supply brings, in grains of 1e-20. */
export type Brings = (supply: Supply, process: Process) => bigint;
/** What a form means; several where the one that stands worst counts. */
export type Meaning = Brings | readonly Brings[];

/** A quantity counted at a ratio of two whole numbers. */
export const times =
  (brings: Brings, numerator: bigint, denominator: bigint): Brings =>
  (supply, process) =>
    (brings(supply, process) * numerator) / denominator;
export const plus =
  (...parts: readonly Brings[]): Brings =>
  (supply, process) =>
    parts.reduce((sum, part) => sum + part(supply, process), 0n);
export const minus =
  (from: Brings, what: Brings): Brings =>
  (supply, process) =>
    from(supply, process) - what(supply, process);

const CARCASS = new Set<string>([
  'skeletal meat',
  'cheek meat',
  'head meat',
  'heart meat',
  'tongue meat',
  'liver',
  'other byproduct',
  'mechanically separated',
  'partially defatted tissue',
  'fat',
  'skin',
]);
const BIRDS = ['chicken', 'turkey', 'duck', 'goose'];

export const isCarcass = ({ material }: Supply) => CARCASS.has(material.kind);
export const isKind = (supply: Supply, ...kinds: string[]) => kinds.includes(supply.material.kind);
export const isBird = ({ material }: Supply) => BIRDS.includes(material.species ?? '');
export const whole = (yes: boolean) => (yes ? WHOLE : 0n);
export const holds = ({ material }: Supply, substance: keyof Supply['material']['substances']) =>
  share(material.substances[substance] ?? 0);

export const finished: Brings = (_, { yieldFraction }) => share(yieldFraction);
export const fatLeft: Brings = ({ composition }, { fatLossFraction }) =>
  share(composition.fatFraction) - share(fatLossFraction);
export const waterLeft: Brings = ({ composition }, { yieldFraction, fatLossFraction }) =>
  share(composition.waterFraction) - (WHOLE - share(yieldFraction) - share(fatLossFraction));
export const carries =
  (...names: (keyof Supply['material']['substances'])[]): Brings =>
  (supply) =>
    names.reduce((sum, name) => sum + holds(supply, name), 0n);
export const all: Brings = () => WHOLE;
export const meat: Brings = (supply) => whole(isCarcass(supply));
export const protein: Brings = ({ composition }) => share(composition.proteinFraction);
export const cost: Brings = ({ costPerKg }) => share(costPerKg);
