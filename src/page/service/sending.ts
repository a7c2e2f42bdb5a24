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

/** Nothing that was tried under a name and not answered is tried again: what was typed was thrown away. */
export function forgetSending(name: string): void {
  keep(placeOf(name), undefined);
}

const placeOf = (name: string): string => `sending.${name}`;

/**
 * The key of a try that was not answered is kept for the next one even where what is sent has changed since: the first
 * may have arrived, and then the service says so instead of booking both.
 * @throws Refused, Unreached
 */
export async function sendOnce<Body>(
  name: string,
  { method = 'POST', isSecret = false, ...act }: Act,
): Promise<Answered<Body>> {
  const place = placeOf(name);
  const key = (isSecret ? undefined : kept<{ key: string }>(place)?.key) ?? newKey();
  if (!isSecret) keep(place, { key });
  try {
    const answered = await ask<Body>({ method, ...act, key });
    keep(place, undefined);
    tellWritten();
    return answered;
  } catch (error) {
    if (error instanceof Refused && isSettled(error)) keep(place, undefined);
    if (error instanceof Refused && KEY_USED.test(error.message)) {
      tellWritten();
      throw new Refused({ ...error.problem, type: ARRIVED_BEFORE });
    }
    throw error;
  }
}

const KEY_USED = /^The Idempotency-Key /;
/** The kind of problem that says: an earlier try, of which no answer came, did arrive. */
export const ARRIVED_BEFORE = 'arrived-before';

/** Whether the answer says what became of every try: whoever was not let in was not told. */
const isSettled = ({ problem: { status } }: Refused): boolean =>
  status < 500 && status !== 401 && status !== 403 && status !== 429;
