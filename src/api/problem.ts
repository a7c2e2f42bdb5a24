/** An answer that is not what was asked for, as RFC 9457 problem details. */
export class Problem extends Error {
  readonly kind: ProblemKind;
  readonly errors: readonly FieldError[];
  readonly headers: Readonly<Record<string, string>>;

  constructor(
    kind: ProblemKind,
    detail: string,
    extra: { errors?: readonly FieldError[]; headers?: Readonly<Record<string, string>> } = {},
  ) {
    super(detail);
    this.name = 'Problem';
    this.kind = kind;
    this.errors = extra.errors ?? [];
    this.headers = extra.headers ?? {};
  }

  toJSON() {
    const { status, title } = PROBLEMS[this.kind];
    return {
      type: `/problems/${this.kind}`,
      title,
      status,
      detail: this.message,
      ...(this.errors.length > 0 && { errors: this.errors }),
    };
  }
}

/** One fault of the request: a JSON pointer (RFC 6901) to the field, what is wrong and what to write. */
export interface FieldError {
  readonly pointer: string;
  readonly message: string;
}

export const PROBLEMS = {
  'not-json': { status: 400, title: 'The body is not JSON' },
  'invalid-request': { status: 400, title: 'The request does not have the form it must have' },
  'not-logged-in': { status: 401, title: 'Log in first' },
  'not-allowed': { status: 403, title: 'This is not allowed' },
  'not-found': { status: 404, title: 'There is nothing here' },
  'method-not-allowed': { status: 405, title: 'This cannot be done here' },
  'not-acceptable': { status: 406, title: 'This is not available in the form asked for' },
  'not-as-things-stand': { status: 409, title: 'This cannot be done as things stand' },
  'changed-meanwhile': { status: 412, title: 'Someone changed it since you read it' },
  'too-large': { status: 413, title: 'The body is too large' },
  'unsupported-media-type': { status: 415, title: 'The body must be JSON' },
  'cannot-be-used': { status: 422, title: 'The request is well formed but cannot be used' },
  'no-blend': { status: 422, title: 'No blend keeps every limit' },
  'needs-a-reason': { status: 422, title: 'What departs from the plan needs a reason' },
  'version-needed': { status: 428, title: 'Say which version you changed' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  fault: { status: 500, title: 'The service failed' },
  'too-slow': { status: 503, title: 'No answer in the time allowed' },
  busy: { status: 503, title: 'The service is busy' },
  'store-unavailable': { status: 503, title: 'The store cannot be reached' },
  'store-read-only': { status: 503, title: 'The store cannot be written' },
  'store-full': { status: 507, title: 'The disk of the store is full' },
} as const satisfies Record<string, { status: number; title: string }>;

export type ProblemKind = keyof typeof PROBLEMS;

export function statusOf({ kind }: Problem): number {
  return PROBLEMS[kind].status;
}

/** ['lots', 0, 'cost'] as '/lots/0/cost'. */
export function jsonPointer(path: readonly PropertyKey[]): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

export function fieldErrors(
  issues: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[],
): FieldError[] {
  return issues.map(({ path, message }) => ({ pointer: jsonPointer(path), message }));
}

/** JSON that does not parse. Engines word the place differently; what they share is kept. */
export function notJson(what: string, { message }: { readonly message?: string }): Problem {
  const reason = (message ?? 'unreadable').replace(/ \(line \d+ column \d+\)/, '');
  return new Problem('not-json', `${what} is not JSON: ${reason}. Give one JSON object.`);
}
