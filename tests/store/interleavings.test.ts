import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Refused } from '../../src/ledger/refused.ts';
import {
  book,
  editLot,
  listMovements,
  lotOrRefuse,
  openLot,
  reserve,
  reservedFor,
  summedBalance,
} from '../../src/store/lots.ts';
import { type Act, openStore, type Store, type Writing } from '../../src/store/store.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { type NewStoreUrl, onEachDatabase } from './databases.ts';

const DAY = '2026-03-02';
const KG = 1_000_000_000;

function actOf(what: string): Act {
  const subject = { kind: 'lot', id: what };
  return { by: { id: 'ana', name: 'Ana' }, at: `${DAY}T08:00:00.000Z`, day: DAY, action: 'moved', subject };
}

const written = (result: unknown = null) => ({ says: 'done', result });

async function receive(store: Store, lotId: string, massUg: number): Promise<void> {
  await store.write(actOf(lotId), async (writing) => {
    await openLot(writing, { id: lotId, kind: 'material', ofId: 'trim', body: {}, receivedDay: DAY });
    await book(writing, { lotId, kind: 'received', massUg, reservedUg: 0 });
    return written();
  });
}

async function isSound(store: Store): Promise<void> {
  expect((await store.read((db) => verifyStore(db))).findings).toEqual([]);
}

/** On PostgreSQL two services may work on the same store; on SQLite a second connection here would wait for ever. */
async function openedTwice(newStoreUrl: NewStoreUrl, dialect: string): Promise<readonly [Store, Store]> {
  const url = await newStoreUrl();
  const store = await openStore(url);
  return [store, dialect === 'PostgreSQL' ? await openStore(url) : store];
}

interface Wish {
  readonly what: 'reserve' | 'weigh' | 'weigh what is promised' | 'sell';
  readonly massUg: number;
  /** Waits before each step of the work. */
  readonly waits: number;
}

const wish: fc.Arbitrary<Wish> = fc.record({
  what: fc.constantFrom('reserve', 'weigh', 'weigh what is promised', 'sell'),
  massUg: fc.integer({ min: 1, max: 6 }).map((kg) => kg * KG),
  waits: fc.nat(2),
});

/** Takes a part of a lot, in steps between which others may have their turn. */
async function take(
  writing: Writing,
  lotId: string,
  batchId: string,
  { what, massUg, waits }: Wish,
  pause: Pause,
) {
  const paused = async (step: string) => {
    for (let wait = 0; wait < waits; wait += 1) await pause(step);
  };
  await paused('before');
  if (what === 'reserve' || what === 'weigh what is promised') {
    await reserve(writing, lotId, batchId, massUg, DAY);
    await paused('reserved');
  }
  if (what === 'sell') await book(writing, { lotId, kind: 'sold', massUg: -massUg, reservedUg: 0 });
  if (what === 'weigh' || what === 'weigh what is promised') {
    const promisedUg = (await reservedFor(writing.db, batchId)).get(lotId) ?? 0;
    await paused('looked');
    const reservedUg = 0 - Math.min(promisedUg, massUg);
    await book(writing, { lotId, kind: 'weighed', massUg: -massUg, reservedUg, batchId });
  }
  await paused('after');
  return written(massUg);
}

type Pause = (step: string) => Promise<unknown>;

/** What a read sees of a lot, looked up in steps between which writers may have their turn. */
async function look(store: Store, lotId: string, pause: Pause): Promise<void> {
  await store.read(async (db) => {
    const length = async () =>
      (await db.selectFrom('head').select('length').executeTakeFirstOrThrow()).length;
    const before = await length();
    await pause('head seen');
    const { onHandUg, reservedUg } = await lotOrRefuse(db, lotId);
    await pause('lot seen');
    expect(await summedBalance(db, lotId)).toEqual({ onHandUg, reservedUg });
    await pause('movements seen');
    const last = (await listMovements(db, { lotId })).at(-1);
    expect(last).toMatchObject({ onHandAfterUg: onHandUg, reservedAfterUg: reservedUg });
    expect(last?.entry).toBeLessThanOrEqual(before);
    expect(await length()).toBe(before);
  });
}

onEachDatabase((newStoreUrl, dialect) => {
  let stores: readonly [Store, Store];
  beforeAll(async () => {
    stores = await openedTwice(newStoreUrl, dialect);
  });
  afterAll(async () => {
    for (const store of new Set(stores)) await store.close();
  });

  it('gives no microgram to two, and shows no half of a write, in whatever order steps come', async () => {
    let runs = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.scheduler(),
        fc.array(wish, { minLength: 2, maxLength: 5 }),
        fc.integer({ min: 1, max: 2 }),
        async (scheduler, wishes, readers) => {
          const lotId = `lot ${++runs}`;
          await receive(stores[0], lotId, 10 * KG);
          const pauseOf =
            (who: string): Pause =>
            (step) =>
              scheduler.schedule(Promise.resolve(), `${who} ${step}`);
          const writing = wishes.map(async (wanted, at) => {
            const pause = pauseOf(`writer ${at}`);
            await pause('starts');
            const work = (trx: Writing) => take(trx, lotId, `${lotId} batch ${at}`, wanted, pause);
            return (stores[at % 2] ?? stores[0]).write(actOf(lotId), work);
          });
          const reading = Array.from({ length: readers }, async (_, at) => {
            const pause = pauseOf(`reader ${at}`);
            await pause('starts');
            await look(stores[at % 2] ?? stores[0], lotId, pause);
          });
          // All of them end, whatever fails: what waits for its turn would keep its connection.
          const ended = Promise.allSettled(writing);
          const looked = Promise.allSettled(reading);
          await scheduler.waitFor(Promise.all([ended, looked]));
          await Promise.all(reading);
          await expectFair(stores[0], lotId, wishes, await ended);
        },
      ),
      { numRuns: 40 },
    );
    await isSound(stores[0]);
  });

  it('promises one lot to fifty planners at once, as far as it goes', async () => {
    const promisedUg = 0.7 * KG;
    await receive(stores[0], 'wanted', 20 * KG);
    const outcomes = await Promise.allSettled(
      Array.from({ length: 50 }, (_, at) =>
        (stores[at % 2] ?? stores[0]).write(actOf('wanted'), async (writing) =>
          written(await reserve(writing, 'wanted', `batch ${at}`, promisedUg, DAY)),
        ),
      ),
    );
    const refused = outcomes.flatMap((outcome) => (outcome.status === 'rejected' ? [outcome.reason] : []));
    expect(outcomes.length - refused.length).toBe(28);
    // 20 kg less 28 times 0.7 kg are 0.4 kg, or 0.88 lb.
    for (const reason of refused) {
      expect(reason).toBeInstanceOf(Refused);
      expect(reason).toMatchObject({
        code: 'short',
        message: expect.stringContaining('0.88 lb (0.40 kg) free'),
      });
    }
    const row = await stores[1].read((db) => lotOrRefuse(db, 'wanted'));
    expect(row).toMatchObject({ onHandUg: 20 * KG, reservedUg: 28 * promisedUg });
    await isSound(stores[1]);
  });

  it('refuses movements of one lot at once within a write, and does neither', async () => {
    const [store] = stores;
    await receive(store, 'twice', 10 * KG);
    const sell = (writing: Writing, massUg: number) =>
      book(writing, { lotId: 'twice', kind: 'sold', massUg: -massUg, reservedUg: 0 });
    const writing = store.write(actOf('twice'), async (trx) => {
      await sell(trx, KG);
      const both = await Promise.allSettled([sell(trx, 6 * KG), sell(trx, 6 * KG)]);
      for (const outcome of both) if (outcome.status === 'rejected') throw outcome.reason;
      return written();
    });
    await expect(writing).rejects.toThrow(/make one change after the other/);
    expect(await store.read((db) => lotOrRefuse(db, 'twice'))).toMatchObject({
      onHandUg: 10 * KG,
      version: 2,
    });
    await isSound(store);
  });

  it('leaves nothing of a write that failed while a step of it was under way', async () => {
    const [store] = stores;
    await receive(store, 'stray', KG);
    const adjust = (writing: Writing) =>
      book(writing, { lotId: 'stray', kind: 'adjusted', massUg: 1, reservedUg: 0, reason: 'counted' });
    for (let ticks = 0; ticks < 60; ticks += 1) {
      let stray: Promise<unknown> = Promise.resolve();
      const writing = store.write(actOf('stray'), async (trx) => {
        stray = (async () => {
          for (;;) await adjust(trx);
        })();
        stray.catch(() => {});
        for (let tick = 0; tick < ticks; tick += 1) await null;
        throw new Error('the other step failed');
      });
      await expect(writing).rejects.toThrow('the other step failed');
      await expect(stray).rejects.toThrow('wait for every one');
      expect(await store.read((db) => lotOrRefuse(db, 'stray'))).toMatchObject({ onHandUg: KG, version: 2 });
    }
    await isSound(store);
  });

  it('refuses a write that ends before a step of it does', async () => {
    const [store] = stores;
    await receive(store, 'hasty', KG);
    for (let ticks = 0; ticks < 60; ticks += 1) {
      let ended = false;
      const writing = store.write(actOf('hasty'), async (trx) => {
        const stray = book(trx, { lotId: 'hasty', kind: 'sold', massUg: -1, reservedUg: 0 });
        stray.then(
          () => {
            ended = true;
          },
          () => {},
        );
        for (let tick = 0; tick < ticks; tick += 1) await null;
        return written();
      });
      // All of the step or nothing, never its half.
      const done = await writing.then(
        () => true,
        () => false,
      );
      expect(done).toBe(ended);
      const { onHandUg } = await store.read((db) => lotOrRefuse(db, 'hasty'));
      expect(await store.read((db) => summedBalance(db, 'hasty'))).toMatchObject({ onHandUg });
    }
    await isSound(store);
  });

  it('numbers rows that are added at once within a write', async () => {
    const [store] = stores;
    for (const id of ['left', 'right']) await receive(store, id, KG);
    await store.write(actOf('both'), async (writing) => {
      const sell = (lotId: string) => book(writing, { lotId, kind: 'sold', massUg: -KG, reservedUg: 0 });
      const [left, right] = await Promise.all([sell('left'), sell('right')]);
      expect(Math.abs(left - right)).toBe(1);
      return written();
    });
    await isSound(store);
  });

  it('refuses a lot that would be more than can be counted', async () => {
    const [store] = stores;
    await receive(store, 'huge', Number.MAX_SAFE_INTEGER);
    const more = store.write(actOf('huge'), async (writing) =>
      written(await book(writing, { lotId: 'huge', kind: 'received', massUg: 1, reservedUg: 0 })),
    );
    await expect(more).rejects.toMatchObject({ code: 'unfit' });
    expect(await store.read((db) => summedBalance(db, 'huge'))).toEqual({
      onHandUg: Number.MAX_SAFE_INTEGER,
      reservedUg: 0,
    });
  });

  describe('within a read or a write', () => {
    const insideOf: Readonly<
      Record<string, (store: Store, inner: () => Promise<unknown>) => Promise<unknown>>
    > = {
      write: (store, inner) => store.write(actOf('outer'), async () => written(await inner())),
      read: (store, inner) => store.read(inner),
      note: (store, inner) => store.note(async () => void (await inner())),
    };

    it.each(
      ['write', 'read', 'note'].flatMap((outer) =>
        ['write', 'read', 'note'].map((inner) => [outer, inner] as const),
      ),
    )('a %s with another %s in it throws and does not hang', async (outer, inner) => {
      const [store] = stores;
      const length = () =>
        store.read((db) => db.selectFrom('head').select('length').executeTakeFirstOrThrow());
      const before = await length();
      const nested = insideOf[outer]?.(store, async () => insideOf[inner]?.(store, async () => null));
      await expect(nested).rejects.toThrow('only its own db may be used');
      expect(await length()).toEqual(before);
    });
  });

  it.runIf(dialect === 'PostgreSQL')('lets readers look while many writers wait for a slow one', async () => {
    const [store] = stores;
    await receive(store, 'slow', 30 * KG);
    let open = () => {};
    const gate = new Promise<void>((resolve) => {
      open = resolve;
    });
    const writers = Array.from({ length: 20 }, () =>
      store.write(actOf('slow'), async (writing) => {
        await gate;
        return written(await editLot(writing, 'slow', { body: {}, held: false }));
      }),
    );
    const row = await store.read((db) => lotOrRefuse(db, 'slow'));
    expect(row.version).toBe(2);
    open();
    expect(await Promise.all(writers)).toEqual(writers.map((_, at) => at + 3));
  });
});

/** What was taken is gone, each refusal was right, and all adds up. */
async function expectFair(
  store: Store,
  lotId: string,
  wishes: readonly Wish[],
  outcomes: readonly PromiseSettledResult<unknown>[],
): Promise<void> {
  const done = wishes.filter((_, at) => outcomes[at]?.status === 'fulfilled');
  const sumUg = (some: readonly Wish[]) => some.reduce((sum, { massUg }) => sum + massUg, 0);
  const promisedUg = sumUg(done.filter(({ what }) => what === 'reserve'));
  const onHandUg = 10 * KG - (sumUg(done) - promisedUg);
  const row = await store.read((db) => lotOrRefuse(db, lotId));
  expect(row).toMatchObject({ onHandUg, reservedUg: promisedUg });
  for (const [at, { massUg }] of wishes.entries()) {
    const outcome = outcomes[at];
    if (outcome?.status !== 'rejected') continue;
    expect(outcome.reason).toMatchObject({ code: 'short' });
    // What is free only ever becomes less here: what was refused would not fit now either.
    expect(massUg).toBeGreaterThan(onHandUg - promisedUg);
  }
}
