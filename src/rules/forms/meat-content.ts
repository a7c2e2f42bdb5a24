import { CONNECTIVE_TISSUE_PER_COLLAGEN } from '../../chemistry.ts';
import type { Form, Selector, WorstOf } from '../form.ts';
import { form, mass, part, scaled } from './build.ts';

/** What makes meat "meat" on a European ingredient list: how much fat and collagen it may hold. */
export interface MeatDefinition {
  readonly id: string;
  /** In the trade's words: 'declarable pork'. */
  readonly says: string;
  readonly meat: Selector;
  /** Most fat, as a fraction of the meat. */
  readonly fat: number;
  /** Most collagen, as a fraction of the meat protein. */
  readonly collagenOfProtein: number;
}

/**
 * Declarable meat: the meat less the fat and the connective tissue beyond what the definition allows. With meat M,
 * fat F, protein P, collagen C and the limits L of fat and l of collagen:
 * excess connective tissue X = 4.625 (C − l P) / (1 − l), excess fat (F − L (M − X)) / (1 − L), neither below 0.
 * Each "not below 0" makes two forms, of which the least counts, so that a minimum of meat stays linear.
 * (Steps of UK guidance of 2003 on the labelling of meat products, p. 61; factor 37/8 of the Irish guidance note 17,
 * 8.1; how excess collagen is taken from the protein, from memory, verify.)
 */
export function declarableMeat(definition: MeatDefinition): WorstOf {
  const { id, says } = definition;
  const { used, tissue, fat, fatOfTissue } = excessForms(definition);
  const less = (name: string, what: string, ...excess: readonly Form[]): Form =>
    form(
      `${id}-${name}`,
      `${says}, ${what}`,
      ...used.terms,
      ...excess.flatMap(({ terms }) => scaled(terms, -1)),
    );
  return {
    id,
    says,
    worstOf: [
      less('whole', 'nothing in excess'),
      less('less-tissue', 'less excess connective tissue', tissue),
      less('less-fat', 'less excess fat', fat),
      less('less-both', 'less excess fat and connective tissue', tissue, fat, fatOfTissue),
    ],
  };
}

/**
 * The steps as forms: the meat used, its connective tissue beyond the limit, its fat beyond the limit, and what that
 * grows by where there is excess tissue. An excess below 0 is none.
 */
export function excessForms({ id, says, meat, fat: most, collagenOfProtein: share }: MeatDefinition) {
  const tissue = scaled(
    [part('collagen', 1, meat), part('protein', -share, meat)],
    CONNECTIVE_TISSUE_PER_COLLAGEN / (1 - share),
  );
  const fat = scaled([part('fat', 1, meat), mass(meat, -most)], 1 / (1 - most));
  return {
    used: form(`${id}-used`, says, mass(meat)),
    tissue: form(`${id}-tissue`, 'excess connective tissue', ...tissue),
    fat: form(`${id}-fat`, 'excess fat', ...fat),
    fatOfTissue: form(
      `${id}-fat-of-tissue`,
      'excess fat by excess tissue',
      ...scaled(tissue, most / (1 - most)),
    ),
  };
}
