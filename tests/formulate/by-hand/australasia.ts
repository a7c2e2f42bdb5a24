import { type Brings, isKind, type Meaning, minus, share, whole } from './quantities.ts';

const flesh: Brings = (supply) => whole(isKind(supply, 'skeletal meat', 'cheek meat', 'head meat'));
const fatOfFlesh: Brings = (supply) =>
  isKind(supply, 'skeletal meat', 'cheek meat', 'head meat') ? share(supply.composition.fatFraction) : 0n;

/** Forms that only the rules of Australia and New Zealand count. */
export const AUSTRALASIA: Readonly<Record<string, Meaning>> = {
  meatFlesh: flesh,
  fatFreeMeatFlesh: minus(flesh, fatOfFlesh),
};
