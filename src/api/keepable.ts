import { jsonPointer, Problem } from './problem.ts';

/** What no store keeps as it was sent, wherever in a request it stands. */

/**
 * NUL, which PostgreSQL keeps in no text (its manual, section 8.3), and halves of surrogate pairs, for which UTF-8 has no
 * form (The Unicode Standard, section 3.9): either would come back as something else than what the chain vouches for.
 */
const UNKEEPABLE = /\0|\p{Surrogate}/u;

/** Levels of lists and objects within one another; no request of this service needs ten. */
const MOST_LEVELS = 50;

const SAYS = 'holds a character that cannot be kept (NUL, or half of a surrogate pair); take it out';

/** @throws Problem 'invalid-request' with a pointer to the first text that no store keeps, or for what is too deep. */
export function refuseUnkeepable(value: unknown): void {
  const left: { readonly at: unknown; readonly path: readonly (string | number)[] }[] = [
    { at: value, path: [] },
  ];
  for (let one = left.pop(); one; one = left.pop()) {
    const { at, path } = one;
    if (typeof at === 'string' && UNKEEPABLE.test(at)) throw refused(path, SAYS);
    if (typeof at !== 'object' || at === null) continue;
    if (path.length >= MOST_LEVELS) {
      throw refused(fieldOf(path), `is nested more than ${MOST_LEVELS} levels deep; nothing here needs that`);
    }
    for (const [key, inside] of Object.entries(at)) {
      if (UNKEEPABLE.test(key)) throw refused(path, SAYS);
      left.push({ at: inside, path: [...path, Array.isArray(at) ? Number(key) : key] });
    }
  }
}

/** The field that holds the lists within lists. */
function fieldOf(path: readonly (string | number)[]): readonly (string | number)[] {
  const list = path.findIndex((step) => typeof step === 'number');
  return list < 0 ? path.slice(0, 1) : path.slice(0, list);
}

function refused(path: readonly (string | number)[], message: string): Problem {
  return new Problem('invalid-request', 'One field is wrong.', {
    errors: [{ pointer: jsonPointer([...path]), message }],
  });
}
