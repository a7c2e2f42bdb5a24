import { hasAdmin, hasPeople } from '../../store/people.ts';
import type { Books } from '../books.ts';
import { type Attempts, attemptsOf } from './attempts.ts';
import { isLoopback } from './origin.ts';
import { type Passwords, passwordsOf } from './passwords.ts';
import { newSetUp, type SetUp } from './set-up.ts';

/** Who gets in, and how: what the gate and the endpoints of people share for as long as the service runs. */
export interface Access {
  /** Whether whoever reaches the service may do everything: a demonstration on this machine alone, as long as it has no people. */
  readonly isOpen: () => Promise<boolean>;
  /** Whether the first admin is still to be made. */
  readonly isSetUpNeeded: () => Promise<boolean>;
  readonly setUp: SetUp;
  readonly passwords: Passwords;
  readonly attempts: Attempts;
  readonly secureCookie: boolean;
  readonly tell: Tell;
}

/** Writes into the log of the service. What it is told holds no secret. */
export type Tell = (about: Readonly<Record<string, string>>, what: string) => void;

export interface AccessOptions {
  /** What the service listens on. */
  readonly host?: string;
  readonly secureCookie?: boolean;
  /** N of scrypt. */
  readonly passwordCost?: number;
  readonly tell?: Tell;
}

export function accessOf(books: Books, options: AccessOptions = {}): Access {
  const { host = '127.0.0.1', secureCookie = false, passwordCost, tell = () => {} } = options;
  // The clock of the books is asked each time: it may be another one later.
  const now = () => books.now();
  const anyone = knownOnceTrue(() => books.store.read(hasPeople));
  const isOpen = async () => {
    if (!isLoopback(host) || (await anyone())) return false;
    const { plant } = await books.plant();
    return plant.demoDate !== undefined;
  };
  return {
    isOpen,
    isSetUpNeeded: async () => !(await isOpen()) && !(await books.store.read(hasAdmin)),
    setUp: newSetUp(now),
    passwords: passwordsOf(passwordCost),
    attempts: attemptsOf(now),
    secureCookie,
    tell,
  };
}

/** People are never taken out: once there is one, it need not be asked again. */
function knownOnceTrue(ask: () => Promise<boolean>): () => Promise<boolean> {
  let known = false;
  return async () => {
    known ||= await ask();
    return known;
  };
}
