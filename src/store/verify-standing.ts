import { sql } from 'kysely';
import { type Balance, EMPTY } from '../ledger/movement.ts';
import { type BatchState, type StepKind, stateAfter } from '../making/batch.ts';
import type { Findings } from './findings.ts';
import { type LotKind, revisionOf } from './lots.ts';
import type { Db } from './open.ts';
import { pagesOf } from './pages.ts';
import { nameKeyOf } from './people.ts';
import type { LotRow, PersonRow, RevisionRow } from './schema.ts';

/** What stands in lots, batches and people, against the rows that it follows from. */

/** @returns how many lots there are. */
export async function verifyLots(db: Db, findings: Findings): Promise<number> {
  let count = 0;
  for await (const lots of pagesOf(db, 'lots')) {
    count += lots.length;
    const ids = lots.map(({ id }) => id);
    const { balances, counts } = await runBalances(db, ids, findings);
    const { first, last } = await revisionsOf(db, 'lot', ids);
    for (const lot of lots) {
      checkBalance(lot, balances.get(lot.id) ?? EMPTY, findings);
      checkVersion(lot, counts.get(lot.id) ?? 0, findings);
      compare('lots', lot, { ...describedLot(lot), entry: lot.entry }, last.get(lot.id), findings, {
        entry: first.get(lot.id)?.entry,
      });
    }
  }
  await findOrphans(db, 'lot', 'lots', findings);
  return count;
}

function describedLot({ batchId, useByDay, body, held, ...lot }: LotRow) {
  return revisionOf({
    ...lot,
    kind: lot.kind as LotKind,
    ...(batchId !== null && { batchId }),
    ...(useByDay !== null && { useByDay }),
    held: held === 1,
    body: parsed(body),
  });
}

/** Adds up the movements of some lots, and compares each with the balance that it says to have left. */
async function runBalances(db: Db, ids: readonly string[], { add }: Findings) {
  const balances = new Map<string, Balance>();
  const counts = new Map<string, number>();
  const where = sql`lot_id in (${sql.join(ids)})`;
  for await (const movements of pagesOf(db, 'movements', { by: ['lotId', 'seq'], where })) {
    for (const { seq, lotId, entry, ...movement } of movements) {
      const before = balances.get(lotId) ?? EMPTY;
      const onHandUg = before.onHandUg + movement.massUg;
      const reservedUg = before.reservedUg + movement.reservedUg;
      balances.set(lotId, { onHandUg, reservedUg });
      counts.set(lotId, (counts.get(lotId) ?? 0) + 1);
      if (movement.onHandAfterUg === onHandUg && movement.reservedAfterUg === reservedUg) continue;
      const says = `Movement ${seq} of lot ${lotId} says that it left ${movement.onHandAfterUg} µg on hand and ${movement.reservedAfterUg} µg reserved; the movements up to it make ${onHandUg} and ${reservedUg}.`;
      add({ kind: 'does not add up', table: 'movements', key: String(seq), entry, says });
    }
  }
  return { balances, counts };
}

/** A version counts every state of the description and every movement. */
function checkVersion({ id, version, revision }: LotRow, movements: number, { add }: Findings): void {
  if (version === revision + movements) return;
  const says = `Lot ${id} says that it is version ${version}; its ${revision} descriptions and ${movements} movements make ${revision + movements}.`;
  add({ kind: 'does not add up', table: 'lots', key: id, says });
}

function checkBalance(lot: LotRow, sum: Balance, { add }: Findings): void {
  if (lot.onHandUg === sum.onHandUg && lot.reservedUg === sum.reservedUg) return;
  const says = `Lot ${lot.id} says ${lot.onHandUg} µg on hand and ${lot.reservedUg} µg reserved; its movements make ${sum.onHandUg} and ${sum.reservedUg}.`;
  add({ kind: 'does not add up', table: 'lots', key: lot.id, says });
}

/** @returns how many people there are. */
export async function verifyPeople(db: Db, findings: Findings): Promise<number> {
  let count = 0;
  for await (const people of pagesOf(db, 'people')) {
    count += people.length;
    const { first, last } = await revisionsOf(
      db,
      'person',
      people.map(({ id }) => id),
    );
    for (const person of people) {
      compare('people', person, describedPerson(person), last.get(person.id), findings, {
        nameKey: nameKeyOf(person.name),
        entry: first.get(person.id)?.entry,
      });
    }
  }
  await findOrphans(db, 'person', 'people', findings);
  return count;
}

function describedPerson({ name, nameKey, role, active, entry }: PersonRow) {
  return { name, nameKey, role, active, entry };
}

/** Keys are as their last revision says: none is slipped in, given another role or brought back. @returns how many. */
export async function verifyKeys(db: Db, findings: Findings): Promise<number> {
  let count = 0;
  for await (const keys of pagesOf(db, 'apiKeys')) {
    count += keys.length;
    const { first, last } = await revisionsOf(
      db,
      'key',
      keys.map(({ id }) => id),
    );
    const entries = await entriesOf(db, [...first.values(), ...last.values()]);
    for (const { id, name, role, keyHash, createdBy, createdAt, revokedAt } of keys) {
      const vouched = last.get(id);
      const made = entries.get(first.get(id)?.entry ?? 0);
      const revokedBy = revokedAt === null ? undefined : entries.get(vouched?.entry ?? 0);
      const described = { name, role, keyHash, revoked: revokedAt !== null, createdBy, createdAt, revokedAt };
      compare('apiKeys', { id, revision: vouched?.revision ?? 0 }, described, vouched, findings, {
        createdBy: made?.personId,
        createdAt: made?.at,
        revokedAt: revokedBy?.at,
      });
    }
  }
  await findOrphans(db, 'key', 'apiKeys', findings);
  return count;
}

/** Who wrote some revisions, and when. */
async function entriesOf(db: Db, revisions: readonly RevisionRow[]) {
  const wanted = [...new Set(revisions.map(({ entry }) => entry))];
  if (wanted.length === 0) return new Map<number, { personId: string; at: string }>();
  const rows = await db
    .selectFrom('entries')
    .select(['seq', 'personId', 'at'])
    .where('seq', 'in', wanted)
    .execute();
  return new Map(rows.map(({ seq, personId, at }) => [seq, { personId, at }]));
}

/** The first and the last revision of some things of a kind. */
async function revisionsOf(db: Db, kind: string, ids: readonly string[]) {
  const first = new Map<string, RevisionRow>();
  const last = new Map<string, RevisionRow>();
  const where = sql`kind = ${kind} and id in (${sql.join(ids)})`;
  for await (const revisions of pagesOf(db, 'revisions', { where })) {
    for (const revision of revisions) {
      if (!first.has(revision.id)) first.set(revision.id, revision);
      last.set(revision.id, revision);
    }
  }
  return { first, last };
}

/** Compares what a row says with its last revision, column by column. */
function compare(
  table: 'lots' | 'people' | 'apiKeys',
  { id, revision }: { readonly id: string; readonly revision: number },
  described: Readonly<Record<string, unknown>>,
  last: RevisionRow | undefined,
  { add }: Findings,
  besides: Readonly<Record<string, unknown>> = {},
): void {
  if (!last) {
    const says = `${table} ${id} has no revision, which every row of this table has.`;
    add({ kind: 'inserted', table, key: id, says });
    return;
  }
  const vouched = { ...(parsed(last.body) as object), ...besides, revision: last.revision } as Record<
    string,
    unknown
  >;
  const differing = Object.entries({ ...described, revision })
    .filter(([column, value]) => plain(value) !== plain(vouched[column]))
    .map(([column]) => column);
  if (differing.length === 0) return;
  const says = `${table} ${id} differs from its last revision, ${last.revision}, in: ${differing.join(', ')}.`;
  add({ kind: 'altered', table, key: id, entry: last.entry, says });
}

/** A truth is 0 or 1 in a table and may be true or false in a revision. */
function plain(value: unknown): string {
  return JSON.stringify(typeof value === 'boolean' ? Number(value) : (value ?? null));
}

/** A text that was altered may be no JSON any more; then it differs from what it should be, and that is said. */
function parsed(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return body;
  }
}

const TABLE_NAMES = { lots: 'lots', people: 'people', apiKeys: 'api_keys' } as const;

/** Things of which there is a revision but no row. */
async function findOrphans(
  db: Db,
  kind: string,
  table: 'lots' | 'people' | 'apiKeys',
  { add }: Findings,
): Promise<void> {
  const where = sql`kind = ${kind} and revision = 1 and not exists
    (select 1 from ${sql.table(TABLE_NAMES[table])} as one where one.id = revisions.id)`;
  for await (const rows of pagesOf(db, 'revisions', { where })) {
    for (const { id, entry } of rows) {
      add({
        kind: 'removed',
        table,
        key: id,
        entry,
        says: `${table} ${id} is missing; entry ${entry} made it.`,
      });
    }
  }
}

/** @returns how many batches there are. */
export async function verifyBatches(db: Db, { add }: Findings): Promise<number> {
  let count = 0;
  for await (const batches of pagesOf(db, 'batches')) {
    count += batches.length;
    const ids = batches.map(({ id }) => id);
    const counted = await countSteps(db, ids);
    const standing = await standingOf(db, ids);
    for (const { id, steps, entry, state, productId, day } of batches) {
      const stands = standing.get(id);
      if (stands && (stands.state !== state || stands.productId !== productId || stands.day !== day)) {
        const says = `Batch ${id} says that it is ${productId} of ${day}, ${state}; by its steps it is ${stands.productId} of ${stands.day}, ${stands.state}.`;
        add({ kind: 'altered', table: 'batches', key: id, says });
      }
      const there = counted.get(id) ?? { count: 0, last: 0, entry };
      if (there.count !== steps || there.last !== steps) {
        const says = `Batch ${id} says that it has ${steps} steps; there are ${there.count}, numbered up to ${there.last}.`;
        add({ kind: 'does not add up', table: 'batches', key: id, says });
      }
      if (there.entry !== entry) {
        const says = `Batch ${id} says that entry ${entry} made it; its first step is of entry ${there.entry}.`;
        add({ kind: 'altered', table: 'batches', key: id, entry: there.entry, says });
      }
    }
  }
  const where = sql`number = 1 and not exists (select 1 from batches where batches.id = batch_steps.batch_id)`;
  for await (const rows of pagesOf(db, 'batchSteps', { where })) {
    for (const { batchId, entry } of rows) {
      const says = `Batch ${batchId} is missing; entry ${entry} made it.`;
      add({ kind: 'removed', table: 'batches', key: batchId, entry, says });
    }
  }
  return count;
}

/** What the steps of batches make of them. */
async function standingOf(db: Db, batchIds: readonly string[]) {
  const rows = await db
    .selectFrom('batchSteps')
    .select(['batchId', 'kind'])
    .select(({ eb }) => eb.case().when('number', '=', 1).then(eb.ref('body')).else(null).end().as('plan'))
    .where('batchId', 'in', batchIds)
    .orderBy('batchId')
    .orderBy('number')
    .execute();
  const standing = new Map<string, { state: BatchState; productId: string; day: string }>();
  for (const { batchId, kind, plan } of rows) {
    const before = standing.get(batchId) ?? planned(plan);
    standing.set(batchId, { ...before, state: stateAfter(before.state, kind as StepKind) });
  }
  return standing;
}

function planned(plan: string | null): { state: BatchState; productId: string; day: string } {
  const { productId = '', date = '' } = readPlan(plan);
  return { state: 'planned', productId, day: date };
}

/** A text that is no plan any more is found as an altered row; here it only must not end the check. */
function readPlan(plan: string | null): { productId?: string; date?: string } {
  try {
    return (JSON.parse(plan ?? '{}') ?? {}) as { productId?: string; date?: string };
  } catch {
    return {};
  }
}

async function countSteps(db: Db, batchIds: readonly string[]) {
  const rows = await db
    .selectFrom('batchSteps')
    .select(({ fn }) => [
      'batchId',
      fn.countAll<number>().as('count'),
      fn.max<number, 'number'>('number').as('last'),
      fn.min<number, 'entry'>('entry').as('entry'),
    ])
    .where('batchId', 'in', batchIds)
    .groupBy('batchId')
    .execute();
  return new Map(rows.map(({ batchId, count, last, entry }) => [batchId, { count, last, entry }]));
}
