import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { section } from './law.ts';

/**
 * Least protein of prepared meat. Meat protein may fall 1.5 points below what is asked of all protein (B.14.030), and
 * gelatin counts for neither.
 */

const LEAST = { ...LAW, sense: 'min', basis: FORMS.finished } as const;
const points = (percent: number) => Number((percent / 100).toPrecision(12));

type Source = Pick<Limit, 'citation' | 'read'> & Partial<Pick<Limit, 'note'>>;

/** @param id as in the id, for example 'fresh-sausage'. @param name how the sentence calls the product. */
export const totalProtein = (id: string, name: string, percent: number, source: Source): Limit => ({
  ...LEAST,
  id: `ca-${id}-total-protein`,
  says: `${name} holds at least ${percent} % of protein, gelatin not counted.`,
  numerator: FORMS.proteinWithoutGelatin,
  bound: points(percent),
  ...source,
});

export const meatProtein = (id: string, name: string, percent: number, source: Source): Limit => ({
  ...LEAST,
  id: `ca-${id}-meat-protein`,
  says: `${name} holds at least ${percent} % of protein of meat.`,
  numerator: FORMS.meatProtein,
  bound: points(percent),
  ...source,
});

/** Both, where the second follows from the first by the rule of 1.5 points. */
export const proteins = (id: string, name: string, percent: number, number: string): Limit[] => [
  totalProtein(id, name, percent, { citation: section(number), read: 'official' }),
  meatProtein(id, name, percent - 1.5, { citation: section(`${number} and B.14.030`), read: 'official' }),
];
