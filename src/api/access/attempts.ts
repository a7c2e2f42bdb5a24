import { ipKeyGenerator } from 'express-rate-limit';
import { nameKeyOf } from '../../store/people.ts';
import { Problem } from '../problem.ts';
import { sha256Of } from './secrets.ts';

/** How often a password may be tried: wrong ones are counted by name and by address. */

const WINDOW_MS = 15 * 60_000;
const WRONG_BY_NAME = 10;
/** A plant's devices may share one address. */
const WRONG_BY_ADDRESS = 30;
/** What is remembered; beyond it the oldest is forgotten. */
const MOST_REMEMBERED = 10_000;

export interface Try {
  readonly name: string;
  readonly address: string;
}

export interface Attempts {
  /**
   * Counts a try as wrong before it is known, so that many at once count as many.
   * @throws Problem 'too-many-requests' with the time to wait.
   */
  readonly begin: (one: Try) => Begun;
}

export interface Begun {
  /** It was right: nothing is held against the name any more. */
  readonly right: () => void;
  /** It was never compared. */
  readonly dropped: () => void;
}

interface Count {
  wrong: number;
  readonly until: number;
}

export function attemptsOf(now: () => Date): Attempts {
  const byName = counter(WRONG_BY_NAME, 'for this name', now);
  const byAddress = counter(WRONG_BY_ADDRESS, 'from this address', now);
  return {
    begin: ({ name, address }) => {
      // A hash, so that long names take no more room.
      const nameKey = sha256Of(nameKeyOf(name));
      const addressKey = address.includes(':') ? ipKeyGenerator(address) : address;
      byName.refuse(nameKey);
      byAddress.refuse(addressKey);
      byName.add(nameKey);
      byAddress.add(addressKey);
      return {
        right: () => {
          byName.clear(nameKey);
          byAddress.takeBack(addressKey);
        },
        dropped: () => {
          byName.takeBack(nameKey);
          byAddress.takeBack(addressKey);
        },
      };
    },
  };
}

function counter(most: number, of: string, now: () => Date) {
  const counts = new Map<string, Count>();
  const current = (key: string): Count | undefined => {
    const found = counts.get(key);
    if (found && found.until > now().getTime()) return found;
    counts.delete(key);
    return undefined;
  };
  return {
    refuse: (key: string) => {
      const found = current(key);
      if (!found || found.wrong < most) return;
      const seconds = Math.ceil((found.until - now().getTime()) / 1000);
      throw new Problem(
        'too-many-requests',
        `Too many wrong passwords ${of}. Wait ${Math.ceil(seconds / 60)} minutes, or ask an admin.`,
        { headers: { 'Retry-After': String(seconds) } },
      );
    },
    add: (key: string) => {
      const found = current(key);
      if (found) found.wrong += 1;
      else {
        const [oldest] = counts.keys();
        if (counts.size >= MOST_REMEMBERED && oldest !== undefined) counts.delete(oldest);
        counts.set(key, { wrong: 1, until: now().getTime() + WINDOW_MS });
      }
    },
    takeBack: (key: string) => {
      const found = current(key);
      if (found) found.wrong -= 1;
    },
    clear: (key: string) => {
      counts.delete(key);
    },
  };
}
