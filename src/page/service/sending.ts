import { useCallback, useRef, useState } from 'preact/hooks';
import { type Answered, ask, type Method, newKey, Refused, Unreached } from './ask.ts';
import { keep, kept } from './kept.ts';
import { tellWritten } from './written.ts';

export interface Act {
  readonly method?: Exclude<Method, 'GET'>;
  readonly path: string;
  readonly body?: unknown;
  readonly version?: number;
  /** It holds a password: nothing of it is kept on this device. */
  readonly isSecret?: boolean;
}

export interface Sending {
  /** Sends and gives what was answered; undefined when it was refused or not reached, which `error` then says. */
  readonly send: <Body>(act: Act) => Promise<Answered<Body> | undefined>;
  readonly isSending: boolean;
  readonly error?: Refused | Unreached;
  readonly forget: () => void;
}

/**
 * Sends what a form holds. Until an answer came the same act keeps the same key, also over a reload: whatever became of
 * the first try, it is done once. @param name of the form, as with its draft.
 */
export function useSending(name: string): Sending {
  const [error, setError] = useState<Refused | Unreached>();
  const [isSending, setSending] = useState(false);
  const busy = useRef(false);
  const send = useCallback(
    async <Body>(act: Act): Promise<Answered<Body> | undefined> => {
      // A second tap on the button is no second act.
      if (busy.current) return undefined;
      busy.current = true;
      setSending(true);
      setError(undefined);
      try {
        return await sendOnce<Body>(name, act);
      } catch (caught) {
        if (!(caught instanceof Refused || caught instanceof Unreached)) throw caught;
        setError(caught);
        return undefined;
      } finally {
        busy.current = false;
        setSending(false);
      }
    },
    [name],
  );
  return { send, isSending, ...(error && { error }), forget: () => setError(undefined) };
}

/** @throws Refused, Unreached */
export async function sendOnce<Body>(
  name: string,
  { method = 'POST', isSecret = false, ...act }: Act,
): Promise<Answered<Body>> {
  const place = `sending.${name}`;
  const what = JSON.stringify([method, act]);
  const before = kept<{ what: string; key: string }>(place);
  const key = before?.what === what ? before.key : newKey();
  if (!isSecret) keep(place, { what, key });
  try {
    const answered = await ask<Body>({ method, ...act, key });
    keep(place, undefined);
    tellWritten();
    return answered;
  } catch (error) {
    if (error instanceof Refused && error.problem.status < 500) keep(place, undefined);
    throw error;
  }
}
