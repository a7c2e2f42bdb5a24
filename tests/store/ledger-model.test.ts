import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { INDISTINGUISHABLE_UG } from '../../src/ledger/micrograms.ts';
import { drawnUg, type MovementKind } from '../../src/ledger/movement.ts';
import { Refused } from '../../src/ledger/refused.ts';
import { entryHash } from '../../src/store/hash.ts';
import {
  book,
  editLot,
  listMovements,
  lotOrRefuse,
  openLot,
  releaseAll,
  reserve,
  reservedFor,
  summedBalance,
} from '../../src/store/lots.ts';
import type { EntryRow } from '../../src/store/schema.ts';
import { type Act, openStore, type Store, type Writing } from '../../src/store/store.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { onEachDatabase } from './databases.ts';

/**
 * Random sequences of what a plant does to its lots, on a store and on a model of plain maps: each must do, refuse and
 * leave the same.
 */

const DAY = '2026-03-02';
const KG = 1_000_000_000;
const BATCHES = ['one', 'two'] as const;
type BatchId = (typeof BATCHES)[number];

interface ModelLot {
  readonly promised: Record<BatchId, number>;
  readonly useByDay: string | undefined;
  onHandUg: number;
  held: boolean;
  version: number;
}

interface ModelMovement {
  readonly seq: number;
  readonly lotId: string;
  readonly kind: MovementKind;
  readonly massUg: number;
  readonly reservedUg: number;
  readonly batch: BatchId | undefined;
  /** It has been taken back, or takes back another. */
  settled: boolean;
}

interface Model {
  readonly lots: Map<string, ModelLot>;
  readonly movements: ModelMovement[];
  readonly answers: { readonly key: string; readonly answer: unknown }[];
  readonly head: { length: number; hash: string };
}

interface Real {
  readonly store: Store;
  /** Sets one run apart from the next on the same store. */
  readonly run: number;
}

type Command = fc.AsyncCommand<Model, Real>;
type Refusal = Refused['code'];

const batchId = ({ run }: Real, batch: BatchId) => `${run}-${batch}`;
const sumOf = (promised: Readonly<Record<BatchId, number>>) => promised.one + promised.two;

function actOf(key: string, requestHash = `hash of ${key}`): Act {
  return {
    by: { id: 'ana', name: 'Ana' },
    at: `${DAY}T08:00:00.000Z`,
    day: DAY,
    action: 'ledger moved',
    subject: { kind: 'lot', id: 'any' },
    idempotency: { key, requestHash },
  };
}

/** Does something that must be refused with this code, or must succeed. @returns whether it did. */
async function attempt(
  model: Model,
  real: Real,
  refusal: Refusal | undefined,
  work: (writing: Writing) => Promise<unknown>,
): Promise<boolean> {
  const key = `${real.run}/${model.answers.length}`;
  const writing = real.store.write(actOf(key), async (trx) => {
    const moved = await work(trx);
    return { says: 'moved', result: { entry: trx.entry, moved: moved ?? null } };
  });
  if (refusal) {
    await expectRefusal(writing, refusal);
    return false;
  }
  model.answers.push({ key, answer: await writing });
  model.head.length += 1;
  return true;
}

async function expectRefusal(writing: Promise<unknown>, code: Refusal): Promise<void> {
  const error = await writing.then(
    (answer) => ({ code: 'was done', answer }),
    (reason: unknown) => reason,
  );
  expect(error).toMatchObject({ code });
  expect(error).toBeInstanceOf(Refused);
}

/** Applies a movement to the model. @returns the refusal when the lot cannot bear it. */
function moveModel(model: Model, movement: Omit<ModelMovement, 'seq' | 'settled'>, settled = false) {
  const { lotId, massUg, reservedUg, batch } = movement;
  const lot = lotOf(model, lotId);
  const onHandUg = lot.onHandUg + massUg;
  const promisedUg = sumOf(lot.promised) + reservedUg;
  const ofBatchUg = batch ? lot.promised[batch] + reservedUg : 0;
  if (onHandUg < 0 || ofBatchUg < 0 || promisedUg > onHandUg) return 'short';
  lot.onHandUg = onHandUg;
  if (batch) lot.promised[batch] = ofBatchUg;
  lot.version += 1;
  model.movements.push({ ...movement, seq: 0, settled });
  return undefined;
}

function lotOf(model: Model, lotId: string): ModelLot {
  const lot = model.lots.get(lotId);
  if (!lot) throw new Error(`the model has no lot ${lotId}`);
  return lot;
}

function unusable({ held, useByDay }: ModelLot): boolean {
  return held || (useByDay !== undefined && useByDay < DAY);
}

/** A weight: so many micrograms, or a little more or less than what there is of something. */
interface Wanted {
  readonly of: 'itself' | 'on hand' | 'free' | 'promised';
  readonly massUg: number;
}

const near = fc.constantFrom(
  0,
  0,
  1,
  -1,
  INDISTINGUISHABLE_UG,
  -INDISTINGUISHABLE_UG,
  1 + INDISTINGUISHABLE_UG,
);
const wanted: fc.Arbitrary<Wanted> = fc.oneof(
  fc.record({ of: fc.constant('itself' as const), massUg: fc.integer({ min: 1, max: 6 * KG }) }),
  fc.record({ of: fc.constantFrom('on hand' as const, 'free' as const, 'promised' as const), massUg: near }),
);

function weightOf({ of, massUg }: Wanted, { onHandUg, promised }: ModelLot, batch: BatchId): number {
  const there = {
    itself: 0,
    'on hand': onHandUg,
    free: onHandUg - sumOf(promised),
    promised: promised[batch],
  };
  return Math.max(1, there[of] + massUg);
}

/** A command after which store and model are compared. */
function command(name: () => string, run: (model: Model, real: Real) => Promise<unknown>): Command {
  return {
    check: () => true,
    run: async (model, real) => {
      await run(model, real);
      await compare(model, real);
    },
    toString: name,
  };
}

/** A command upon one of the lots that there are. */
function onLot(
  name: string,
  pick: number,
  run: (model: Model, real: Real, lotId: string, lot: ModelLot) => Promise<unknown>,
): Command {
  let told = `lot #${pick}`;
  return command(
    () => `${name} ${told}`,
    (model, real) => {
      told = [...model.lots.keys()][pick % model.lots.size] ?? '';
      return run(model, real, told, lotOf(model, told));
    },
  );
}

const pick = fc.nat(5);
const batch = fc.constantFrom(...BATCHES);
const useByDay = fc.constantFrom(undefined, undefined, '2026-03-01', DAY, '2026-03-03');

const receive = fc.tuple(useByDay, fc.integer({ min: 0, max: 9 * KG })).map(
  ([useBy, massUg]): Command => ({
    check: ({ lots }) => lots.size < 3,
    run: async (model, real) => {
      await receiveLot(model, real, massUg, useBy);
      await compare(model, real);
    },
    toString: () => `receive ${massUg} µg, use by ${useBy ?? 'any day'}`,
  }),
);

async function receiveLot(model: Model, real: Real, massUg: number, useBy?: string): Promise<void> {
  const lotId = `${real.run}-${model.lots.size}`;
  const promised = { one: 0, two: 0 };
  model.lots.set(lotId, { promised, useByDay: useBy, onHandUg: 0, held: false, version: 1 });
  const received = { lotId, kind: 'received', massUg, reservedUg: 0 } as const;
  moveModel(model, { ...received, batch: undefined });
  await attempt(model, real, undefined, async (writing) => {
    await openNew(writing, lotId, useBy);
    return book(writing, received);
  });
}

async function openNew(writing: Writing, id: string, useBy?: string): Promise<void> {
  const day = useBy === undefined ? {} : { useByDay: useBy };
  await openLot(writing, { id, kind: 'material', ofId: 'trim', body: { id }, receivedDay: DAY, ...day });
}

const receiveAgain = pick.map((at) =>
  onLot('receive again', at, (model, real, id) =>
    attempt(model, real, 'taken', (writing) => openNew(writing, id)),
  ),
);

const move = fc
  .tuple(pick, fc.constantFrom('adjusted', 'discarded', 'shipped', 'sold', 'tested', 'up'), wanted, batch)
  .map(([at, what, weight, of]) =>
    onLot(`${what} by ${weight.massUg} µg beside ${weight.of} of`, at, (model, real, lotId, lot) => {
      const kind = what === 'up' ? 'adjusted' : (what as MovementKind);
      const massUg = weightOf(weight, lot, of) * (what === 'up' ? 1 : -1);
      const refusal = moveModel(model, { lotId, kind, massUg, reservedUg: 0, batch: undefined });
      return attempt(model, real, refusal, (writing) =>
        book(writing, { lotId, kind, massUg, reservedUg: 0, reason: 'counted' }),
      );
    }),
  );

const promise = fc.tuple(pick, batch, wanted).map(([at, of, weight]) =>
  onLot(`reserve ${weight.massUg} µg beside ${weight.of} for ${of} of`, at, (model, real, lotId, lot) => {
    const wantedUg = weightOf(weight, lot, of);
    const reservedUg = drawnUg(wantedUg, lot.onHandUg - sumOf(lot.promised));
    const refusal = unusable(lot)
      ? 'not usable'
      : moveModel(model, { lotId, kind: 'reserved', massUg: 0, reservedUg, batch: of });
    return attempt(model, real, refusal, (writing) =>
      reserve(writing, lotId, batchId(real, of), wantedUg, DAY),
    );
  }),
);

const release = fc.tuple(pick, batch, wanted).map(([at, of, weight]) =>
  onLot(`release ${weight.massUg} µg beside ${weight.of} from ${of} of`, at, (model, real, lotId, lot) => {
    const reservedUg = -weightOf(weight, lot, of);
    const movement = { lotId, kind: 'released', massUg: 0, reservedUg } as const;
    const refusal = moveModel(model, { ...movement, batch: of });
    return attempt(model, real, refusal, (writing) =>
      book(writing, { ...movement, batchId: batchId(real, of) }),
    );
  }),
);

const releaseBatch = batch.map((of) =>
  command(
    () => `release all of ${of}`,
    (model, real) => {
      for (const lotId of [...model.lots.keys()].sort()) {
        const reservedUg = -lotOf(model, lotId).promised[of];
        if (reservedUg !== 0) moveModel(model, { lotId, kind: 'released', massUg: 0, reservedUg, batch: of });
      }
      return attempt(model, real, undefined, (writing) => releaseAll(writing, batchId(real, of)));
    },
  ),
);

/** Weighs into a batch, of what it was promised first. */
const weigh = fc.tuple(pick, batch, wanted).map(([at, of, weight]) =>
  onLot(`weigh ${weight.massUg} µg beside ${weight.of} into ${of} of`, at, (model, real, lotId, lot) => {
    const massUg = drawnUg(drawnUg(weightOf(weight, lot, of), lot.promised[of]), lot.onHandUg);
    const reservedUg = 0 - Math.min(lot.promised[of], massUg);
    const movement = { lotId, kind: 'weighed', massUg: -massUg, reservedUg } as const;
    const refusal = moveModel(model, { ...movement, batch: of });
    return attempt(model, real, refusal, (writing) =>
      book(writing, { ...movement, batchId: batchId(real, of) }),
    );
  }),
);

const edit = fc.tuple(pick, fc.boolean(), fc.boolean()).map(([at, held, names]) =>
  onLot(`${held ? 'hold' : 'release hold of'}`, at, (model, real, id, lot) => {
    const ifVersion = names ? lot.version : undefined;
    lot.held = held;
    lot.version += 1;
    return attempt(model, real, undefined, (writing) => editLot(writing, id, changeOf(lot, held), ifVersion));
  }),
);

const editStale = fc
  .tuple(pick, fc.constantFrom(-1, 1, -2))
  .map(([at, off]) =>
    onLot(`edit version ${off} of`, at, (model, real, id, lot) =>
      attempt(model, real, 'changed meanwhile', (writing) =>
        editLot(writing, id, changeOf(lot, !lot.held), lot.version + off),
      ),
    ),
  );

function changeOf({ useByDay: day }: ModelLot, held: boolean) {
  return { body: { held }, held, ...(day !== undefined && { useByDay: day }) };
}

const reverse = fc.nat(40).map((at) =>
  command(
    () => `take back movement #${at}`,
    async (model, real) => {
      const first = model.movements[at % model.movements.length];
      if (!first) return;
      const { lotId, kind, batch: of } = first;
      const movement = { lotId, kind, massUg: 0 - first.massUg, reservedUg: 0 - first.reservedUg };
      const refusal = first.settled ? 'out of turn' : moveModel(model, { ...movement, batch: of }, true);
      if (!refusal) first.settled = true;
      await attempt(model, real, refusal, (writing) =>
        book(writing, {
          ...movement,
          reverses: first.seq,
          reason: 'wrong lot',
          ...(of && { batchId: batchId(real, of) }),
        }),
      );
    },
  ),
);

/** The answer to a request that is sent again is the one given before, and nothing is done. */
const resend = fc.tuple(fc.nat(40), fc.boolean()).map(([at, same]) =>
  command(
    () => `send request #${at} again${same ? '' : ' with another content'}`,
    async (model, real) => {
      const sent = model.answers[at % model.answers.length];
      if (!sent) return;
      const act = actOf(sent.key, same ? undefined : 'another hash');
      let worked = false;
      const again = real.store.write(act, async () => {
        worked = true;
        return { says: 'done twice', result: null };
      });
      if (same) expect(await again).toEqual(sent.answer);
      else await expectRefusal(again, 'taken');
      expect(worked).toBe(false);
    },
  ),
);

/** Of a write that fails half-way nothing is left, its key neither. */
const failHalfWay = fc.tuple(pick, fc.nat(3)).map(([at, steps]) =>
  onLot(`fail after ${steps} steps on`, at, async (model, real, lotId) => {
    const key = `${real.run}/${model.answers.length}`;
    const failing = real.store.write(actOf(key), async (writing) => {
      const up = { lotId, kind: 'adjusted', massUg: KG, reservedUg: 0, reason: 'counted' } as const;
      if (steps > 0) await book(writing, up);
      if (steps > 1) await editLot(writing, lotId, { body: {}, held: false });
      if (steps > 2) await reserve(writing, lotId, batchId(real, 'one'), KG, DAY);
      throw new Error('the power went out');
    });
    await expect(failing).rejects.toThrow('the power went out');
  }),
);

/** Everything that the store says, against the model. */
async function compare(model: Model, real: Real): Promise<void> {
  await real.store.read(async (db) => {
    for (const [id, { promised, useByDay: day, onHandUg, held, version }] of model.lots) {
      const balance = { onHandUg, reservedUg: sumOf(promised) };
      const row = await lotOrRefuse(db, id);
      expect(row).toMatchObject({ ...balance, held: held ? 1 : 0, useByDay: day ?? null, version });
      expect(await summedBalance(db, id)).toEqual(balance);
      expect(row.onHandUg).toBeGreaterThanOrEqual(row.reservedUg);
      expect(row.reservedUg).toBeGreaterThanOrEqual(0);
    }
    for (const of of BATCHES) {
      const kept = [...model.lots].map(([id, { promised }]) => [id, promised[of]] as const);
      expect(await reservedFor(db, batchId(real, of))).toEqual(new Map(kept.filter(([, ug]) => ug > 0)));
    }
    await compareMovements(model, db);
    const head = await db.selectFrom('head').selectAll().executeTakeFirstOrThrow();
    expect(head.length).toBe(model.head.length);
    model.head.hash = await followed(db, model.head.hash, head.length);
    expect(head.hash).toBe(model.head.hash);
  });
}

type Db = Parameters<typeof summedBalance>[0];

/** The movements are those of the model in their order; the model learns their numbers. */
async function compareMovements(model: Model, db: Db): Promise<void> {
  const known = model.movements.findLast(({ seq }) => seq > 0)?.seq ?? (await lastBefore(model, db));
  const rows = await listMovements(db, { afterSeq: known });
  const added = model.movements.filter(({ seq }) => seq === 0);
  const told = ({ lotId, kind, massUg, reservedUg }: ModelMovement | (typeof rows)[number]) =>
    `${lotId} ${kind} ${massUg} ${reservedUg}`;
  expect(rows.map(told)).toEqual(added.map(told));
  for (const [at, { seq }] of rows.entries()) {
    const index = model.movements.length - added.length + at;
    const movement = model.movements[index];
    if (movement) model.movements[index] = { ...movement, seq };
  }
}

/** The last movement of the runs before. */
async function lastBefore({ lots }: Model, db: Db): Promise<number> {
  const row = await db
    .selectFrom('movements')
    .select(({ fn }) => fn.max<number | null>('seq').as('seq'))
    .where('lotId', 'not in', [...lots.keys(), ''])
    .executeTakeFirst();
  return row?.seq ?? 0;
}

/** The hash at the end of the chain, worked out anew from the last hash that was known to be right. */
async function followed(db: Db, hash: string, toSeq: number): Promise<string> {
  const found = await db.selectFrom('entries').selectAll().orderBy('seq', 'desc').limit(2).execute();
  const start = found.findIndex((entry) => entry.hash === hash);
  const added: EntryRow[] = start < 0 ? found.slice(0, 1) : found.slice(0, start);
  let last = hash;
  for (const entry of added.reverse()) {
    expect(entry.previousHash).toBe(last);
    last = entryHash(entry);
    expect(entry).toMatchObject({ seq: toSeq, hash: last });
  }
  return last;
}

const commands = fc.commands(
  [
    receive,
    receiveAgain,
    move,
    promise,
    promise,
    release,
    releaseBatch,
    weigh,
    weigh,
    edit,
    editStale,
    reverse,
    reverse,
    resend,
    failHalfWay,
  ],
  { size: 'max', maxCommands: 25 },
);

onEachDatabase((newStoreUrl, dialect) => {
  let store: Store;
  beforeAll(async () => {
    store = await openStore(await newStoreUrl());
  });
  afterAll(() => store?.close());
  let runs = 0;

  it('does, refuses and keeps what the model does', async () => {
    await fc.assert(
      fc.asyncProperty(commands, async (sequence) => {
        runs += 1;
        const real = { store, run: runs };
        const setup = async () => {
          const head = await store.read((db) => db.selectFrom('head').selectAll().executeTakeFirstOrThrow());
          const model: Model = { lots: new Map(), movements: [], answers: [], head };
          await receiveLot(model, real, 9 * KG);
          await compare(model, real);
          return { model, real };
        };
        await fc.asyncModelRun(setup, sequence);
      }),
      { numRuns: dialect === 'SQLite' ? 80 : 40 },
    );
    const verdict = await store.read((db) => verifyStore(db));
    expect(verdict.findings).toEqual([]);
    expect(verdict.entries).toBeGreaterThan(100);
  });
});
