import { carries } from '../../batch/carries.ts';
import { isMeat, type Material, type Species } from '../../batch/material.ts';
import type { Product } from '../../batch/product.ts';
import type { Standard } from '../../rules/standard.ts';
import { type LabelBatch, putIn } from '../put-in.ts';

/** A line of the label with the rule that asks for it. */
export interface Duty {
  readonly text: string;
  readonly citation: string;
}

/** What a name follows from. */
export interface Named {
  readonly product: Product;
  readonly standard: Standard;
  readonly batch: LabelBatch;
  readonly casing?: Material | undefined;
}

/** The name with the lines that must stand with it, and what a person has to look at. */
export interface NameOfMarket {
  readonly name: string;
  readonly qualifiers: readonly Duty[];
  readonly cautions: readonly string[];
}

/** The name of the standard or else the plant's own common name, with "smoked" where it was and the name is silent. */
export function baseName({ product, standard }: Named): string {
  const name = standard.naming.name ?? product.name;
  return product.process.smoked && !/smoked/i.test(name) ? `Smoked ${name}` : name;
}

/** Every species of the meat that went in. */
export function speciesOf({ batch }: Named): ReadonlySet<Species | undefined> {
  const meat = putIn(batch.lines).filter(({ material }) => isMeat(material));
  return new Set(meat.map(({ material }) => material.species));
}

/** How much of the meat came frozen, told by its lots; meat without a lot counts as not frozen. */
export function frozenMeat({ batch }: Named): 'all' | 'some' | 'none' {
  const meat = batch.lines.filter(({ supply }) => isMeat(supply.material));
  const frozen = meat.filter(({ supply }) => supply.lot?.state === 'frozen').length;
  if (frozen === 0) return 'none';
  return frozen === meat.length ? 'all' : 'some';
}

/** Raw product that is sold chilled: there it matters that its meat was frozen before. */
export function isSoldChilledRaw({ product: { process, label } }: Named): boolean {
  return process.cooking === 'raw' && label.storage === 'keep refrigerated';
}

/** Products that look like a cut, joint, slice, portion or carcass; which words say so is own judgement. */
export function looksLikeCut(name: string): boolean {
  return LOOKS_LIKE_CUT.test(name) && !NOT_A_CUT.test(name);
}

const LOOKS_LIKE_CUT =
  /\b(ham|bacon|gammon|loin|tenderloin|fillet|steak|joint|roast|chop|cutlet|breast|shoulder|belly|brisket)s?\b/i;
const NOT_A_CUT = /sausage|burger|mince|chopped|luncheon|pat[eé]|patt(y|ies)|loaf/i;

/** Pieces bound by an enzyme to look like one cut. */
export function isFormed({ product, standard, batch }: Named): boolean {
  return (
    looksLikeCut(standard.naming.name ?? product.name) &&
    putIn(batch.lines).some(({ material }) => carries(material, ['transglutaminase']))
  );
}

export function title(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** 'a, b and c' */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
