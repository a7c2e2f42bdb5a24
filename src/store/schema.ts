import type { MovementKind } from '../ledger/movement.ts';

/**
 * The tables, the same on SQLite and PostgreSQL. Text holds ids, calendar days (YYYY-MM-DD), instants (ISO 8601, UTC)
 * and JSON; weights are whole micrograms; a truth is 0 or 1. Optional values are null in the tables.
 */
export interface Schema {
  entries: EntryRow;
  head: HeadRow;
  documents: DocumentRow;
  revisions: RevisionRow;
  lots: LotRow;
  movements: MovementRow;
  tests: TestRow;
  batches: BatchRow;
  batchSteps: BatchStepRow;
  records: RecordRow;
  people: PersonRow;
  sessions: SessionRow;
  apiKeys: ApiKeyRow;
  idempotencyKeys: IdempotencyKeyRow;
}

/** One thing that someone did, chained to the one before by its hash: the audit and the proof of the rows it wrote. */
export interface EntryRow {
  /** 1, 2, 3, … without a gap. */
  seq: number;
  at: string;
  day: string;
  personId: string;
  /** The name as it was then. */
  person: string;
  action: string;
  subjectKind: string;
  subjectId: string;
  says: string;
  /** JSON: [table, key, hash] of every row that it wrote. */
  rowHashes: string;
  previousHash: string;
  hash: string;
}

/** The end of the chain: one row, whose lock makes writers take turns. */
export interface HeadRow {
  id: number;
  length: number;
  hash: string;
}

/** A large text that many rows share, by the SHA-256 of its bytes. */
export interface DocumentRow {
  hash: string;
  body: string;
  entry: number;
}

/** One state of something that is edited: a product, a material, a lot's description. The highest number counts. */
export interface RevisionRow {
  kind: string;
  id: string;
  revision: number;
  body: string;
  /** 1 when it was taken away by this revision. */
  withdrawn: number;
  entry: number;
}

/** A lot as it stands: its description is that of its last revision, its balance the sum of its movements. */
export interface LotRow {
  id: string;
  /** 'material' as received or left over, 'bulk' as produced, 'pack' as packed. */
  kind: string;
  /** The material or the product that it is of. */
  ofId: string;
  /** The batch that made it. */
  batchId: string | null;
  body: string;
  revision: number;
  receivedDay: string;
  useByDay: string | null;
  held: number;
  onHandUg: number;
  reservedUg: number;
  /** Counts every change, of the description or the balance. */
  version: number;
  entry: number;
}

export interface MovementRow {
  seq: number;
  lotId: string;
  kind: MovementKind;
  massUg: number;
  reservedUg: number;
  onHandAfterUg: number;
  reservedAfterUg: number;
  batchId: string | null;
  otherLotId: string | null;
  reverses: number | null;
  reason: string | null;
  /** JSON: the weight as entered, to whom it went and the like. */
  details: string | null;
  at: string;
  day: string;
  personId: string;
  entry: number;
}

/** A fat test of a lot or of a batch in the mixer. */
export interface TestRow {
  seq: number;
  subjectKind: string;
  subjectId: string;
  body: string;
  at: string;
  day: string;
  personId: string;
  entry: number;
}

/** A batch as it stands: the outcome of its steps. */
export interface BatchRow {
  id: string;
  productId: string;
  day: string;
  state: string;
  /** Number of its last step. */
  steps: number;
  entry: number;
}

export interface BatchStepRow {
  batchId: string;
  /** 1, 2, 3, … */
  number: number;
  kind: string;
  body: string;
  at: string;
  day: string;
  personId: string;
  /** The name as it was then. */
  person: string;
  entry: number;
}

/** What is closed and can be shown years later. A correction is a record that names the one it corrects. */
export interface RecordRow {
  seq: number;
  kind: string;
  subjectId: string;
  corrects: number | null;
  body: string;
  at: string;
  day: string;
  personId: string;
  entry: number;
}

export interface PersonRow {
  id: string;
  name: string;
  /** The name as it is compared: lower case, one space. */
  nameKey: string;
  role: string;
  /** Hash and parameters, never the password; null where the person cannot log in. */
  password: string | null;
  active: number;
  revision: number;
  entry: number;
}

export interface SessionRow {
  tokenHash: string;
  personId: string;
  createdAt: string;
  seenAt: string;
  expiresAt: string;
}

export interface ApiKeyRow {
  id: string;
  name: string;
  keyHash: string;
  role: string;
  createdBy: string;
  createdAt: string;
  revokedAt: string | null;
}

export interface IdempotencyKeyRow {
  personId: string;
  key: string;
  requestHash: string;
  answer: string;
  at: string;
}

/** Tables whose rows are never changed or taken out, with the columns that name a row. */
export const APPEND_ONLY = {
  documents: ['hash'],
  revisions: ['kind', 'id', 'revision'],
  movements: ['seq'],
  tests: ['seq'],
  batchSteps: ['batchId', 'number'],
  records: ['seq'],
} as const satisfies { readonly [Table in keyof Schema]?: readonly (keyof Schema[Table])[] };
export type AppendOnlyTable = keyof typeof APPEND_ONLY;

/** Every table in an order in which rows can be put back. */
export const TABLES = [
  'entries',
  'head',
  'documents',
  'revisions',
  'people',
  'lots',
  'batches',
  'batchSteps',
  'movements',
  'tests',
  'records',
  'sessions',
  'apiKeys',
  'idempotencyKeys',
] as const satisfies readonly (keyof Schema)[];
