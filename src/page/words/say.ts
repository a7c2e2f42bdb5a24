import { useEffect, useState } from 'preact/hooks';
import type { TranslationAnswer } from '../../api/contract/translation.ts';
import { type DecimalMark, sentenceWithMark } from '../figures/number.ts';
import { ask, Refused, Unreached } from '../service/ask.ts';
import { useDevice } from '../shell/device.ts';

/**
 * What the service writes comes in English; for a Spanish reader the page asks the service for the Spanish, many sentences at
 * once, and remembers it. Until it is there, or where the service has none, the English stands. For display alone.
 */
type Say = (sentence: string) => string;

const asIs: Say = (sentence) => sentence;
/** As many as the service takes at once, and as long as it takes one. */
const MOST_AT_ONCE = 500;
const LONGEST = 4000;

const spanish = new Map<string, string>();
const wanted = new Set<string>();
const listeners = new Set<() => void>();
/** How often Spanish has come: whoever drew before the last time draws anew. */
let timesCome = 0;
let isAsking = false;

const inSpanish: Say = (sentence) => {
  const known = spanish.get(sentence);
  if (known !== undefined || sentence.trim() === '' || sentence.length > LONGEST) return known ?? sentence;
  wanted.add(sentence);
  // After what is being drawn has named all that it wants.
  if (wanted.size === 1) setTimeout(() => void fetchWanted());
  return sentence;
};

async function fetchWanted(): Promise<void> {
  if (isAsking) return;
  isAsking = true;
  try {
    while (wanted.size > 0) {
      const sentences = [...wanted].slice(0, MOST_AT_ONCE);
      const { body } = await ask<TranslationAnswer>({
        method: 'POST',
        path: '/translations',
        body: { language: 'es', sentences },
      });
      for (const [index, sentence] of sentences.entries()) {
        spanish.set(sentence, body.sentences[index] ?? sentence);
        wanted.delete(sentence);
      }
      timesCome += 1;
      for (const listener of listeners) listener();
    }
  } catch (error) {
    // English is better than nothing; what is drawn next asks again.
    if (!(error instanceof Refused || error instanceof Unreached)) throw error;
    wanted.clear();
  } finally {
    isAsking = false;
  }
}

/** One for each language and decimal mark, so that it stays the same from drawing to drawing. */
const SAYING: Readonly<Record<'en' | 'es', Readonly<Record<DecimalMark, Say>>>> = {
  en: { '.': asIs, ',': (sentence) => sentenceWithMark(sentence, ',') },
  es: { '.': inSpanish, ',': (sentence) => sentenceWithMark(inSpanish(sentence), ',') },
};

/** What the service wrote, in the language of this device; what is not known in it stays as it is. */
export function useSay(): Say {
  const { language, mark } = useDevice();
  const [, setDrawn] = useState(timesCome);
  useEffect(() => {
    if (language !== 'es') return;
    const drawAnew = () => setDrawn(timesCome);
    listeners.add(drawAnew);
    // It may have come between the drawing and now.
    drawAnew();
    return () => {
      listeners.delete(drawAnew);
    };
  }, [language]);
  return SAYING[language][mark];
}
