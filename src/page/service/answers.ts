import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { type Answered, ask, onReach, Refused, Unreached } from './ask.ts';
import { onWritten } from './written.ts';

export interface Reading<Body> {
  /** The latest answer; it stays while a newer one is asked for. */
  readonly body?: Body;
  readonly version?: number;
  readonly error?: Refused | Unreached;
  readonly isWaiting: boolean;
  readonly again: () => void;
}

/**
 * Reads a path and reads it again after every write of this page, and every so often where that is asked for and the
 * page is looked at. @param path below /v1 with its query; nothing is read while it is undefined.
 */
export function useAnswer<Body>(
  path: string | undefined,
  { everyMs }: { everyMs?: number } = {},
): Reading<Body> {
  const [state, setState] = useState<{
    path?: string;
    answered?: Answered<Body>;
    error?: Refused | Unreached;
  }>({});
  const [count, setCount] = useState(0);
  const again = useCallback(() => setCount((before) => before + 1), []);
  const isAsking = useRef(false);
  useEffect(() => {
    if (path === undefined) return;
    const leaving = new AbortController();
    isAsking.current = true;
    ask<Body>({ path, signal: leaving.signal }).then(
      (answered) => {
        isAsking.current = false;
        setState({ path, answered });
      },
      (error: unknown) => {
        if (leaving.signal.aborted) return;
        isAsking.current = false;
        if (!(error instanceof Refused || error instanceof Unreached)) throw error;
        setState((before) => ({ ...(before.path === path ? before : {}), path, error }));
      },
    );
    return () => leaving.abort();
  }, [path, count]);
  useEffect(() => onWritten(again), [again]);
  useAgainWhenReached(state.error, again);
  useEffect(() => {
    if (everyMs === undefined) return;
    const timer = setInterval(() => {
      // An answer that takes longer than that is waited for: asked anew each time it would never come.
      if (document.visibilityState === 'visible' && !isAsking.current) again();
    }, everyMs);
    return () => clearInterval(timer);
  }, [everyMs, again]);
  const { answered, error } = state.path === path ? state : {};
  return {
    ...(answered && { body: answered.body }),
    ...(answered?.version !== undefined && { version: answered.version }),
    ...(error && { error }),
    isWaiting: path !== undefined && !answered && !error,
    again,
  };
}

interface Shown<Body> {
  /** What was last asked and answered or failed. */
  readonly of?: string;
  /** What the body is the answer to. */
  readonly answers?: string;
  readonly body?: Body;
  readonly error?: Refused | Unreached;
}

export interface Working<Body> {
  readonly body?: Body;
  readonly error?: Refused | Unreached;
  /** Whether the answer shown is not yet that of what is asked now. */
  readonly isWaiting: boolean;
  readonly again: () => void;
}

/**
 * Has the service work something out of what is typed, and again with every change: one request at a time, and of what
 * was typed meanwhile only the latest. The last answer stays until the next is there; where none could be had for what is
 * asked now, an answer to something else does not stand in for it. @param body what is asked; nothing while it is
 * undefined.
 */
export function useWork<Body>(
  path: string,
  body: unknown,
  { withinMs }: { withinMs?: number } = {},
): Working<Body> {
  const wanted = body === undefined ? undefined : JSON.stringify([path, body]);
  const [shown, setShown] = useState<Shown<Body>>({});
  const latest = useRef<string | undefined>(undefined);
  const isBusy = useRef(false);
  const isGone = useRef(false);
  latest.current = wanted;
  const work = useCallback(async () => {
    if (isBusy.current) return;
    isBusy.current = true;
    let done: string | undefined;
    while (latest.current !== undefined && latest.current !== done && !isGone.current) {
      const asked: string = latest.current;
      const [askedPath, askedBody] = JSON.parse(asked);
      const next: Shown<Body> = await ask<Body>({
        method: 'POST',
        path: askedPath,
        body: askedBody,
        ...(withinMs !== undefined && { withinMs }),
      }).then(
        (answered) => ({ of: asked, answers: asked, body: answered.body }),
        (error: unknown) => {
          if (!(error instanceof Refused || error instanceof Unreached)) throw error;
          return { of: asked, error };
        },
      );
      done = asked;
      if (!isGone.current)
        setShown((before) => (next.error && before.answers === asked ? { ...before, ...next } : next));
    }
    isBusy.current = false;
  }, [withinMs]);
  useEffect(() => {
    isGone.current = false;
    return () => {
      isGone.current = true;
    };
  }, []);
  useEffect(() => {
    if (wanted !== undefined) void work();
  }, [wanted, work]);
  useEffect(() => onWritten(() => void (latest.current !== undefined && work())), [work]);
  useAgainWhenReached(shown.of === wanted ? shown.error : undefined, work);
  return {
    ...(shown.body !== undefined && { body: shown.body }),
    ...(shown.error && shown.of === wanted && { error: shown.error }),
    isWaiting: wanted !== undefined && shown.of !== wanted,
    again: () => {
      // Until it is worked out anew, what is shown is not the answer any more.
      setShown(({ of: _, ...before }) => before);
      void work();
    },
  };
}

/** What could not be reached is asked for again as soon as anything else reaches the service. */
function useAgainWhenReached(error: Refused | Unreached | undefined, again: () => void): void {
  useEffect(() => {
    if (!(error instanceof Unreached)) return;
    return onReach((isReached) => {
      if (isReached) again();
    });
  }, [error, again]);
}
