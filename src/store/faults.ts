/** What a store can suffer from outside. Whatever was under way has not happened. */
export type StoreFaultKind = 'full' | 'read-only' | 'unreachable' | 'busy' | 'damaged' | 'newer';

/** The store could not do what it was asked, through no fault of the request. */
export class StoreFault extends Error {
  readonly kind: StoreFaultKind;

  constructor(kind: StoreFaultKind, message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'StoreFault';
    this.kind = kind;
  }
}

const SAYS: Readonly<Record<StoreFaultKind, string>> = {
  full: 'The disk of the store is full. Nothing of this was saved. Make room on the disk and send it again.',
  'read-only':
    'The store cannot be written: its disk or file is read-only. Nothing of this was saved. Make it writable and send it again.',
  unreachable:
    'The database cannot be reached. Nothing of this is known to be saved. Check that it runs and send it again.',
  busy: 'The store is in use by something else for too long. Nothing of this was saved. Send it again in a moment.',
  damaged: 'The file of the store is damaged. Stop the service and restore the last backup.',
  newer:
    'The store was written by a newer version of this program. Start that version, or restore an older backup.',
};

/** Codes of SQLite begin with these; those of PostgreSQL are the five characters of its appendix A. */
const KINDS: readonly (readonly [RegExp, StoreFaultKind])[] = [
  [/^SQLITE_FULL|^ENOSPC$|^53100$/, 'full'],
  [/^SQLITE_READONLY|^SQLITE_CANTOPEN|^EROFS$|^25006$/, 'read-only'],
  [/^SQLITE_BUSY|^SQLITE_LOCKED|^55P03$|^53300$/, 'busy'],
  [/^SQLITE_CORRUPT|^SQLITE_NOTADB|^XX00[12]$/, 'damaged'],
  [/^SQLITE_IOERR|^58030$/, 'full'],
  [/^08|^57P0[123]$|^ECONNREFUSED$|^ECONNRESET$|^ENOTFOUND$|^ETIMEDOUT$|^EPIPE$|^EAI_AGAIN$/, 'unreachable'],
];

/** The fault behind an error of a driver; the error itself when it is none of the store's. */
export function asStoreFault(error: unknown): unknown {
  const { code, message = '' } = (error ?? {}) as { code?: unknown; message?: string };
  const [, kind] = KINDS.find(([pattern]) => pattern.test(String(code))) ?? [];
  if (kind) return new StoreFault(kind, SAYS[kind], error);
  return /^Connection terminated|^timeout exceeded when trying to connect/.test(message)
    ? new StoreFault('unreachable', SAYS.unreachable, error)
    : error;
}

/** Whether a row with that key is there already, on either database. */
export function isDuplicate(error: unknown): boolean {
  const { code } = (error ?? {}) as { code?: unknown };
  return code === 'SQLITE_CONSTRAINT_UNIQUE' || code === 'SQLITE_CONSTRAINT_PRIMARYKEY' || code === '23505';
}
