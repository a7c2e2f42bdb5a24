import { fromWhereCalled } from '../api/settings.ts';
import { backup, type Copied, move, restore } from '../store/copy.ts';
import { snapshot } from '../store/snapshot.ts';
import { dialectOf, type StoreUrl, shownUrl } from '../store/store-url.ts';
import { type Verdict, verifyStore } from '../store/verify.ts';
import type { StoreCommandName } from './arguments.ts';

/** What a plant does with its books from a terminal. */

export interface StoreCommand {
  /** What it prints, as text and as JSON. */
  readonly text: string;
  readonly json: unknown;
  /** Whether the books hold together. */
  readonly isSound: boolean;
}

export interface StoreOptions {
  /** The store that the command is about. */
  readonly storeUrl: StoreUrl;
  /** Hash of the head as it was written down elsewhere. */
  readonly head?: string;
  readonly despiteFindings?: boolean;
}

/** @throws StoreFault, CopyRefused, RangeError for a head that is none. */
export async function storeCommand(
  name: StoreCommandName,
  operand: string,
  options: StoreOptions,
): Promise<StoreCommand> {
  const { storeUrl, head, despiteFindings = false } = options;
  const checks = head === undefined ? {} : { expectHead: head };
  const where = shownUrl(storeUrl);
  switch (name) {
    case 'verify': {
      const verdict = await snapshot(storeUrl, (db) => verifyStore(db, checks));
      return { text: verdictText(`Store ${where}`, verdict), json: verdict, isSound: isSound(verdict) };
    }
    case 'backup': {
      const file = fromWhereCalled(operand, process.env);
      return copied(`Backed up ${where} to ${file}`, await backup(storeUrl, file, checks));
    }
    case 'restore': {
      const file = fromWhereCalled(operand, process.env);
      return copied(
        `Restored ${file} to ${where}`,
        await restore(file, storeUrl, { ...checks, despiteFindings }),
      );
    }
    case 'move': {
      const to = dialectOf(operand) === 'PostgreSQL' ? operand : fromWhereCalled(operand, process.env);
      return copied(
        `Moved ${where} to ${shownUrl(to)}. Start the service with STORE set to it; the old store is as it was.`,
        await move(storeUrl, to, { ...checks, despiteFindings }),
      );
    }
  }
}

function copied(title: string, copy: Copied): StoreCommand {
  const tables = Object.entries(copy.tables).map(
    ([table, { count, sha256 }]) =>
      `  ${table.padEnd(16)} ${String(count).padStart(9)}  ${sha256.slice(0, 16)}`,
  );
  const text = [
    title,
    `  ${'table'.padEnd(16)} ${'rows'.padStart(9)}  SHA-256, as read back`,
    ...tables,
    verdictText('The books', copy.verdict),
  ].join('\n');
  return { text, json: copy, isSound: isSound(copy.verdict) };
}

function isSound({ findingsCount }: Verdict): boolean {
  return findingsCount === 0;
}

/** More would scroll the first ones off the screen. */
const MOST_SHOWN = 20;

function verdictText(what: string, { entries, head, rowsChecked, findings, findingsCount }: Verdict): string {
  const checked = `${entries} entries, ${rowsChecked} rows checked`;
  const anchor = [
    `Head: entry ${head.length}, ${head.hash}`,
    'Keep this line somewhere else; `meatblock verify --head HASH` then shows that nothing was cut off since.',
  ];
  if (findingsCount === 0) return [`${what}: whole. ${checked}.`, ...anchor].join('\n');
  const shown = findings.slice(0, MOST_SHOWN);
  const more =
    findingsCount > shown.length ? [`  … and ${findingsCount - shown.length} more; --json lists more`] : [];
  return [
    `${what}: DOES NOT HOLD TOGETHER. ${checked}, ${findingsCount} finding${findingsCount === 1 ? '' : 's'}:`,
    ...shown.map(({ kind, table, key, says }) => `  ${kind}, ${table} ${key}: ${says}`),
    ...more,
    ...anchor,
    'Stop, keep a copy of the store as it is, and restore the last backup that verifies.',
  ].join('\n');
}
