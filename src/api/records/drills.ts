import { micrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { accountedElsewhereUg, affectedUg, lotPlace } from '../../ledger/trace.ts';
import { editLot } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import { addRecord, listRecords } from '../../store/records.ts';
import type { LotRow, RecordRow } from '../../store/schema.ts';
import type { Writing } from '../../store/store.ts';
import { type TracedLot, type Tracing, traceFrom, whereaboutsOf } from '../../store/trace.ts';
import { fixed } from '../../units.ts';
import { mayDo, rolesThatMay } from '../access/roles.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { Problem } from '../problem.ts';
import { bodyOf, weight } from '../stock/lot-view.ts';
import { sameGrinder } from './at-grinder.ts';
import { type DrillAnswer, drillFinishSchema, drillSchema } from './contract.ts';
import { timeAt } from './times.ts';
import { consigneeAnswer, nameOfLot, percentOf, type Start, startAnswer, startOf } from './trace.ts';
import { COUNTS, whereaboutsAnswer } from './whereabouts.ts';

/**
 * A recall drill is two records under one id: what the books knew when it started, and what was found when it ended.
 */

type Started = Omit<DrillAnswer, 'state' | 'finished' | 'records'>;
type Finished = NonNullable<DrillAnswer['finished']>;
type StartBody = Started & { readonly part: 'start' };
type FinishBody = Finished & { readonly part: 'finish'; readonly of: number };

/** Starts a drill: everything that was made of the lot, where it is and who got it. */
export async function startDrill(books: Books, call: Call): Promise<Answer> {
  const { reason, hold, ...wanted } = parseOrProblem(drillSchema, call.body);
  if (hold && !mayDo(call.caller.role, 'plan')) {
    const who = rolesThatMay('plan').join(' or ');
    throw new Problem(
      'not-allowed',
      `Only ${who} may put all lots on hold at once; take hold out or ask one.`,
    );
  }
  const data = await books.plant();
  const what = { action: 'recall drill started', subject: { kind: 'recall drill', id: '' } };
  return change(books, call, what, async (writing) => {
    const { db, act } = writing;
    const start = await startOf(db, books.store, wanted).catch(inBody(wanted));
    const id = await nextDrillId(db, act.day);
    const tracing = await traceFrom(db, start.places, 'forward');
    const putOnHold = hold ? await holdAll(writing, tracing, `recall drill ${id}: ${reason}`) : [];
    const body = {
      ...startedView(data, tracing, start, { id, reason, putOnHold }),
      sameGrinder: await sameGrinder(db, tracing.batches),
      ...signature(data, writing),
    };
    const seq = await addRecord(writing, 'recall drill', id, { part: 'start', ...body } satisfies StartBody);
    const percent = fixed(body.whereabouts.percentAccounted, 1);
    return {
      says: `from ${start.says}: ${percent} % accounted for in the books, ${putOnHold.length} lots put on hold`,
      subject: { kind: 'recall drill', id },
      result: { body: drillOf(seq, body, undefined), location: `/recall-drills/${id}` },
    };
  });
}

/** A thing that a body names and that is not there is no missing page. */
function inBody(wanted: object): (error: unknown) => never {
  const [field = 'lotId'] = Object.entries(wanted).flatMap(([name, value]) =>
    value === undefined ? [] : [name],
  );
  return (error) => {
    if (error instanceof Refused && error.code === 'unknown')
      throw new Refused(error.code, error.message, [field]);
    throw error;
  };
}

/** The day and a running number, such as 261125-D1. */
async function nextDrillId(db: Db, day: string): Promise<string> {
  const today = await listRecords(db, { kinds: ['recall drill'], fromDay: day, toDay: day });
  const starts = today.filter(({ body }) => (JSON.parse(body) as { part: string }).part === 'start');
  return `${day.slice(2).replaceAll('-', '')}-D${starts.length + 1}`;
}

async function holdAll(writing: Writing, { lots }: Tracing, holdReason: string): Promise<string[]> {
  const wanted = onHandLots(lots).filter(({ row }) => row.held === 0);
  for (const { row } of wanted) await editLot(writing, row.id, held(row, holdReason));
  return wanted.map(({ row }) => row.id);
}

function held(row: LotRow, holdReason: string) {
  const { useByDay } = row;
  return { body: { ...bodyOf(row), holdReason }, held: true, ...(useByDay !== null && { useByDay }) };
}

function onHandLots(lots: Tracing['lots']): TracedLot[] {
  return [...lots.values()].filter(({ row }) => row.onHandUg > 0);
}

function startedView(
  data: PlantBooks,
  tracing: Tracing,
  start: Start,
  about: { readonly id: string; readonly reason: string; readonly putOnHold: readonly string[] },
): Omit<Started, 'started' | 'startedBy'> {
  const { name, establishment, units, timeZone } = data.plant;
  const { lots, batches, leavings, shares } = tracing;
  const putOnHold = [...about.putOnHold];
  return {
    ...about,
    putOnHold,
    plant: name,
    establishment,
    units,
    timeZone,
    start: startAnswer(start),
    batches: [...batches.keys()],
    lots: onHandLots(lots).map(({ row }) => ({
      lotId: row.id,
      kind: row.kind,
      of: nameOfLot(data, row),
      onHand: weight(row.onHandUg),
      held: row.held === 1 || putOnHold.includes(row.id),
      share: shares.get(lotPlace(row.id)) ?? 0,
    })),
    consignees: leavings.map((leaving) => consigneeAnswer(tracing, leaving)),
    whereabouts: whereaboutsAnswer(whereaboutsOf(tracing)),
    counts: COUNTS,
  };
}

function signature({ plant }: PlantBooks, { act }: Writing) {
  return { started: timeAt(plant.timeZone, act.at), startedBy: act.by.name };
}

/** Ends a drill: what was found is held against the books as they stand now. */
export async function finishDrill(books: Books, call: Call): Promise<Answer> {
  const { found, contacted, note } = parseOrProblem(drillFinishSchema, call.body);
  const { id = '' } = call.params;
  const { plant } = await books.plant();
  const what = { action: 'recall drill finished', subject: { kind: 'recall drill', id } };
  return change(books, call, what, async (writing) => {
    const { db, act } = writing;
    const { start, finish } = await drillRecords(db, id);
    if (finish)
      throw new Refused('out of turn', `Recall drill ${id} is finished already; start another one.`);
    const begun = JSON.parse(start.body) as StartBody;
    const { lotIds, batchIds } = begun.start;
    const places = [...lotIds.map(lotPlace), ...batchIds.map((one) => `batch ${one}` as const)];
    const tracing = await traceFrom(db, places, 'forward');
    const counts = countedAgainst(tracing, found);
    refuseStrangers(tracing, contacted ?? []);
    const where = whereaboutsOf(tracing);
    const accounted = accountedElsewhereUg(where) + counts.reduce((sum, { knownUg }) => sum + knownUg, 0);
    const body: Finished = {
      time: timeAt(plant.timeZone, act.at),
      by: act.by.name,
      minutes: Math.round((Date.parse(act.at) - Date.parse(begun.started.at)) / 600) / 100,
      counted: counts.map(({ answer }) => answer),
      ...(contacted && { contacted }),
      whereabouts: whereaboutsAnswer(where),
      accounted: weight(accounted),
      percentAccounted: percentOf(accounted, affectedUg(where)),
      ...(note !== undefined && { note }),
    };
    const record = { part: 'finish', of: start.seq, ...body } satisfies FinishBody;
    const seq = await addRecord(writing, 'recall drill', id, record);
    return {
      says: `${fixed(body.minutes, 1)} minutes, ${fixed(body.percentAccounted, 1)} % of the weight accounted for`,
      result: { body: drillOf(start.seq, begun, { seq, body: record }), location: `/recall-drills/${id}` },
    };
  });
}

/** @throws Refused 'unfit' for someone who got none of it, or who stands twice. */
function refuseStrangers({ leavings }: Tracing, contacted: readonly { readonly to: string }[]): void {
  const receivers = new Set(leavings.map(({ to }) => to));
  contacted.forEach(({ to }, index) => {
    const path = ['contacted', index, 'to'];
    if (!receivers.has(to)) throw new Refused('unfit', `${to} got none of it; take it out`, path);
    if (contacted.findIndex((one) => one.to === to) < index)
      throw new Refused('unfit', `${to} stands twice; take one out`, path);
  });
}

type Found = ReturnType<typeof drillFinishSchema.parse>['found'];

/** Every affected lot that is on hand or was found, with both figures. @throws Refused 'unfit' for a lot that is none of them. */
function countedAgainst({ lots }: Tracing, found: Found) {
  found.forEach(({ lotId }, index) => {
    const path = ['found', index, 'lotId'];
    if (!lots.has(lotId)) throw new Refused('unfit', `Lot ${lotId} is not affected; take it out`, path);
    if (found.findIndex((one) => one.lotId === lotId) < index)
      throw new Refused('unfit', `Lot ${lotId} stands twice; add its weights up`, path);
  });
  const entered = new Map(found.map((one) => [one.lotId, one]));
  const wanted = [...lots.values()].filter(({ row }) => row.onHandUg > 0 || entered.has(row.id));
  return wanted.map(({ row: { id, onHandUg } }) => {
    const { mass, note } = entered.get(id) ?? {};
    const foundUg = mass ? micrograms(mass.value, mass.unit) : 0;
    const words = note ?? (mass ? undefined : 'not looked for or not found');
    return {
      knownUg: Math.min(foundUg, onHandUg),
      answer: {
        lotId: id,
        books: weight(onHandUg),
        found: weight(foundUg),
        difference: weight(foundUg - onHandUg),
        ...(words !== undefined && { note: words }),
      },
    };
  });
}

async function drillRecords(
  db: Db,
  id: string,
): Promise<{ start: RecordRow; finish: RecordRow | undefined }> {
  const [start, finish] = await listRecords(db, { kinds: ['recall drill'], subjectId: id });
  if (start) return { start, finish };
  throw new Refused('unknown', `There is no recall drill "${id}". They are in GET /v1/recall-drills`);
}

function drillOf(
  seq: number,
  started: Started | StartBody,
  finish: { readonly seq: number; readonly body: FinishBody } | undefined,
): DrillAnswer {
  const { part: _, ...view } = { part: 'start', ...started };
  const records = { start: seq, ...(finish && { finish: finish.seq }) };
  if (!finish) return { ...view, state: 'started', records };
  const { part: __, of: ___, ...finished } = finish.body;
  return { ...view, state: 'finished', finished, records };
}

/** One drill. @throws Refused 'unknown'. */
export async function readDrill(db: Db, id: string): Promise<DrillAnswer> {
  const { start, finish } = await drillRecords(db, id);
  return drillOfRows(start, finish);
}

function drillOfRows(start: RecordRow, finish: RecordRow | undefined): DrillAnswer {
  return drillOf(
    start.seq,
    JSON.parse(start.body) as StartBody,
    finish && { seq: finish.seq, body: JSON.parse(finish.body) as FinishBody },
  );
}

/** Drills by their records; a drill stands where its start stands. */
export async function drillsOf(db: Db, rows: readonly RecordRow[]): Promise<DrillAnswer[]> {
  const ids = rows.flatMap(({ body, subjectId }) =>
    (JSON.parse(body) as { part: string }).part === 'start' ? [subjectId] : [],
  );
  const drills: DrillAnswer[] = [];
  for (const id of ids) drills.push(await readDrill(db, id));
  return drills;
}
