import type { Language } from '../../batch/plant.ts';
import { type Phrase, SPANISH, WHOLE_PHRASES } from './spanish.ts';
import { SPANISH_SENTENCES } from './spanish-sentences.ts';
import { filled, teller } from './teller.ts';

export type { Phrase } from './spanish.ts';

/** What the floor reads, in one language. */
export interface Words {
  readonly language: Language;
  /** A phrase of the documents themselves. @param values for its places in braces. */
  readonly say: (phrase: Phrase, values?: Readonly<Record<string, string | number>>) => string;
  /** A sentence that stands in a document as data; one that the catalog does not have stays as it is. */
  readonly told: (sentence: string) => string;
}

export function wordsIn(language: Language): Words {
  const inLanguage = (phrase: Phrase) => (language === 'es' ? SPANISH[phrase] : phrase);
  return {
    language,
    say: (phrase, values = {}) => filled(inLanguage(phrase), values),
    told: language === 'es' ? toldInSpanish : (sentence) => sentence,
  };
}

const spanishOf = teller([...SPANISH_SENTENCES, ...WHOLE_PHRASES]);

function toldInSpanish(sentence: string): string {
  return spanishOf(sentence) ?? sentence;
}
