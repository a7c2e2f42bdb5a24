/** The JSON API as the page speaks with it. Everything the page knows comes through here. */

export interface ProblemBody {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly errors?: readonly { readonly pointer: string; readonly message: string }[];
}

/** The service answered that it will not: the problem says why and what to write instead. */
export class Refused extends Error {
  readonly problem: ProblemBody;

  constructor(problem: ProblemBody) {
    super(problem.detail);
    this.name = 'Refused';
    this.problem = problem;
  }

  /** The last part of the problem's type: 'changed-meanwhile', 'needs-a-reason'. */
  get kind(): string {
    return this.problem.type.split('/').at(-1) ?? '';
  }
}

/** No answer came: whether the service took what was sent is not known, so it is sent again under the same key. */
export class Unreached extends Error {
  constructor() {
    super('The service cannot be reached.');
    this.name = 'Unreached';
  }
}

export type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

export interface Request {
  readonly method?: Method;
  /** Below /v1, with its query. */
  readonly path: string;
  readonly body?: unknown;
  /** Sent as it is, in place of a body. */
  readonly file?: Blob;
  /** Idempotency-Key: the same for the same act, however often it is sent. */
  readonly key?: string;
  /** If-Match: the version that was read. */
  readonly version?: number;
  readonly signal?: AbortSignal;
  /** How long an answer is waited for; longer than the longest work of the service when absent. */
  readonly withinMs?: number;
}

export interface Answered<Body> {
  readonly body: Body;
  /** Of the resource, for If-Match. */
  readonly version?: number;
}

/** What is only read is there soon; the service gives its longest work up before that; a file may be long on its way. */
const READ_WITHIN_MS = 30_000;
const ANSWERED_WITHIN_MS = 180_000;
const TAKEN_WITHIN_MS = 600_000;

type Listener = () => void;
const loginListeners = new Set<Listener>();
const reachListeners = new Set<(isReached: boolean) => void>();

/** Calls back when an answer says that nobody is logged in any more. @returns how to stop. */
export function onLoginNeeded(listener: Listener): () => void {
  loginListeners.add(listener);
  return () => loginListeners.delete(listener);
}

/** Calls back with every request that reached the service or did not. @returns how to stop. */
export function onReach(listener: (isReached: boolean) => void): () => void {
  reachListeners.add(listener);
  return () => reachListeners.delete(listener);
}

/**
 * Asks the service.
 * @throws Refused with the problem that was answered; Unreached where no answer came; the abort itself.
 */
export async function ask<Body>(request: Request): Promise<Answered<Body>> {
  const { method = 'GET', path, body, file, key, version, signal } = request;
  const ending = new AbortController();
  const end = () => ending.abort();
  // A network that swallows everything answers nothing and refuses nothing.
  const withinMs = file ? TAKEN_WITHIN_MS : method === 'GET' ? READ_WITHIN_MS : ANSWERED_WITHIN_MS;
  const timer = setTimeout(end, request.withinMs ?? withinMs);
  signal?.addEventListener('abort', end);
  const response = await fetch(`/v1${path}`, {
    method,
    // The version in the ETag is that of the resource alone: what an answer tells beside it may be newer.
    cache: 'no-store',
    headers: {
      accept: 'application/json',
      ...(body !== undefined && { 'content-type': 'application/json' }),
      ...(file && { 'content-type': 'application/octet-stream' }),
      ...(key !== undefined && { 'idempotency-key': key }),
      ...(version !== undefined && { 'if-match': `"${version}"` }),
    },
    ...(body !== undefined && { body: JSON.stringify(body) }),
    ...(file && { body: file }),
    signal: ending.signal,
  }).catch(() => undefined);
  const answer = response && (await jsonOf(response));
  clearTimeout(timer);
  signal?.removeEventListener('abort', end);
  // Whoever asked has gone: that says nothing of the connection.
  signal?.throwIfAborted();
  for (const listener of reachListeners) listener(answer !== undefined);
  if (!response || answer === undefined) throw new Unreached();
  if (response.ok) {
    const etag = /^(?:W\/)?"(\d+)"$/.exec(response.headers.get('etag') ?? '')?.[1];
    return { body: answer.json as Body, ...(etag !== undefined && { version: Number(etag) }) };
  }
  if (response.status === 401) for (const listener of loginListeners) listener();
  throw new Refused(problemOf(answer.json, response));
}

/** Undefined where the answer broke off, or was no answer of the service: a login page of the network, say. */
async function jsonOf(response: Response): Promise<{ readonly json: unknown } | undefined> {
  try {
    const text = await response.text();
    return { json: text === '' ? null : JSON.parse(text) };
  } catch {
    return undefined;
  }
}

function problemOf(json: unknown, { status, statusText }: Response): ProblemBody {
  const given = typeof json === 'object' && json !== null ? (json as Partial<ProblemBody>) : {};
  return { type: '', title: statusText, detail: `${status} ${statusText}`, ...given, status };
}

/** A query out of what is given: what is absent is left out. */
export function queryOf(values: Readonly<Record<string, string | number | boolean | undefined>>): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(values)) if (value !== undefined) query.set(name, String(value));
  const text = query.toString();
  return text === '' ? '' : `?${text}`;
}

/** A key for one act, also where the browser has no crypto.randomUUID because the plant's network has no TLS. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
