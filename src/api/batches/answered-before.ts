import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';

/**
 * The answer to the same request, sent before under its Idempotency-Key: for what is worked out before it is written,
 * and would come out differently now.
 * @throws Refused when the key was used for another request.
 */
export async function answeredBefore(
  books: Books,
  call: Call,
  what: Parameters<typeof change>[2],
): Promise<Answer | undefined> {
  if (!call.idempotency) return undefined;
  try {
    return await change(books, call, what, () => Promise.reject(NOT_YET));
  } catch (error) {
    if (error === NOT_YET) return undefined;
    throw error;
  }
}

/** Ends a write that has nothing to give again; nothing is changed. */
const NOT_YET = new Error('not done before');
