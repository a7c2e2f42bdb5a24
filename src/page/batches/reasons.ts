import { Refused, type Unreached } from '../service/ask.ts';

/** Departures that ask for a reason, and the reasons as the API takes them. */

/** What a reason is about. */
export interface About {
  readonly line?: number;
  readonly load?: number;
  readonly limitId?: string;
  readonly about?: 'yield';
}

export interface Asked extends About {
  /** What is asked, to read; empty where the service's own sentence says it. */
  readonly says: string;
}

export const keyOf = ({ line, load, limitId, about }: About): string =>
  `${about ?? ''}|${limitId ?? ''}|${line ?? ''}|${load ?? ''}`;

const DEPARTURE = /([^;]+?) \((?:about "(yield)"|limitId (\S+?)|line (\d+), load (\d+))\)(?:; |$)/g;

/** Which departures a refusal names: 'Salt, line 3, load 1: 5.27 lb, found 4 lb (line 3, load 1); …'. */
export function askedFor(detail: string): Asked[] {
  const list = detail.replace(/^.*? in reasons: /, '');
  return [...list.matchAll(DEPARTURE)].map(([, says = '', about, limitId, line, load]) => ({
    says,
    ...(about !== undefined && { about: 'yield' as const }),
    ...(limitId !== undefined && { limitId }),
    ...(line !== undefined && { line: Number(line), load: Number(load) }),
  }));
}

/** What a form that was refused has to ask. */
export function askedIn(error: Refused | Unreached | undefined): Asked[] {
  return error instanceof Refused && error.kind === 'needs-a-reason' ? askedFor(error.problem.detail) : [];
}

/** Both lists as one, each departure once, as it is first said. */
export function together(first: readonly Asked[], then: readonly Asked[]): Asked[] {
  const known = new Map<string, Asked>();
  for (const asked of [...first, ...then]) if (!known.has(keyOf(asked))) known.set(keyOf(asked), asked);
  return [...known.values()];
}

/** Reasons that were written, for what is asked. */
export function reasonsOf(
  asked: readonly Asked[],
  written: Readonly<Record<string, string>>,
): (About & { readonly reason: string })[] {
  return asked.flatMap((one) => {
    const reason = (written[keyOf(one)] ?? '').trim();
    if (reason === '') return [];
    const { says: _, ...about } = one;
    return [{ ...about, reason }];
  });
}
