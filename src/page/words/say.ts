import { useEffect, useState } from 'preact/hooks';
import { useDevice } from '../shell/device.ts';

/** Sentences that the service writes come in English; for a Spanish reader they are put into Spanish here, on display alone. */
type Say = (sentence: string) => string;

const asIs: Say = (sentence) => sentence;
let spanish: Say | undefined;
let loading: Promise<void> | undefined;

function loadSpanish(): Promise<void> {
  loading ??= import('../../documents/words/words.ts').then(({ wordsIn }) => {
    spanish = wordsIn('es').told;
  });
  return loading;
}

/** What the service wrote, in the language of this device; what is not known in it stays as it is. */
export function useSay(): Say {
  const { language } = useDevice();
  const [, setLoaded] = useState(spanish !== undefined);
  useEffect(() => {
    if (language === 'es' && !spanish) void loadSpanish().then(() => setLoaded(true));
  }, [language]);
  return language === 'es' ? (spanish ?? asIs) : asIs;
}
