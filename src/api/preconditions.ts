import { createHash } from 'node:crypto';
import type { Incoming } from './access/caller.ts';
import type { Call } from './endpoint.ts';
import { Problem } from './problem.ts';

/** Headers that make a write safe to send twice, and an update safe beside those of others (RFC 9110, section 13.1). */

const KEY = /^[\x21-\x7e]{1,200}$/;

/** @throws Problem for a key that cannot be one. */
export function idempotencyOf(
  { method, headers }: Incoming,
  place: string,
  body: unknown,
): Pick<Call, 'idempotency'> {
  const given = headers['idempotency-key'];
  if (given === undefined || method === 'GET') return {};
  const key = unquoted(String(given));
  if (!KEY.test(key)) {
    throw new Problem(
      'invalid-request',
      'Idempotency-Key must be 1 to 200 visible characters, a new one for each new request, such as a UUID.',
    );
  }
  const ifMatch = String(headers['if-match'] ?? '');
  const requestHash = createHash('sha256')
    .update(JSON.stringify([place, ifMatch, body ?? null]))
    .digest('hex');
  return { idempotency: { key, requestHash } };
}

/** @throws Problem for an update that says of no version that it is about it. */
export function ifMatchOf({ headers }: Incoming, isNeeded: boolean): Pick<Call, 'ifVersion'> {
  const given = headers['if-match']?.trim();
  if (given === undefined) {
    if (!isNeeded) return {};
    throw new Problem(
      'version-needed',
      'Say which version you changed: send the ETag that you read in If-Match, such as If-Match: "3".',
    );
  }
  if (given === '*') return {};
  const version = /^"(\d{1,15})"$/.exec(given)?.[1];
  if (version === undefined) {
    throw new Problem(
      'invalid-request',
      `If-Match ${given} is no ETag of this service; send one such as "3".`,
    );
  }
  return { ifVersion: Number(version) };
}

function unquoted(text: string): string {
  return /^"(.*)"$/.exec(text)?.[1] ?? text;
}
