import { useEffect, useState } from 'preact/hooks';
import { ask, newKey, onReach, type ProblemBody, Refused, Unreached } from './ask.ts';
import { keep, kept } from './kept.ts';
import { tellWritten } from './written.ts';

/**
 * Acts of the floor that must not wait for the network: a weight that was poured in is in, whether the cold room has
 * reception or not. They are kept on this device and sent in their order, each under its own key, until the service has
 * answered; one that is refused stays, with the reason, and stops those behind it of the same subject.
 */
export interface Waiting {
  readonly key: string;
  /** What they follow one another in: 'batch 12'. */
  readonly subject: string;
  readonly path: string;
  readonly body: unknown;
  /** When it was done, by this device. */
  readonly at: string;
  readonly refusal?: ProblemBody;
}

const PLACE = 'outbox';
const AGAIN_MS = 3_000;
const listeners = new Set<() => void>();
let isSending = false;

const all = (): readonly Waiting[] => kept<Waiting[]>(PLACE) ?? [];

function write(waiting: readonly Waiting[]): void {
  keep(PLACE, waiting.length === 0 ? undefined : waiting);
  for (const listener of listeners) listener();
}

/** Puts an act at the end and begins to send. @returns its key. */
export function putOut(act: Pick<Waiting, 'subject' | 'path' | 'body'>): string {
  const key = newKey();
  write([...all(), { ...act, key, at: new Date().toISOString() }]);
  void sendAll();
  return key;
}

/** Takes an act that was refused out of the way; its weight was not booked. */
export function giveUp(key: string): void {
  write(all().filter((each) => each.key !== key));
  void sendAll();
}

/** Sends a refused act again with another body: with the reason that was asked for. */
export function putRight(key: string, body: unknown): void {
  write(
    all().map(({ refusal: _, ...each }) =>
      each.key === key ? { ...each, key: newKey(), body } : { ...each, ...(_ && { refusal: _ }) },
    ),
  );
  void sendAll();
}

/** What waits of a subject, in its order. */
export function useOutbox(subject?: string): readonly Waiting[] {
  const [waiting, setWaiting] = useState(all);
  useEffect(() => {
    const look = () => setWaiting(all());
    listeners.add(look);
    look();
    void sendAll();
    return () => {
      listeners.delete(look);
    };
  }, []);
  return subject === undefined ? waiting : waiting.filter((each) => each.subject === subject);
}

async function sendAll(): Promise<void> {
  if (isSending) return;
  isSending = true;
  try {
    for (let next = firstToSend(); next; next = firstToSend()) await sendOne(next);
  } catch (error) {
    if (!(error instanceof Unreached)) throw error;
    setTimeout(() => void sendAll(), AGAIN_MS);
  } finally {
    isSending = false;
  }
}

function firstToSend(): Waiting | undefined {
  const waiting = all();
  const stopped = new Set(waiting.filter(({ refusal }) => refusal).map(({ subject }) => subject));
  return waiting.find(({ subject }) => !stopped.has(subject));
}

async function sendOne({ key, path, body }: Waiting): Promise<void> {
  try {
    await ask({ method: 'POST', path, body, key });
    write(all().filter((each) => each.key !== key));
    tellWritten();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (error.problem.status === 401 || error.problem.status >= 429) throw new Unreached();
    write(all().map((each) => (each.key === key ? { ...each, refusal: error.problem } : each)));
  }
}

// Reception is back: nothing waits for the timer.
onReach((isReached) => {
  if (isReached && !isSending && firstToSend()) void sendAll();
});
