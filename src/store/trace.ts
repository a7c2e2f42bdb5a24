import { sql } from 'kysely';
import type { MovementKind } from '../ledger/movement.ts';
import {
  batchPlace,
  type Direction,
  type Flow,
  grouped,
  idsOf,
  levelsOf,
  lotPlace,
  type Place,
  sharesOf,
  type Whereabouts,
} from '../ledger/trace.ts';
import { type Step, stepsOf } from '../making/batch.ts';
import { standingWeighings } from '../making/weighing.ts';
import type { Db } from './open.ts';
import type { BatchRow, LotRow } from './schema.ts';
import type { Dialect } from './store-url.ts';

/**
 * Follows weight through the books, breadth first: a few questions for each step away from the start, each of them
 * answered by an index on what was found one step before. Years of other lots do not slow it down.
 */

/** A lot on the way, with what its movements add up to; weights are micrograms. */
export interface TracedLot {
  readonly row: LotRow;
  /** All that ever came onto it: received, produced or packed. */
  readonly cameUg: number;
  /** What counts found: above 0 more than the books had, below 0 less. */
  readonly adjustedUg: number;
  readonly samplesUg: number;
  readonly discardedUg: number;
}

export interface TracedBatch {
  readonly id: string;
  readonly row?: BatchRow;
  /** Everything weighed in, with what has no lot, such as water. */
  readonly weighedUg: number;
  readonly withoutLot: readonly { readonly materialId: string; readonly massUg: number }[];
  /** Product and rework. */
  readonly producedUg: number;
  readonly isFinished: boolean;
  /** Thrown away at the end of the batch. */
  readonly discardedUg: number;
}

/** Weight that left the plant. */
export interface Leaving {
  readonly seq: number;
  readonly lotId: string;
  readonly kind: 'sold' | 'shipped';
  readonly massUg: number;
  readonly to?: string;
  readonly document?: string;
  readonly day: string;
  readonly at: string;
}

export interface Tracing {
  readonly direction: Direction;
  readonly starts: readonly Place[];
  /** Places by their distance; the starts are the first. */
  readonly levels: readonly (readonly Place[])[];
  readonly flows: readonly Flow[];
  /** What part of each place may stem from the starts, or of the starts from each place: an estimate. */
  readonly shares: ReadonlyMap<Place, number>;
  readonly lots: ReadonlyMap<string, TracedLot>;
  readonly batches: ReadonlyMap<string, TracedBatch>;
  /** Only forward. */
  readonly leavings: readonly Leaving[];
}

/**
 * Forward to everything that was made with what is in the starts, or back to everything that they were made of.
 * @param starts places that are in the books.
 */
export async function traceFrom(db: Db, starts: readonly Place[], direction: Direction): Promise<Tracing> {
  const seen = new Set(starts);
  const lots = new Map<string, TracedLot>();
  const batches = new Map<string, TracedBatch>();
  const flows: Flow[] = [];
  for (let level: readonly Place[] = [...seen]; level.length > 0; ) {
    const found = await lookAt(db, level, direction);
    for (const lot of found.lots) lots.set(lot.row.id, lot);
    for (const batch of found.batches) batches.set(batch.id, batch);
    flows.push(...found.flows);
    const next = new Set(found.flows.map(({ from, to }) => (direction === 'forward' ? to : from)));
    level = [...next].filter((place) => !seen.has(place));
    for (const place of level) seen.add(place);
  }
  const inflowUg = new Map<Place, number>([
    ...[...lots].map(([id, { cameUg }]) => [lotPlace(id), cameUg] as const),
    ...[...batches].map(([id, { weighedUg }]) => [batchPlace(id), weighedUg] as const),
  ]);
  return {
    direction,
    starts,
    levels: levelsOf(starts, flows, direction),
    flows,
    shares: sharesOf(starts, flows, inflowUg, direction),
    lots,
    batches,
    leavings: direction === 'forward' ? await leavingsOf(db, [...lots.keys()]) : [],
  };
}

interface Looked {
  readonly lots: readonly TracedLot[];
  readonly batches: readonly TracedBatch[];
  /** That lead on. */
  readonly flows: readonly Flow[];
}

async function lookAt(db: Db, level: readonly Place[], direction: Direction): Promise<Looked> {
  const lotIds = idsOf(level, 'lot');
  const batchIds = idsOf(level, 'batch');
  const lotSums = await sumsOfLots(db, lotIds, direction === 'forward' ? WEIGHT_KINDS : CAME_KINDS);
  const batchSums = await sumsOfBatches(db, batchIds);
  const flows = [
    ...lotSums.flatMap((sum) => (direction === 'forward' ? flowOutOfLot(sum) : flowIntoLot(sum))),
    ...batchSums.flatMap((sum) => (direction === 'forward' ? flowIntoLot(sum) : flowOutOfLot(sum))),
  ];
  return {
    lots: tracedLots(await lotRows(db, lotIds), lotSums),
    batches: await tracedBatches(db, batchIds, batchSums),
    flows,
  };
}

/** Movements of one kind between the same two places, added up: what was taken back is not in it. */
interface Sum {
  readonly lotId: string;
  readonly kind: MovementKind;
  readonly batchId: string | null;
  readonly otherLotId: string | null;
  readonly massUg: number;
}

const CAME_KINDS: readonly MovementKind[] = ['received', 'produced', 'packed', 'set aside'];
/** Weight that goes from one lot straight to another. */
const LOT_TO_LOT: readonly MovementKind[] = ['packed', 'set aside'];
const WEIGHT_KINDS: readonly MovementKind[] = [
  ...CAME_KINDS,
  'weighed',
  'adjusted',
  'tested',
  'discarded',
  'sold',
  'shipped',
];

async function sumsOfLots(db: Db, lotIds: readonly string[], kinds: readonly MovementKind[]): Promise<Sum[]> {
  return inParts(lotIds, async (part) => {
    const rows = await sums(db).where('lotId', 'in', part).where('kind', 'in', kinds).execute();
    return rows.map((row) => ({ ...row, massUg: Number(row.massUg) }));
  });
}

async function sumsOfBatches(db: Db, batchIds: readonly string[]): Promise<Sum[]> {
  return inParts(batchIds, async (part) => {
    const rows = await sums(db)
      .where('batchId', 'in', part)
      .where('kind', 'in', ['weighed', 'produced'])
      .execute();
    return rows.map((row) => ({ ...row, massUg: Number(row.massUg) }));
  });
}

function sums(db: Db) {
  return db
    .selectFrom('movements')
    .select(['lotId', 'kind', 'batchId', 'otherLotId', ({ fn }) => fn.sum<number>('massUg').as('massUg')])
    .groupBy(['lotId', 'kind', 'batchId', 'otherLotId'])
    .orderBy('lotId')
    .orderBy('kind')
    .orderBy('batchId')
    .orderBy('otherLotId');
}

function flowOutOfLot({ lotId, kind, batchId, otherLotId, massUg }: Sum): Flow[] {
  if (massUg >= 0) return [];
  const from = lotPlace(lotId);
  if (kind === 'weighed' && batchId !== null) return [{ from, to: batchPlace(batchId), massUg: -massUg }];
  if (LOT_TO_LOT.includes(kind) && otherLotId !== null)
    return [{ from, to: lotPlace(otherLotId), massUg: -massUg }];
  return [];
}

function flowIntoLot({ lotId, kind, batchId, otherLotId, massUg }: Sum): Flow[] {
  if (massUg <= 0) return [];
  const to = lotPlace(lotId);
  if (kind === 'produced' && batchId !== null) return [{ from: batchPlace(batchId), to, massUg }];
  if (LOT_TO_LOT.includes(kind) && otherLotId !== null) return [{ from: lotPlace(otherLotId), to, massUg }];
  return [];
}

function tracedLots(rows: readonly LotRow[], found: readonly Sum[]): TracedLot[] {
  const byLot = grouped(found, ({ lotId }) => lotId);
  return rows.map((row) => {
    const own = byLot.get(row.id) ?? [];
    const total = (kind: MovementKind) => totalUg(own.filter((sum) => sum.kind === kind));
    return {
      row,
      cameUg: totalUg(own.filter(({ kind, massUg }) => CAME_KINDS.includes(kind) && massUg > 0)),
      adjustedUg: total('adjusted'),
      samplesUg: 0 - total('tested'),
      discardedUg: 0 - total('discarded'),
    };
  });
}

async function tracedBatches(
  db: Db,
  batchIds: readonly string[],
  found: readonly Sum[],
): Promise<TracedBatch[]> {
  const rows = new Map(
    (
      await inParts(batchIds, (part) =>
        db.selectFrom('batches').selectAll().where('id', 'in', part).execute(),
      )
    ).map((row) => [row.id, row]),
  );
  const steps = await stepsOfBatches(db, batchIds, ['weighing', 'taken back', 'finished']);
  const byBatch = grouped(found, ({ batchId }) => batchId ?? '');
  return batchIds.map((id) => {
    const own = byBatch.get(id) ?? [];
    const row = rows.get(id);
    const taken = steps.get(id) ?? [];
    const withoutLot = standingWeighings(taken).flatMap(({ body: { lotId, materialId, massUg } }) =>
      lotId === undefined ? [{ materialId, massUg }] : [],
    );
    const finished = stepsOf(taken, 'finished').at(-1);
    return {
      id,
      ...(row && { row }),
      weighedUg: totalUg(withoutLot) - totalUg(own.filter(({ kind }) => kind === 'weighed')),
      withoutLot,
      producedUg: totalUg(own.filter(({ kind }) => kind === 'produced')),
      isFinished: finished !== undefined,
      discardedUg: totalUg(finished?.body.discarded ?? []),
    };
  });
}

/** Steps of some kinds, of each of these batches in turn. */
export async function stepsOfBatches(
  db: Db,
  batchIds: readonly string[],
  kinds: readonly Step['kind'][],
): Promise<Map<string, Step[]>> {
  const rows = await inParts(batchIds, (part) =>
    db
      .selectFrom('batchSteps')
      .selectAll()
      .where('batchId', 'in', part)
      .where('kind', 'in', kinds)
      .orderBy('batchId')
      .orderBy('number')
      .execute(),
  );
  const taken = rows.map(({ batchId, number, kind, body, at, day, person }) => ({
    batchId,
    step: { number, kind, body: JSON.parse(body), at, day, person } as Step,
  }));
  return new Map(
    [...grouped(taken, ({ batchId }) => batchId)].map(([id, own]) => [id, own.map(({ step }) => step)]),
  );
}

export async function lotRows(db: Db, lotIds: readonly string[]): Promise<LotRow[]> {
  return inParts(lotIds, (part) =>
    db.selectFrom('lots').selectAll().where('id', 'in', part).orderBy('id').execute(),
  );
}

/** Sales and shipments that were not taken back. */
async function leavingsOf(db: Db, lotIds: readonly string[]): Promise<Leaving[]> {
  const rows = await inParts(lotIds, (part) =>
    db
      .selectFrom('movements')
      .select(['seq', 'lotId', 'kind', 'massUg', 'reverses', 'details', 'day', 'at'])
      .where('lotId', 'in', part)
      .where('kind', 'in', ['sold', 'shipped'])
      .execute(),
  );
  const takenBack = new Set(rows.flatMap(({ reverses }) => reverses ?? []));
  return rows
    .filter(({ seq, reverses }) => reverses === null && !takenBack.has(seq))
    .sort((one, other) => one.seq - other.seq)
    .map(({ seq, lotId, kind, massUg, details, day, at }) => {
      const { to, document } = JSON.parse(details ?? '{}') as Pick<Leaving, 'to' | 'document'>;
      return {
        seq,
        lotId,
        kind: kind as Leaving['kind'],
        massUg: 0 - massUg,
        ...(to !== undefined && { to }),
        ...(document !== undefined && { document }),
        day,
        at,
      };
    });
}

/** What the books say became of everything that a forward trace found. */
export function whereaboutsOf({ lots, batches, leavings }: Tracing): Whereabouts {
  const all = [...lots.values()];
  const onHand = (kind: string) =>
    all.reduce((sum, { row }) => sum + (row.kind === kind ? row.onHandUg : 0), 0);
  const open = [...batches.values()].filter(({ isFinished }) => !isFinished);
  const finished = [...batches.values()].filter(({ isFinished }) => isFinished);
  const missing = (some: readonly TracedBatch[]) =>
    some.reduce((sum, { weighedUg, producedUg }) => sum + weighedUg - producedUg, 0);
  const discardedAtEnd = finished.reduce((sum, { discardedUg }) => sum + discardedUg, 0);
  return {
    onHand: { material: onHand('material'), bulk: onHand('bulk'), packs: onHand('pack') },
    inProcess: missing(open),
    shipped: byConsignee(leavings.filter(({ kind }) => kind === 'shipped')),
    sold: byConsignee(leavings.filter(({ kind }) => kind === 'sold')),
    soldAtCounter: totalUg(leavings.filter(({ to }) => to === undefined)),
    discarded: discardedAtEnd + all.reduce((sum, { discardedUg }) => sum + discardedUg, 0),
    samples: all.reduce((sum, { samplesUg }) => sum + samplesUg, 0),
    lossInProcess: missing(finished) - discardedAtEnd,
    countedShort: all.reduce((sum, { adjustedUg }) => sum + Math.max(0, -adjustedUg), 0),
  };
}

function byConsignee(leavings: readonly Leaving[]): Map<string, number> {
  const known = new Map<string, number>();
  for (const { to, massUg } of leavings) if (to !== undefined) known.set(to, (known.get(to) ?? 0) + massUg);
  return known;
}

export interface SupplierLot {
  readonly supplierLot: string;
  /** Of any supplier when absent. */
  readonly supplierEstablishment?: string;
}

/** Lots that came under a number of the supplier. */
export async function lotsOfSupplierLot(
  db: Db,
  dialect: Dialect,
  { supplierLot, supplierEstablishment }: SupplierLot,
): Promise<string[]> {
  // Written as the index on it is, or the database would read every lot.
  const field =
    dialect === 'SQLite' ? sql`json_extract(body, '$.supplierLot')` : sql`(body::jsonb ->> 'supplierLot')`;
  const rows = await db
    .selectFrom('lots')
    .select(['id', 'body'])
    .where(sql<boolean>`${field} = ${supplierLot}`)
    .orderBy('id')
    .execute();
  const establishment = (body: string) =>
    (JSON.parse(body) as { readonly supplierEstablishment?: string }).supplierEstablishment;
  return rows.flatMap(({ id, body }) =>
    supplierEstablishment === undefined || establishment(body) === supplierEstablishment ? [id] : [],
  );
}

/** Most ids in one question; databases take so many parameters and not many more. */
const MOST_IDS = 1_000;

async function inParts<Row>(
  ids: readonly string[],
  ask: (part: readonly string[]) => Promise<readonly Row[]>,
): Promise<Row[]> {
  const rows: Row[] = [];
  for (let start = 0; start < ids.length; start += MOST_IDS) {
    for (const row of await ask(ids.slice(start, start + MOST_IDS))) rows.push(row);
  }
  return rows;
}

function totalUg(parts: readonly { readonly massUg: number }[]): number {
  return parts.reduce((sum, { massUg }) => sum + massUg, 0);
}
