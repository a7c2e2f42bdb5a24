import { useCallback, useState } from 'preact/hooks';
import { keep, kept } from './kept.ts';
import { forgetSending } from './sending.ts';

export interface Draft<Value> {
  readonly value: Value;
  /** Takes a new value, or what changes of it. */
  readonly set: (change: Partial<Value>) => void;
  /** Back to what it was at first; nothing of it is kept. */
  readonly clear: () => void;
  /** Whether something typed earlier was found again, or was typed now. */
  readonly isTouched: boolean;
}

/**
 * Input that is not sent yet: kept on this device with every change, so that neither a reload nor a lost connection
 * takes it. Never for passwords. @param name unique to the form and what it is about.
 */
export function useDraft<Value extends object>(name: string, initial: Value): Draft<Value> {
  const place = `draft.${name}`;
  const [state, setState] = useState(() => ({ place, typed: kept<Partial<Value>>(place) }));
  const typed = state.place === place ? state.typed : kept<Partial<Value>>(place);
  if (state.place !== place) setState({ place, typed });
  const set = useCallback(
    (change: Partial<Value>) => {
      setState((before) => {
        const next = { ...(before.place === place ? before.typed : kept<Partial<Value>>(place)), ...change };
        keep(place, next);
        return { place, typed: next };
      });
    },
    [place],
  );
  const clear = useCallback(() => {
    keep(place, undefined);
    forgetSending(name);
    setState({ place, typed: undefined });
  }, [place, name]);
  return { value: { ...initial, ...typed }, set, clear, isTouched: typed !== undefined };
}
