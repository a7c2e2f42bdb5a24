import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto';
import { nameKeyOf } from '../../store/people.ts';
import { Problem } from '../problem.ts';

/**
 * Passwords are kept as scrypt hashes (RFC 7914) with their salt and parameters. N = 2^15, r = 8, p = 1 takes 32 MiB
 * and about a tenth of a second for each guess; lengths and the absence of rules on characters follow NIST SP 800-63B,
 * section 5.1.1 (from memory, verify).
 */

export const LEAST_LENGTH = 10;
export const MOST_LENGTH = 200;

const COST = 2 ** 15;
const BLOCK_SIZE = 8;
const PARALLEL = 1;
const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** Each hash takes memory and a thread: more than a few at once would stop everything else. */
const AT_ONCE = 2;
const MOST_WAITING = 20;

export interface Passwords {
  /** @returns what is kept of it. @throws Problem 'busy'. */
  readonly hash: (password: string) => Promise<string>;
  /**
   * Whether it is the password of which the hash is kept; takes as long where none is kept.
   * @throws Problem 'busy'.
   */
  readonly isRight: (password: string, kept: string | null | undefined) => Promise<boolean>;
}

interface Kept {
  readonly cost: number;
  readonly blockSize: number;
  readonly parallel: number;
  readonly salt: Buffer;
  readonly hash: Buffer;
}

/** @param cost N of scrypt, a power of 2: lower than the default only where nothing is at stake. */
export function passwordsOf(cost: number = COST): Passwords {
  const inTurn = fewAtOnce();
  const derived = (password: string, { salt, ...how }: Omit<Kept, 'hash'>) =>
    inTurn(() => derive(password, salt, how));
  const fresh = () => ({ cost, blockSize: BLOCK_SIZE, parallel: PARALLEL, salt: randomBytes(SALT_BYTES) });
  return {
    hash: async (password) => {
      const how = fresh();
      return textOf({ ...how, hash: await derived(password, how) });
    },
    isRight: async (password, text) => {
      const kept = typeof text === 'string' ? readKept(text) : undefined;
      const found = await derived(password, kept ?? fresh());
      return kept !== undefined && timingSafeEqual(found, kept.hash);
    },
  };
}

function derive(
  password: string,
  salt: Buffer,
  { cost, blockSize, parallel }: Pick<Kept, 'cost' | 'blockSize' | 'parallel'>,
): Promise<Buffer> {
  const options: ScryptOptions = {
    N: cost,
    r: blockSize,
    p: parallel,
    // Twice what the formula of RFC 7914 takes, 128 N r bytes.
    maxmem: 256 * cost * blockSize,
  };
  return new Promise((resolve, reject) => {
    scrypt(password.normalize('NFKC'), salt, HASH_BYTES, options, (error, key) =>
      error ? reject(error) : resolve(key),
    );
  });
}

/** Such as scrypt$32768$8$1$salt$hash. */
function textOf({ cost, blockSize, parallel, salt, hash }: Kept): string {
  return ['scrypt', cost, blockSize, parallel, salt.toString('base64url'), hash.toString('base64url')].join(
    '$',
  );
}

function readKept(text: string): Kept {
  const [kind, cost, blockSize, parallel, salt = '', hash = ''] = text.split('$');
  const kept = {
    cost: Number(cost),
    blockSize: Number(blockSize),
    parallel: Number(parallel),
    salt: Buffer.from(salt, 'base64url'),
    hash: Buffer.from(hash, 'base64url'),
  };
  if (kind === 'scrypt' && kept.hash.length === HASH_BYTES) return kept;
  throw new Error('a password in the store is kept in a form that is not known here');
}

/** Some work at once, some waiting, the rest refused. */
function fewAtOnce() {
  let running = 0;
  const waiting: (() => void)[] = [];
  return async <Result>(work: () => Promise<Result>): Promise<Result> => {
    if (running < AT_ONCE) running += 1;
    else if (waiting.length < MOST_WAITING) await new Promise<void>((resolve) => waiting.push(resolve));
    else {
      throw new Problem('busy', 'Too many people log in at once. Try again in a few seconds.', {
        headers: { 'Retry-After': '3' },
      });
    }
    try {
      return await work();
    } finally {
      // Whoever waits longest takes the place over; else it is free.
      const next = waiting.shift();
      if (next) next();
      else running -= 1;
    }
  };
}

/** Why a password cannot be one, without saying it; undefined when it can. Whatever is long enough and no name will do. */
export function passwordFault(password: string, name: string): string | undefined {
  const { length } = [...password.normalize('NFKC')];
  if (length < LEAST_LENGTH)
    return `has ${length} characters; it must have at least ${LEAST_LENGTH}. A few words will do.`;
  if (length > MOST_LENGTH) return `has ${length} characters; it must have at most ${MOST_LENGTH}`;
  if (nameKeyOf(password) === nameKeyOf(name)) return 'is the name; choose something that others do not know';
  return undefined;
}

/** @throws Problem 'invalid-request' at the field. */
export function refusePassword(password: string, name: string, field: string): void {
  const message = passwordFault(password, name);
  if (message) {
    throw new Problem('invalid-request', 'The password cannot be used.', {
      errors: [{ pointer: `/${field}`, message }],
    });
  }
}
