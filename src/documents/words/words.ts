import type { Language } from '../../batch/plant.ts';
import { type Phrase, SPANISH } from './spanish.ts';
import { SPANISH_SENTENCES } from './spanish-sentences.ts';

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

/** Places in braces of a text. */
export function placesIn(text: string): string[] {
  return [...text.matchAll(PLACE)].map(([, name = '']) => name);
}

const PLACE = /\{(\w+)\}/g;

function filled(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(PLACE, (place, name: string) => String(values[name] ?? place));
}

/** Places whose fillings are words of the catalog themselves. */
const TRANSLATED: readonly string[] = ['allergens', 'basis', 'tests', 'lotCount'];

interface Pattern {
  readonly fits: RegExp;
  readonly names: readonly string[];
  readonly spanish: string;
}

const PATTERNS: readonly Pattern[] = SPANISH_SENTENCES.map(([english, spanish]) => ({
  fits: new RegExp(
    `^${english
      .split(PLACE)
      .map((part, index) => (index % 2 === 0 ? part.replace(/[$()*+.?[\\\]^{|}]/g, '\\$&') : '(.+?)'))
      .join('')}$`,
    's',
  ),
  names: placesIn(english),
  spanish,
}));

function toldInSpanish(sentence: string): string {
  if (Object.hasOwn(SPANISH, sentence)) return SPANISH[sentence as Phrase];
  for (const { fits, names, spanish } of PATTERNS) {
    const found = fits.exec(sentence);
    if (!found) continue;
    const values = names.map((name, index): [string, string] => {
      const value = found[index + 1] ?? '';
      return [name, TRANSLATED.includes(name) ? value.split(', ').map(toldInSpanish).join(', ') : value];
    });
    return filled(spanish, Object.fromEntries(values));
  }
  return sentence;
}
