import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { lotPlace, type Place } from '../src/ledger/trace.ts';
import { listLots } from '../src/store/lots.ts';
import { snapshot } from '../src/store/snapshot.ts';
import { openStore, type Store } from '../src/store/store.ts';
import { traceFrom } from '../src/store/trace.ts';
import { verifyStore } from '../src/store/verify.ts';
import { print, quantile } from './timing.ts';
import { BATCHES_A_DAY, DAYS_A_YEAR, dayOf, lotId, packId, writeDays } from './year.ts';

/** A plant's books as they grow: what is asked of them every day must not take longer for years that lie behind. */

const TRIES = 40;

/** Writes so many years into a store of its own and asks the same at a quarter, a half and each whole. */
export async function books(years: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-bench-'));
  const file = join(folder, 'plant.sqlite');
  const store = await openStore(file);
  try {
    const wholes = Array.from({ length: years }, (_, index) => (index + 1) * DAYS_A_YEAR);
    let written = 0;
    for (const days of [DAYS_A_YEAR / 4, DAYS_A_YEAR / 2, ...wholes].map(Math.round)) {
      const start = performance.now();
      await writeDays(store, written, days - written);
      const tookMs = performance.now() - start;
      const of = { days, batches: days * BATCHES_A_DAY };
      print('write a batch with all its rows, mean', tookMs / ((days - written) * BATCHES_A_DAY), 'ms', of);
      written = days;
      await ask(store, days, of);
      print('size of the store', statSync(file).size / 2 ** 20, 'MB', of);
    }
    const start = performance.now();
    const verdict = await snapshot(file, (db) => verifyStore(db));
    if (verdict.findingsCount > 0) throw new Error('the books of the bench do not hold together');
    print('verify the whole store', (performance.now() - start) / 1000, 's', {
      days: written,
      rows: verdict.rowsChecked,
    });
  } finally {
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function ask(store: Store, days: number, of: Readonly<Record<string, number>>): Promise<void> {
  const someDay = (n: number) => dayOf(Math.floor((((n * 37) % 97) / 97) * days));
  const batch = (n: number) =>
    `${someDay(n).slice(2).replaceAll('-', '')}-${String(1 + (n % BATCHES_A_DAY)).padStart(3, '0')}`;
  const timed = async (name: string, run: (n: number) => Promise<unknown>) => {
    const tookMs: number[] = [];
    for (let n = 0; n < TRIES; n++) {
      const start = performance.now();
      await run(n);
      tookMs.push(performance.now() - start);
    }
    print(`${name}, median`, quantile(tookMs, 0.5), 'ms', { ...of, n: TRIES });
    print(`${name}, longest`, Math.max(...tookMs), 'ms', { ...of, n: TRIES });
  };
  const trace = (place: Place, direction: 'forward' | 'back') =>
    store.read(async (db) => {
      const { levels } = await traceFrom(db, [place], direction);
      if (levels.length < 3) throw new Error(`nothing was found ${direction} of ${place}`);
    });
  await timed('trace a lot forward', (n) => trace(lotPlace(lotId(someDay(n), n % 16)), 'forward'));
  await timed('trace a pack back', (n) => trace(lotPlace(packId(batch(n))), 'back'));
  await timed('lots on hand', () =>
    store.read((db) => listLots(db, { kinds: ['material'], onHand: true, limit: 200 })),
  );
}
