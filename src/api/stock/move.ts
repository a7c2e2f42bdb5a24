import { INDISTINGUISHABLE_UG, kilogramsOfMicrograms, micrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { refuseChanged } from '../../store/history.ts';
import { book, lotOrRefuse, type NewMovement } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow, MovementRow } from '../../store/schema.ts';
import type { Writing, Written } from '../../store/store.ts';
import { massText } from '../../units.ts';
import { type Books, change } from '../books.ts';
import { reasonedSchema } from '../contract/lots.ts';
import { type MovementRequest, movementSchema } from '../contract/movements.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { materialOfLot, type PlantBooks } from '../plant-of-store.ts';
import { wholeLot } from './lot-view.ts';
import { movementAnswers, reversalsOf } from './movement-view.ts';
import { onePackUg, packsLeft } from './packs.ts';
import { underWay } from './people.ts';
import { bothUnits, freeing, promisedTo, refuseUnfitForUse, takenDetails, takenUg } from './take.ts';
import { notReviewed } from './unreviewed.ts';

/** A lot is counted, or some of it leaves: what people book by hand. */
export async function moveLot(books: Books, call: Call): Promise<Answer> {
  const wanted = parseOrProblem(movementSchema, call.body);
  const { id = '' } = call.params;
  const data = await books.plant();
  const subject = { kind: 'lot', id };
  return change(books, call, { action: `lot ${wanted.kind}`, subject }, async (writing) => {
    const row = await lotOrRefuse(writing.db, id);
    await refuseChanged(writing.db, subject, row.version, call.ifVersion, data.plant.timeZone);
    const movement =
      wanted.kind === 'adjusted'
        ? await adjustment(writing.db, data, row, wanted)
        : await leaving(writing, row, wanted);
    return booked(writing, movement, `${moved(movement, data)}${wordsOf(wanted)}`);
  });
}

type Counted = Extract<MovementRequest, { kind: 'adjusted' }>;
type Leaving = Exclude<MovementRequest, Counted>;

async function adjustment(db: Db, data: PlantBooks, row: LotRow, wanted: Counted): Promise<NewMovement> {
  const { countedUg, entered, path } = await countOf(db, row, wanted);
  const { reason } = wanted;
  const massUg = countedUg - row.onHandUg;
  if (Math.abs(massUg) <= INDISTINGUISHABLE_UG) {
    const message = `lot ${row.id} has ${bothUnits(row.onHandUg)} on hand already; there is nothing to adjust`;
    throw new Refused('unfit', message, path);
  }
  if (countedUg < row.reservedUg) {
    const batches = await promisedTo(db, row.id);
    throw new Refused(
      'short',
      `${bothUnits(row.reservedUg)} of lot ${row.id} is promised to batch ${batches.join(', ')}, more than the ${bothUnits(countedUg)} counted. Count again, ${await freeing(db, batches)}.`,
      path,
    );
  }
  if (massUg > 0) await refuseWithdrawn(db, data, row);
  return { lotId: row.id, kind: 'adjusted', massUg, reservedUg: 0, reason, details: { entered } };
}

/** What was counted, by weight or in packs. */
async function countOf(db: Db, row: LotRow, { counted, countedPacks = 0 }: Counted) {
  if (counted) {
    const { value, unit } = counted;
    return {
      countedUg: micrograms(value, unit),
      entered: { value: String(value), unit },
      path: ['counted'],
    };
  }
  const path = ['countedPacks'];
  const one = await onePackUg(db, row, path);
  // As long as the number is right, a broken pack is none to book.
  const countedUg =
    countedPacks === packsLeft(row.onHandUg, one) ? row.onHandUg : Math.round(one * countedPacks);
  return { countedUg, entered: { value: String(countedPacks), unit: 'packs' }, path };
}

async function leaving({ db, act }: Writing, row: LotRow, wanted: Leaving): Promise<NewMovement> {
  if (wanted.kind !== 'discarded') refuseUnfitForUse(row, act.day, []);
  const massUg = -(await takenUg(db, row, wanted, []));
  const movement = { lotId: row.id, kind: wanted.kind, massUg, reservedUg: 0 };
  const details = takenDetails(wanted);
  if (wanted.kind === 'discarded') return { ...movement, reason: wanted.reason, details };
  const { to, document } = wanted;
  return {
    ...movement,
    details: { ...details, ...(to !== undefined && { to }), ...(document !== undefined && { document }) },
  };
}

/** Nothing may come back on hand that no blend would see. @throws Refused 'unfit'. */
async function refuseWithdrawn(db: Db, { tables }: PlantBooks, row: LotRow): Promise<void> {
  if (row.kind !== 'material' || (await materialOfLot(db, tables, row))) return;
  const { id, ofId } = row;
  throw new Refused('unfit', `The material of lot ${id}, "${ofId}", was withdrawn; add it again first.`);
}

function moved({ kind, massUg }: NewMovement, { plant }: PlantBooks): string {
  const sign = kind === 'adjusted' && massUg > 0 ? '+' : '';
  const shownUg = kind === 'adjusted' ? massUg : Math.abs(massUg);
  return `${sign}${massText(kilogramsOfMicrograms(shownUg), plant.units)} ${kind}`;
}

function wordsOf(wanted: MovementRequest): string {
  if ('reason' in wanted) return `: ${wanted.reason}`;
  const to = wanted.to === undefined ? '' : ` to ${wanted.to}`;
  return wanted.document === undefined ? to : `${to}, document ${wanted.document}`;
}

/** Kinds that people book by hand, and may take back. */
const REVERSIBLE = ['received', 'adjusted', 'discarded', 'sold', 'shipped'];

/** A movement is taken back by another one. */
export async function reverseMovement(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(reasonedSchema, call.body);
  const { seq: number = '' } = call.params;
  const data = await books.plant();
  const what = { action: 'movement taken back', subject: { kind: 'movement', id: number } };
  return change(books, call, what, async (writing) => {
    const { db } = writing;
    const row = await movementOrRefuse(db, number);
    await refuseIrreversible(db, row);
    const lot = await lotOrRefuse(db, row.lotId);
    const massUg = -row.massUg;
    if (massUg > 0) await refuseWithdrawn(db, data, lot);
    else await takenUg(db, lot, { mass: { value: kilogramsOfMicrograms(-massUg), unit: 'kg' } }, []);
    const { kind, lotId, seq } = row;
    const movement: NewMovement = { lotId, kind, massUg, reservedUg: 0, reverses: seq, reason };
    const much = massText(kilogramsOfMicrograms(Math.abs(massUg)), data.plant.units);
    const says = `movement ${seq} of lot ${lotId} taken back (${much} ${kind}): ${reason}`;
    return { ...(await booked(writing, movement, says)), subject: { kind: 'lot', id: lotId } };
  });
}

async function refuseIrreversible(db: Db, { seq, kind, batchId, reverses }: MovementRow): Promise<void> {
  if (reverses !== null) {
    throw new Refused('out of turn', `Movement ${seq} takes ${reverses} back; book what is right anew.`);
  }
  if (batchId !== null || !REVERSIBLE.includes(kind)) {
    const whose = batchId === null ? '' : ` by batch ${batchId}`;
    throw new Refused(
      'out of turn',
      `Movement ${seq} was ${kind}${whose}; only what was ${REVERSIBLE.join(', ')} by hand is taken back here.`,
    );
  }
  const by = (await reversalsOf(db, [seq])).get(seq);
  if (by !== undefined) {
    throw new Refused('out of turn', `Movement ${seq} was taken back already, by movement ${by}.`);
  }
}

/** @throws Refused 'unknown'. */
export async function movementOrRefuse(db: Db, number: string): Promise<MovementRow> {
  const seq = /^\d{1,15}$/.test(number) ? Number(number) : 0;
  const row = await db.selectFrom('movements').selectAll().where('seq', '=', seq).executeTakeFirst();
  if (row) return row;
  throw new Refused('unknown', `There is no movement "${number}"`);
}

/** Books a movement and shows it with its lot. */
async function booked(writing: Writing, movement: NewMovement, says: string): Promise<Written<Answer>> {
  const { db, act } = writing;
  const seq = await book(writing, movement);
  const [shown] = await movementAnswers(db, [await movementOrRefuse(db, String(seq))], underWay(writing));
  const lot = await wholeLot(db, movement.lotId, act.day, underWay(writing));
  const leaves = movement.reverses === undefined && ['sold', 'shipped'].includes(movement.kind);
  const cautions = leaves ? await notReviewed(db, [await lotOrRefuse(db, movement.lotId)]) : [];
  return {
    says,
    result: { body: { movement: shown, lot, cautions }, version: lot.version, location: `/movements/${seq}` },
  };
}
