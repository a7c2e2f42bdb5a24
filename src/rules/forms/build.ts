import type { MaterialKind, Substance } from '../../batch/material.ts';
import { MEAT_KINDS } from '../../batch/material.ts';
import type { Constituent, Form, FormTerm, ProcessFactor, Selector } from '../form.ts';

/** The words in which forms are written down. */

export const form = (id: string, says: string, ...terms: readonly FormTerm[]): Form => ({ id, says, terms });

/** Weight of the chosen materials, as they go in or as the process leaves it. */
export const mass = (from?: Selector, times = 1, process?: ProcessFactor): FormTerm => ({
  of: 'mass',
  times,
  ...(from && { from }),
  ...(process && { process }),
});

/** Weight of a constituent, such as fat, of the chosen materials. */
export const part = (constituent: Constituent, times = 1, from?: Selector): FormTerm => ({
  of: { constituent },
  times,
  ...(from && { from }),
});

/** Weight of a substance that the chosen materials carry. */
export const carried = (name: Substance, times = 1, from?: Selector): FormTerm => ({
  of: { substance: name },
  times,
  ...(from && { from }),
});

/** Mass of the chosen materials, as a form of its own. */
export function massOf(id: string, says: string, from: Selector): Form {
  return form(id, says, mass(from));
}

/** The same terms, each so many times over. */
export const scaled = (terms: readonly FormTerm[], times: number): FormTerm[] =>
  terms.map((term) => ({ ...term, times: round12(term.times * times) }));

/** Computed factors are kept to 12 digits, far below any table, so that exact sums stay short. */
export const round12 = (value: number): number => Number(value.toPrecision(12));

export const MEAT: Selector = { kinds: MEAT_KINDS };
/** What a process took out of rework is no ingredient, and least of all one that makes up for another. */
export const NO_INGREDIENT = 'process loss';
export const NOT_MEAT: Selector = { exceptKinds: [...MEAT_KINDS, NO_INGREDIENT] };
export const kinds = (...wanted: MaterialKind[]): Selector => ({ kinds: wanted });
