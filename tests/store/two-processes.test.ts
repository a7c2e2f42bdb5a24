import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { book, lotOrRefuse, openLot } from '../../src/store/lots.ts';
import { openStore } from '../../src/store/store.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { newSqliteUrl } from './databases.ts';
import { actOf, sellKilogram } from './seller.ts';

const KG = 1_000_000_000;
const SALES = 60;
const STOCK_KG = 100_000;

/** Another process that sells from the same store. */
function otherSeller(url: string) {
  const script = fileURLToPath(new URL('seller.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', script, url], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const entries: number[] = [];
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => entries.push(Number(line)));
  const begun = once(lines, 'line');
  const ended = once(child, 'close');
  return {
    begun,
    /** Lets it end. @returns the entries that it was told its sales became. */
    end: async () => {
      child.stdin.end();
      const [code] = await ended;
      expect(code).toBe(0);
      return entries;
    },
  };
}

it('two processes write one SQLite file in turns, and nothing of either is lost', async () => {
  const url = await newSqliteUrl();
  const store = await openStore(url);
  await store.write(actOf('ana'), async (writing) => {
    const lot = {
      id: 'shared',
      kind: 'material',
      ofId: 'trim',
      body: {},
      receivedDay: '2026-03-01',
    } as const;
    await openLot(writing, lot);
    await book(writing, { lotId: lot.id, kind: 'received', massUg: STOCK_KG * KG, reservedUg: 0 });
    return { says: 'received', result: null };
  });
  const other = otherSeller(url);
  await other.begun;
  const ours: number[] = [];
  while (ours.length < SALES) ours.push(await sellKilogram(store, 'ana'));
  const theirs = await other.end();

  const [first = 0, last = 0] = [ours.at(0), ours.at(-1)];
  expect(theirs.some((entry) => first < entry && entry < last)).toBe(true);
  const sales = [...ours, ...theirs].sort((a, b) => a - b);
  expect(sales).toEqual(sales.map((_, at) => at + 2));
  const lot = await store.read((db) => lotOrRefuse(db, 'shared'));
  expect(lot.onHandUg).toBe((STOCK_KG - sales.length) * KG);
  const verdict = await store.read((db) => verifyStore(db));
  expect(verdict).toMatchObject({ findings: [], entries: sales.length + 1 });
  await store.close();
});
