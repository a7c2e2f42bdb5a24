import { useEffect, useState } from 'preact/hooks';
import { ask, newKey, onReach, type ProblemBody, Refused, Unreached } from './ask.ts';
import { isOnlyHere, keep, kept, keptNames } from './kept.ts';
import { onWritten, tellWritten } from './written.ts';

/**
 * Acts of the floor that must not wait for the network: a weight that was poured in is in, whether the cold room has
 * reception or not. They are kept on this device and sent in their order, each under its own key, until the service has
 * answered; one that is refused stays, with the reason, and stops those behind it of the same subject. They are sent
 * under the name of whoever did them, and of nobody else: a key holds for its person alone, so that another's session
 * would book a second time what has arrived already, and under the wrong name.
 */
export interface Waiting {
  readonly key: string;
  /** What they follow one another in: 'batch 12'. */
  readonly subject: string;
  readonly path: string;
  readonly body: unknown;
  readonly by: Person;
  /** The version of the subject that was seen when it was done. */
  readonly seenAt: number;
  /** Where in the page it is seen to: '#/batches/12/weigh'. */
  readonly place: string;
  readonly refusal?: ProblemBody;
}

interface Person {
  readonly id: string;
  readonly name: string;
}

/** Each act has a place of its own in what is kept: two tabs of one device never write over one another. */
const PLACE = 'outbox.';
/** Until it is tried again after no answer came, and after the service answered that it cannot take it now. */
const AGAIN_MS = 3_000;
const LATER_MS = 10_000;
/** How long an answer is waited for: a network that swallows everything must not hold the others up. */
const ANSWERED_WITHIN_MS = 15_000;

const listeners = new Set<() => void>();
let isSending = false;
let timer: ReturnType<typeof setTimeout> | undefined;
/** Whether the service answers but does not take what waits: it is not tried again with every other answer. */
let isPutOff = false;

interface Placed {
  readonly place: string;
  readonly act: Waiting;
}

function all(): Placed[] {
  return keptNames(PLACE)
    .sort()
    .flatMap((place) => {
      const act = kept<Waiting>(place);
      return act ? [{ place, act }] : [];
    });
}

function write(place: string, act: Waiting | undefined): void {
  keep(place, act);
  for (const listener of listeners) listener();
}

const placeOf = (key: string): string | undefined => all().find(({ act }) => act.key === key)?.place;

/** Puts an act at the end and begins to send. @returns its key. */
export function putOut(act: Omit<Waiting, 'key' | 'refusal'>): string {
  const key = newKey();
  const last = Number(keptNames(PLACE).sort().at(-1)?.slice(PLACE.length).split('.')[0] ?? 0);
  write(`${PLACE}${String(last + 1).padStart(9, '0')}.${key}`, { ...act, key });
  void sendAll();
  return key;
}

/** Takes an act that was refused, or is another's, out of the way; its weight was not booked by it. */
export function giveUp(key: string): void {
  const place = placeOf(key);
  if (place !== undefined) write(place, undefined);
  void sendAll();
}

/** Sends a refused act again with another body: with the reason that was asked for, by whoever gives it. */
export function putRight(key: string, body: unknown, by: Person): void {
  const found = all().find(({ act }) => act.key === key);
  if (found) {
    const { refusal: _, ...act } = found.act;
    write(found.place, { ...act, key: newKey(), body, by: { id: by.id, name: by.name } });
  }
  void sendAll();
}

const waitingNow = (): readonly Waiting[] => all().map(({ act }) => act);

/** What waits of a subject, in its order. */
export function useOutbox(subject?: string): readonly Waiting[] {
  const [waiting, setWaiting] = useState(waitingNow);
  useEffect(() => {
    const look = () => setWaiting(waitingNow());
    listeners.add(look);
    // Another tab of this device has put something out, or has sent it.
    addEventListener('storage', look);
    look();
    void sendAll();
    return () => {
      listeners.delete(look);
      removeEventListener('storage', look);
    };
  }, []);
  return subject === undefined ? waiting : waiting.filter((each) => each.subject === subject);
}

/** Whether something waits that would be gone if the page were left: this browser keeps nothing. */
export const isUnsentOnlyHere = (): boolean => isOnlyHere(PLACE);

/** The browser asks before the page is left, as long as that is so. */
export function useLeavingAsks(): void {
  useEffect(() => {
    const leave = (event: Event) => {
      if (isUnsentOnlyHere()) event.preventDefault();
    };
    addEventListener('beforeunload', leave);
    return () => removeEventListener('beforeunload', leave);
  }, []);
}

/** The service answers, but not so that it could be sent: too much at once, not now, another person. */
class NotNow extends Error {}

async function sendAll(): Promise<void> {
  if (isSending || all().every(({ act }) => act.refusal)) return;
  isSending = true;
  clearTimeout(timer);
  isPutOff = false;
  try {
    while (await sendNext());
  } catch (error) {
    if (!(error instanceof Unreached || error instanceof NotNow)) throw error;
    isPutOff = error instanceof NotNow;
    timer = setTimeout(() => void sendAll(), isPutOff ? LATER_MS : AGAIN_MS);
  } finally {
    isSending = false;
  }
}

/** @returns whether there may be more. @throws NotNow, Unreached */
async function sendNext(): Promise<boolean> {
  const waiting = all();
  const stopped = new Set(waiting.filter(({ act }) => act.refusal).map(({ act }) => act.subject));
  const open = waiting.filter(({ act }) => !stopped.has(act.subject));
  if (open.length === 0) return false;
  const sender = await whoIsHere();
  const next = open.find(({ act }) => act.by.id === sender);
  if (!next) throw new NotNow();
  const { place, act } = next;
  const { key, path, body } = act;
  try {
    await ask({ method: 'POST', path, body, key, withinMs: ANSWERED_WITHIN_MS });
    write(place, undefined);
    tellWritten();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (error.problem.status === 401 || error.problem.status >= 429) throw new NotNow();
    // Another tab may have sent it, or put it right, meanwhile.
    if (kept<Waiting>(place)?.key === key) write(place, { ...act, refusal: error.problem });
  }
  return true;
}

/** Whose session it is now: another tab may have let somebody else in. */
async function whoIsHere(): Promise<string | undefined> {
  try {
    const { body } = await ask<{ caller?: Person }>({ path: '/session', withinMs: ANSWERED_WITHIN_MS });
    return body.caller?.id;
  } catch (error) {
    throw error instanceof Refused ? new NotNow() : error;
  }
}

// Reception is back, or somebody has logged in: nothing waits for the timer.
onReach((isReached) => {
  if (isReached && !isPutOff) void sendAll();
});
onWritten(() => void sendAll());
