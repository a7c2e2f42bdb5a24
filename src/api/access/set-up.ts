import { Problem } from '../problem.ts';
import { codeKeyOf, isSame, newCode } from './secrets.ts';

/**
 * The code with which the first admin is made. It stands on the terminal of the machine alone, so that nobody else in
 * the plant's network can take the plant first.
 */
export interface SetUp {
  /** Three groups of four, 58 bits; undefined once it has ended. */
  readonly code: () => string | undefined;
  /** @throws Problem 'not-allowed' for a wrong code, or when it has ended. */
  readonly check: (code: string) => void;
}

const VALID_MINUTES = 30;
const MOST_WRONG = 10;

/** A code of this process, which ends some time after now or after some wrong tries. */
export function newSetUp(now: () => Date): SetUp {
  const code = newCode(3);
  const until = now().getTime() + VALID_MINUTES * 60_000;
  let wrong = 0;
  const hasEnded = () => wrong >= MOST_WRONG || now().getTime() >= until;
  return {
    code: () => (hasEnded() ? undefined : code),
    check: (given) => {
      if (hasEnded()) {
        throw new Problem(
          'not-allowed',
          `The set-up code has ended: it is good for ${VALID_MINUTES} minutes and ${MOST_WRONG} tries. Start the service again; it prints a new one.`,
        );
      }
      if (isSame(codeKeyOf(given), codeKeyOf(code))) return;
      wrong += 1;
      const left = MOST_WRONG - wrong;
      throw new Problem(
        'not-allowed',
        `This is not the set-up code. It stands on the terminal in which the service was started; ${left} tries are left.`,
      );
    },
  };
}
