import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { useWords } from '../words/words.ts';
import { RECORDS } from './words.ts';

/** Where in a list that is read page by page somebody is: what each page before started after. */
export interface Pages {
  readonly after: number | undefined;
  readonly isFirst: boolean;
  readonly older: (next: number) => void;
  readonly newer: () => void;
}

/** @param of what the list is asked for: with another question it starts anew. */
export function usePages(of: string): Pages {
  const [state, setState] = useState<{ of: string; trail: readonly number[] }>({ of, trail: [] });
  const trail = state.of === of ? state.trail : [];
  return {
    after: trail.at(-1),
    isFirst: trail.length === 0,
    older: (next) => setState({ of, trail: [...trail, next] }),
    newer: () => setState({ of, trail: trail.slice(0, -1) }),
  };
}

/** To the pages before and after; nothing where all is on one. */
export function PageButtons({ pages, next }: { readonly pages: Pages; readonly next: number | undefined }) {
  const t = useWords(RECORDS);
  if (pages.isFirst && next === undefined) return null;
  return (
    <div class="row">
      {!pages.isFirst && <Button onClick={pages.newer}>{t.newer}</Button>}
      {next !== undefined && <Button onClick={() => pages.older(next)}>{t.older}</Button>}
    </div>
  );
}
