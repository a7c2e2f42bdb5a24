import type { RulesAnswer } from '../../api/contract/resources.ts';
import { matching } from '../figures/search.ts';

type Standard = RulesAnswer['standards'][number];
export type Limit = Standard['limits'][number];

/** A limit with the classes that it holds for. */
export interface FoundLimit {
  readonly limit: Limit;
  readonly classes: readonly Standard[];
}

/** Each limit of a market once, with all the classes that have it. */
export function limitsOnce(standards: readonly Standard[]): readonly FoundLimit[] {
  const found = new Map<string, { limit: Limit; classes: Standard[] }>();
  for (const standard of standards) {
    for (const limit of standard.limits) {
      const known = found.get(limit.id);
      if (known) known.classes.push(standard);
      else found.set(limit.id, { limit, classes: [standard] });
    }
  }
  return [...found.values()];
}

/** Limits that say, cite or count what is typed, in the language of the page or in English. */
export const searched = (
  limits: readonly FoundLimit[],
  typed: string,
  say: (sentence: string) => string,
): readonly FoundLimit[] =>
  matching(limits, typed, ({ limit: { id, says, numerator, basis, citation } }) =>
    [say(says), says, numerator, basis, citation, id].join(' '),
  );
