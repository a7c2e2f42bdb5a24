import type { ComponentChildren } from 'preact';
import { createContext } from 'preact';
import { useCallback, useContext, useEffect, useState } from 'preact/hooks';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';

export interface Telling {
  readonly says: string;
  /** How to take it back, as long as it is shown. */
  readonly undo?: () => void;
}

const SHOWN_MS = 8_000;
const ToldContext = createContext<(telling: Telling) => void>(() => undefined);

/** Tells at the foot of the page what was done, with a way to take it back. */
export function useTell(): (telling: Telling) => void {
  return useContext(ToldContext);
}

export function Told({ children }: { readonly children: ComponentChildren }) {
  const t = useWords(COMMON);
  const [telling, setTelling] = useState<Telling>();
  const tell = useCallback((next: Telling) => setTelling(next), []);
  useEffect(() => {
    if (!telling) return;
    const timer = setTimeout(() => setTelling(undefined), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [telling]);
  const { undo } = telling ?? {};
  return (
    <ToldContext.Provider value={tell}>
      {children}
      <div class="told" role="status">
        {telling && (
          <div class="telling">
            <span>{telling.says}</span>
            {undo && (
              <Button
                onClick={() => {
                  undo();
                  setTelling(undefined);
                }}
              >
                {t.undo}
              </Button>
            )}
          </div>
        )}
      </div>
    </ToldContext.Provider>
  );
}
