import { createHash } from 'node:crypto';
import type { Call } from '../endpoint.ts';

/**
 * What is kept to know a repeated request by is a fast hash, from which a password could be guessed: it is made of the
 * rest of the request alone. @param what the request is about.
 */
export function withoutSecret(
  { caller, idempotency, params, ifVersion }: Call,
  rest: unknown,
  what = 'people',
): Pick<Call, 'caller' | 'idempotency'> {
  if (!idempotency) return { caller };
  const requestHash = createHash('sha256')
    .update(JSON.stringify([what, params, ifVersion ?? null, rest]))
    .digest('hex');
  return { caller, idempotency: { key: idempotency.key, requestHash } };
}
