import { sql } from 'kysely';
import type { Findings } from './findings.ts';
import { entryHash, rowHash, sha256 } from './hash.ts';
import type { Db } from './open.ts';
import { KEYS, pagesOf } from './pages.ts';
import { APPEND_ONLY, type AppendOnlyTable, type EntryRow, type HeadRow, type Schema } from './schema.ts';
import { keyOf } from './store.ts';

/** The chain of entries, and every row that an entry vouches for. */

const TABLES_IN_CHAIN = Object.keys(APPEND_ONLY) as AppendOnlyTable[];

/** Where a walk along the chain stands. */
export interface ChainEnd {
  readonly seq: number;
  readonly hash: string;
}

export interface ChainWalk extends ChainEnd {
  readonly entries: number;
  /** Entries and rows that were compared. */
  readonly rowsChecked: number;
}

/**
 * Walks the chain from its first entry to the head.
 * @param seen is told the hash of every entry.
 */
export async function verifyChain(
  db: Db,
  findings: Findings,
  seen: (hash: string) => void,
): Promise<ChainWalk> {
  let end: ChainEnd = { seq: 0, hash: '' };
  let entries = 0;
  let rowsChecked = 0;
  for await (const page of pagesOf(db, 'entries')) {
    const before = end;
    for (const entry of page) {
      seen(entry.hash);
      end = checkLink(end, entry, findings);
    }
    entries += page.length;
    rowsChecked += page.length + (await checkRows(db, page, before.seq, end.seq, findings));
  }
  rowsChecked += await findStrays(db, end.seq, findings);
  await checkHead(db, end, findings);
  return { ...end, entries, rowsChecked };
}

/** Compares an entry with its own hash and with the entry before. @returns the new end of the chain. */
function checkLink(before: ChainEnd, entry: EntryRow, { add }: Findings): ChainEnd {
  const { seq, hash } = entry;
  const place = { table: 'entries', key: String(seq), entry: seq };
  if (!Number.isSafeInteger(seq) || seq < 1) {
    add({ kind: 'inserted', ...place, says: `Entry ${seq} has a number that no entry gets.` });
    return before;
  }
  if (seq > before.seq + 1) add(gap(before.seq + 1, seq - 1));
  else if (entry.previousHash !== before.hash) {
    const says = `Entry ${seq} does not follow from the one before: one of the two was changed and its hash written anew.`;
    add({ kind: 'chain broken', ...place, says });
  }
  if (entryHash(entry) !== hash) {
    add({
      kind: 'altered',
      ...place,
      says: `Entry ${seq} (${entry.action}) is not as it was written: its hash does not fit.`,
    });
  }
  return { seq, hash };
}

function gap(from: number, to: number) {
  const which = from === to ? `Entry ${from} is` : `Entries ${from} to ${to} are`;
  return {
    kind: 'removed',
    table: 'entries',
    key: String(from),
    entry: from,
    says: `${which} missing.`,
  } as const;
}

interface Vouched {
  readonly table: string;
  readonly key: string;
  readonly hash: string;
  readonly entry: number;
}

/** Compares the rows of a page of entries with the hashes that those name. @returns how many rows there are. */
async function checkRows(
  db: Db,
  page: readonly EntryRow[],
  afterSeq: number,
  toSeq: number,
  findings: Findings,
): Promise<number> {
  const vouched = new Map(page.flatMap(vouchedBy).map((row) => [`${row.table} ${row.key}`, row]));
  let rowsChecked = 0;
  for (const table of TABLES_IN_CHAIN) {
    const where = sql`entry > ${afterSeq} and entry <= ${toSeq}`;
    for await (const rows of pagesOf(db, table, { by: ['entry', ...KEYS[table]] as never, where })) {
      for (const row of rows) checkRow(table, row, vouched, findings);
      rowsChecked += rows.length;
    }
  }
  for (const { hash: _, ...row } of vouched.values()) {
    const says = `${row.table} ${row.key} is missing, or no longer says that entry ${row.entry} wrote it.`;
    findings.add({ kind: 'removed', ...row, says });
  }
  return rowsChecked;
}

/** The rows that an entry names; none when the text that names them cannot be read, which its hash shows. */
function vouchedBy({ seq, rowHashes }: EntryRow): Vouched[] {
  try {
    const named = JSON.parse(rowHashes) as [string, string, string][];
    return named.map(([table, key, hash]) => ({ table, key, hash, entry: seq }));
  } catch {
    return [];
  }
}

/** Compares a row, and strikes it from those still to be found. */
function checkRow<Table extends AppendOnlyTable>(
  table: Table,
  row: Schema[Table],
  vouched: Map<string, Vouched>,
  { add }: Findings,
): void {
  const key = keyOf(table, row);
  const named = vouched.get(`${table} ${key}`);
  vouched.delete(`${table} ${key}`);
  const place = { table, key, entry: row.entry };
  if (!named) {
    const says = `${table} ${key} says that entry ${row.entry} wrote it, but that entry does not name it.`;
    add({ kind: 'inserted', ...place, says });
  } else if (rowHash(row) !== named.hash) {
    const says = `${table} ${key} is not as entry ${named.entry} wrote it.`;
    add({ kind: 'altered', ...place, entry: named.entry, says });
  } else if ('hash' in row && 'body' in row && sha256(row.body) !== row.hash) {
    add({ kind: 'does not add up', ...place, says: `${table} ${key} is not the hash of its text.` });
  }
}

/** Rows of an entry that is not in the chain. */
async function findStrays(db: Db, lastSeq: number, { add }: Findings): Promise<number> {
  let count = 0;
  for (const table of TABLES_IN_CHAIN) {
    for await (const rows of pagesOf(db, table, { where: sql`(entry < 1 or entry > ${lastSeq})` })) {
      count += rows.length;
      for (const row of rows) {
        const key = keyOf(table, row);
        const says = `${table} ${key} says that entry ${row.entry} wrote it, but there is no such entry.`;
        add({ kind: 'inserted', table, key, entry: row.entry, says });
      }
    }
  }
  return count;
}

async function checkHead(db: Db, end: ChainEnd, { add }: Findings): Promise<void> {
  const head = await readHead(db);
  const place = { table: 'head', key: '1' };
  if (!head) {
    add({ kind: 'removed', ...place, says: 'The head of the chain is missing.' });
  } else if (head.length > end.seq) {
    add(gap(end.seq + 1, head.length));
  } else if (head.length < end.seq) {
    const says = `The head counts ${head.length} entries, but there are entries up to ${end.seq}.`;
    add({ kind: 'inserted', table: 'entries', key: String(head.length + 1), entry: head.length + 1, says });
  } else if (head.hash !== end.hash) {
    const says = `The head is not the hash of the last entry, ${end.seq}: one of the two was changed.`;
    add({ kind: 'chain broken', ...place, entry: end.seq, says });
  }
}

export async function readHead(db: Db): Promise<Pick<HeadRow, 'length' | 'hash'> | undefined> {
  return db.selectFrom('head').select(['length', 'hash']).executeTakeFirst();
}
