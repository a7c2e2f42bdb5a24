/** What a store can suffer from outside. Whatever was under way has not happened. */
export type StoreFaultKind =
  | 'full'
  | 'read-only'
  /** The disk does not read or write as it should. */
  | 'failing'
  | 'unreachable'
  | 'busy'
  | 'damaged'
  | 'newer'
  /** Its tables are missing, or of an older version. */
  | 'unprepared';

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
  failing:
    'The disk of the store does not read or write as it should. Nothing of this is known to be saved. Check the disk, and the room on it, before you send it again.',
  unreachable:
    'The database cannot be reached. Nothing of this is known to be saved. Check its file or URL, name and password, and that it runs, and send it again.',
  busy: 'The store is in use by something else for too long. Nothing of this was saved. Send it again in a moment.',
  damaged: 'The file of the store is damaged. Stop the service and restore the last backup.',
  newer:
    'The store was written by a newer version of this program. Start that version, or restore an older backup.',
  unprepared:
    'There are no tables of this version in the store. Check that its file or URL is right; when it is of an older version, start the service on it once, which brings it up to date.',
};

/**
 * Codes of SQLite (sqlite.org/rescode.html), of the operating system, and the five characters of PostgreSQL (its
 * manual, appendix A). SQLite says FULL itself when a write finds no room, so an IOERR is a disk that fails; only the
 * room for its shared memory is asked for in another way.
 */
const KINDS: readonly (readonly [RegExp, StoreFaultKind])[] = [
  [/^SQLITE_FULL|^SQLITE_IOERR_SHMSIZE$|^ENOSPC$|^EDQUOT$|^53100$/, 'full'],
  [/^SQLITE_READONLY|^SQLITE_PERM$|^EROFS$|^EACCES$|^EPERM$|^25006$/, 'read-only'],
  [/^SQLITE_BUSY|^SQLITE_LOCKED|^40001$|^40P01$|^55P03$|^53300$/, 'busy'],
  [/^SQLITE_CORRUPT|^SQLITE_NOTADB$|^XX00[12]$/, 'damaged'],
  [/^SQLITE_IOERR|^EIO$|^58030$/, 'failing'],
  [/^SQLITE_CANTOPEN|^ENOENT$|^ENOTDIR$|^EISDIR$|^08|^28|^3D000$|^57P0[1-5]$/, 'unreachable'],
  [
    /^ECONNREFUSED$|^ECONNRESET$|^ENOTFOUND$|^ETIMEDOUT$|^EPIPE$|^EAI_AGAIN$|^EHOSTUNREACH$|^ENETUNREACH$/,
    'unreachable',
  ],
];

/** A fault of a kind, in the words for it. */
export function faultOf(kind: StoreFaultKind, cause?: unknown): StoreFault {
  return new StoreFault(kind, SAYS[kind], cause);
}

/** What drivers say, without a code, of a connection that is gone. */
const GONE =
  /^Connection terminated|^timeout exceeded when trying to connect|^Client has encountered a connection error/;

/** The fault behind an error of a driver; the error itself when it is none of the store's. */
export function asStoreFault(error: unknown): unknown {
  const { code, message = '' } = (error ?? {}) as { code?: unknown; message?: string };
  const [, kind] = KINDS.find(([pattern]) => pattern.test(String(code))) ?? [];
  if (kind) return faultOf(kind, error);
  return GONE.test(message) ? faultOf('unreachable', error) : error;
}
