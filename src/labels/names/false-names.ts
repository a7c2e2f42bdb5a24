import { CURING_AGENTS, carries } from '../../batch/carries.ts';
import { putIn } from '../put-in.ts';
import type { Named } from './named.ts';

/** A word that a name must not bear for what is in the batch. */
interface FalseWord {
  readonly word: RegExp;
  readonly isFalse: (named: Named) => boolean;
  readonly says: string;
}

/** Words that 9 CFR 317.2 and 317.8 keep from a name, as far as the weights tell. */
const FALSE_WORDS: readonly FalseWord[] = [
  {
    word: /\bfresh\b/i,
    isFalse: ({ batch }) => putIn(batch.lines).some(({ material }) => carries(material, CURING_AGENTS)),
    says: '"fresh" must not name what holds nitrite or nitrate (9 CFR 317.8(b)(6))',
  },
  {
    word: /\b(all|pure)\b|100 ?%/i,
    isFalse: ({ batch }) => new Set(putIn(batch.lines).map(({ material }) => material.declaredName)).size > 1,
    says: '"all", "pure" and "100%" must not name what has more than one ingredient (9 CFR 317.8(b)(34))',
  },
  {
    word: /\benhanced\b/i,
    isFalse: () => true,
    says: '"enhanced" must not stand in a name (9 CFR 317.2(e)(2)(v))',
  },
];

/** What is false about the plant's own name, each as a caution. */
export function falseWords(named: Named): string[] {
  const name = named.standard.naming.name ?? named.product.name;
  return FALSE_WORDS.filter(({ word, isFalse }) => word.test(name) && isFalse(named)).map(
    ({ says }) => `The name ${name}: ${says}.`,
  );
}
