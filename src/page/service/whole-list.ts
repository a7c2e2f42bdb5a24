import { useCallback, useEffect, useState } from 'preact/hooks';
import type { Reading } from './answers.ts';
import { ask, Refused, Unreached } from './ask.ts';
import { onWritten } from './written.ts';

/** Lists of the service as a whole: fetched page by page, shown when all is there. */

const AT_ONCE = 500;

interface Page<Item> {
  readonly total: number;
  readonly items: readonly Item[];
  readonly next?: string;
}

async function allOf<Item>(path: string, signal: AbortSignal): Promise<Item[]> {
  const items: Item[] = [];
  const more = path.includes('?') ? '&' : '?';
  for (let from = ''; ; ) {
    const { body } = await ask<Page<Item>>({ path: `${path}${more}limit=${AT_ONCE}${from}`, signal });
    items.push(...body.items);
    if (items.length >= body.total || body.items.length === 0) return items;
    from = body.next === undefined ? `&offset=${items.length}` : `&after=${encodeURIComponent(body.next)}`;
  }
}

/**
 * All items of a list. Nothing is read while the path is undefined.
 * @param isSteady read again only when asked to, not after every write of this page.
 */
export function useAll<Item>(path: string | undefined, isSteady = false): Reading<readonly Item[]> {
  const [state, setState] = useState<{ path?: string; body?: readonly Item[]; error?: Refused | Unreached }>(
    {},
  );
  const [count, setCount] = useState(0);
  const again = useCallback(() => setCount((before) => before + 1), []);
  useEffect(() => {
    if (path === undefined) return;
    const leaving = new AbortController();
    allOf<Item>(path, leaving.signal).then(
      (body) => setState({ path, body }),
      (error: unknown) => {
        if (leaving.signal.aborted) return;
        if (!(error instanceof Refused || error instanceof Unreached)) throw error;
        setState((before) => ({ ...(before.path === path ? before : {}), path, error }));
      },
    );
    return () => leaving.abort();
  }, [path, count]);
  useEffect(() => (isSteady ? undefined : onWritten(again)), [again, isSteady]);
  const { body, error } = state.path === path ? state : {};
  return {
    ...(body && { body }),
    ...(error && { error }),
    isWaiting: path !== undefined && !body && !error,
    again,
  };
}
