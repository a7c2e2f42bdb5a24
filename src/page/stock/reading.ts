import { useCallback, useEffect, useMemo, useState } from 'preact/hooks';
import { type Reading, useAnswer } from '../service/answers.ts';
import { ask, Refused, Unreached } from '../service/ask.ts';
import { onWritten } from '../service/written.ts';
import { useHere } from '../shell/plant.ts';
import type { Known } from './lot-facts.ts';
import type { LotAnswer, MaterialAnswer, TrimItem } from './stock-types.ts';

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

export const useLots = (query: string | undefined): Reading<readonly LotAnswer[]> =>
  useAll<LotAnswer>(query === undefined ? undefined : `/lots${query}`);

/** What lots are read with, once for the section: there are many materials, and they seldom change. */
export function useKnown(): Reading<Known> {
  const { today } = useHere().plant;
  const materials = useAll<MaterialAnswer>('/materials', true);
  const trim = useAnswer<{ items: TrimItem[] }>('/trim');
  const body = useMemo(
    () =>
      materials.body &&
      trim.body && {
        materials: new Map(materials.body.map((material) => [material.id, material])),
        trim: trim.body.items,
        today,
      },
    [materials.body, trim.body, today],
  );
  const error = materials.error ?? trim.error;
  return {
    ...(body && { body }),
    ...(error && { error }),
    isWaiting: materials.isWaiting || trim.isWaiting,
    again: () => {
      materials.again();
      trim.again();
    },
  };
}
