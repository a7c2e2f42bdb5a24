import { expect } from 'vitest';
import { spanishOf } from '../../../src/documents/words/desk/in-spanish.ts';

/** Words that no name of the demo plant has, and that tell a sentence which was left half in English. */
const ENGLISH = /\b(?:the|is|are|must|cannot|which|found|at most|at least|holds|asked)\b/;

/** Fails naming the English sentences that have no Spanish, or only half of it. */
export function expectSpanish(sentences: Iterable<string>): void {
  const told = [...new Set(sentences)].map((sentence) => ({ sentence, spanish: spanishOf(sentence) }));
  expect(told.length).toBeGreaterThan(0);
  expect(told.filter(({ spanish }) => spanish === undefined).map(({ sentence }) => sentence)).toEqual([]);
  // What stands in quotation marks or round brackets is quoted: words of a label, a rule, a name.
  const bare = (spanish = '') => spanish.replace(/"[^"]*"|\((?:[^()]|\([^()]*\))*\)/g, '');
  expect(told.filter(({ spanish }) => ENGLISH.test(bare(spanish)))).toEqual([]);
}
