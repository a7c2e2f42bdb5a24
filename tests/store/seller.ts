import { once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { book } from '../../src/store/lots.ts';
import { type Act, openStore, type Store } from '../../src/store/store.ts';

/** Sells the lot "shared" kilogram by kilogram; run as a process, until its input ends. */

const DAY = '2026-03-02';

export function actOf(by: string): Act {
  const subject = { kind: 'lot', id: 'shared' };
  return { by: { id: by, name: by }, at: `${DAY}T08:00:00.000Z`, day: DAY, action: 'lot sold', subject };
}

/** @returns the number of the entry that the sale became. */
export async function sellKilogram(store: Store, by: string): Promise<number> {
  const entry = await store.write(actOf(by), async (writing) => {
    await book(writing, { lotId: 'shared', kind: 'sold', massUg: -1_000_000_000, reservedUg: 0 });
    return { says: 'a kilogram was sold', result: writing.entry };
  });
  // A moment between two sales, as there is between people's requests, in which another process has its turn.
  await setTimeout(1);
  return entry;
}

async function sellUntilTold(url: string): Promise<void> {
  const store = await openStore(url);
  let told = false;
  const end = once(process.stdin.resume(), 'end').then(() => {
    told = true;
  });
  while (!told) console.log(await sellKilogram(store, 'tomas'));
  await end;
  await store.close();
}

const [, script, url] = process.argv;
if (script === fileURLToPath(import.meta.url) && url !== undefined) await sellUntilTold(url);
