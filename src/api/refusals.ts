import type { Refused } from '../ledger/refused.ts';
import type { StoreFault } from '../store/faults.ts';
import { jsonPointer, Problem, type ProblemKind } from './problem.ts';

const KIND_OF_REFUSAL: Readonly<Record<Refused['code'], ProblemKind>> = {
  unknown: 'not-found',
  taken: 'not-as-things-stand',
  short: 'not-as-things-stand',
  'not usable': 'not-as-things-stand',
  'out of turn': 'not-as-things-stand',
  unfit: 'cannot-be-used',
  'needs a reason': 'needs-a-reason',
  'changed meanwhile': 'changed-meanwhile',
};

/** What the books refuse, as an answer. A thing that a body names and that is not there is no missing page. */
export function problemOfRefusal({ code, message, path }: Refused): Problem {
  const kind = code === 'unknown' && path.length > 0 ? 'cannot-be-used' : KIND_OF_REFUSAL[code];
  return new Problem(kind, message, {
    ...(path.length > 0 && { errors: [{ pointer: jsonPointer(path), message }] }),
  });
}

const KIND_OF_FAULT: Readonly<Record<StoreFault['kind'], ProblemKind>> = {
  full: 'store-full',
  'read-only': 'store-read-only',
  unreachable: 'store-unavailable',
  busy: 'store-unavailable',
  failing: 'store-unavailable',
  damaged: 'fault',
  unprepared: 'fault',
  newer: 'fault',
};

export function problemOfStore({ kind, message }: StoreFault): Problem {
  return new Problem(KIND_OF_FAULT[kind], message, { headers: { 'Retry-After': '5' } });
}
