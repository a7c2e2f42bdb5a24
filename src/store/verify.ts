import { collectFindings, type Finding, type Findings } from './findings.ts';
import type { Db } from './open.ts';
import { readHead, verifyChain } from './verify-chain.ts';
import { verifyBatches, verifyKeys, verifyLots, verifyPeople } from './verify-standing.ts';

export interface VerifyOptions {
  /**
   * The hash of the head as it was written down elsewhere, on paper or with a backup; its first 16 digits will do. Who
   * takes entries off the end, or writes the whole chain anew, leaves a chain without fault: only this can show it.
   */
  readonly expectHead?: string;
  /** What else must hold, for tables whose meaning is not known here. */
  readonly extraChecks?: (db: Db) => Promise<readonly Finding[]>;
}

export interface Verdict {
  readonly entries: number;
  /** The end of the chain: what is worth writing down elsewhere. */
  readonly head: { readonly length: number; readonly hash: string };
  readonly rowsChecked: number;
  /** Empty when nothing is wrong; the first 200 of them. */
  readonly findings: readonly Finding[];
  readonly findingsCount: number;
}

/**
 * Compares everything that a store says with what vouches for it: every entry with its hash and the one before, every
 * row that is never changed with the entry that wrote it, every balance with its movements, every lot, batch and
 * person with what they follow from. Passwords, sessions and answers kept for repeated requests are not in the chain:
 * nothing vouches for them.
 * @param db a transaction that sees one moment (see snapshot.ts) where others may write meanwhile.
 * @throws RangeError when `expectHead` is no hash.
 */
export async function verifyStore(db: Db, options: VerifyOptions = {}): Promise<Verdict> {
  const expected = options.expectHead === undefined ? undefined : headDigits(options.expectHead);
  const findings = collectFindings();
  let found = false;
  const chain = await readable(findings, 'entries', () =>
    verifyChain(db, findings, (hash) => {
      found ||= expected !== undefined && hash.startsWith(expected);
    }),
  );
  if (expected !== undefined && !found) findings.add(headMissing(expected));
  const standing = [
    await readable(findings, 'lots', () => verifyLots(db, findings)),
    await readable(findings, 'batches', () => verifyBatches(db, findings)),
    await readable(findings, 'people', () => verifyPeople(db, findings)),
    await readable(findings, 'apiKeys', () => verifyKeys(db, findings)),
  ];
  for (const finding of (await options.extraChecks?.(db)) ?? []) findings.add(finding);
  return {
    entries: chain?.entries ?? 0,
    head: (await readHead(db)) ?? { length: 0, hash: '' },
    rowsChecked: standing.reduce<number>((sum, count) => sum + (count ?? 0), chain?.rowsChecked ?? 0),
    findings: findings.listed,
    findingsCount: findings.count(),
  };
}

/** A hash as people copy it: in any case, with blanks, perhaps only its beginning. */
function headDigits(text: string): string {
  const digits = text.replaceAll(/\s/g, '').toLowerCase();
  if (/^[0-9a-f]{16,64}$/.test(digits)) return digits;
  throw new RangeError(
    `"${text}" is no hash of a head; write its 64 digits (0-9, a-f), or at least the first 16 of them`,
  );
}

function headMissing(expected: string): Finding {
  const says = `No entry has the hash ${expected} that was written down: entries were taken off the end, or the chain was written anew, or the hash is of another store.`;
  return { kind: 'removed', table: 'entries', key: expected, says };
}

/** A number too large to be read ends a check, but not the others. */
async function readable<Result>(
  { add }: Findings,
  table: string,
  check: () => Promise<Result>,
): Promise<Result | undefined> {
  try {
    return await check();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const says = `A row holds what was never written there (${error.message}); the check of ${table} ended at it.`;
    add({ kind: 'altered', table, key: '', says });
    return undefined;
  }
}
