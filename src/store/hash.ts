import { createHash } from 'node:crypto';
import type { EntryRow } from './schema.ts';

/** SHA-256 of a text, in hexadecimal. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** JSON of a row with its columns in the order of the alphabet, so that the same row gives the same text everywhere. */
export function canonicalRow(row: Readonly<Record<string, unknown>>): string {
  return JSON.stringify(Object.fromEntries(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1))));
}

/** What stands for a row in the chain. */
export function rowHash(row: object): string {
  return sha256(canonicalRow(row as Record<string, unknown>));
}

/** The link of an entry: over all its columns but the link itself. */
export function entryHash(entry: Omit<EntryRow, 'hash'>): string {
  const { hash: _, ...columns } = entry as EntryRow;
  return sha256(canonicalRow(columns));
}
