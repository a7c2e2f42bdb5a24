import type { Origin } from '../../batch/lot.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { refuseChanged } from '../../store/history.ts';
import { editLot, lotOrRefuse } from '../../store/lots.ts';
import type { LotRow } from '../../store/schema.ts';
import type { Writing, Written } from '../../store/store.ts';
import { kilograms, massText, perKilogram } from '../../units.ts';
import { mayDo, rolesThatMay } from '../access/roles.ts';
import { type Books, change } from '../books.ts';
import { type LotChangeRequest, lotChangeSchema, reasonedSchema } from '../contract/lots.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { Problem } from '../problem.ts';
import { refuseIssues } from './issues.ts';
import { dateIssues } from './lot-dates.ts';
import { bodyOf, type StoredLot, wholeLot } from './lot-view.ts';
import { underWay } from './people.ts';

/** What is known of a lot changes: its days, its state, its place, its price. */
export async function changeLot(books: Books, call: Call): Promise<Answer> {
  const wanted = parseOrProblem(lotChangeSchema, call.body);
  if (wanted.cost && !mayDo(call.caller.role, 'plan')) {
    const who = rolesThatMay('plan').join(' or ');
    throw new Problem('not-allowed', `Only ${who} may change what a lot costs; take cost out or ask one.`);
  }
  return changed(books, call, 'lot changed', async (writing, row, { plant }) => {
    const next = changedBody(row, wanted);
    const useByDay = wanted.useByDate === undefined ? row.useByDay : wanted.useByDate;
    refuseIssues(dateIssuesOf(row, wanted, next, useByDay, writing.act.day));
    await editLot(writing, row.id, {
      body: next,
      ...(useByDay !== null && { useByDay }),
      held: row.held === 1,
    });
    return changeText(row, wanted, plant);
  });
}

/** Only what is changed is checked, so that an old fault does not bar a new place. */
function dateIssuesOf(
  { receivedDay }: LotRow,
  wanted: LotChangeRequest,
  { packedDate }: StoredLot,
  useByDay: string | null,
  today: string,
) {
  if (wanted.useByDate === undefined && wanted.packedDate === undefined) return [];
  return dateIssues({ receivedDate: receivedDay, packedDate, useByDate: useByDay ?? undefined }, today);
}

const BOUGHT = ['supplierEstablishment', 'supplierLot', 'box', 'packedDate', 'origin'] as const;

function changedBody(row: LotRow, wanted: LotChangeRequest): StoredLot {
  const misplaced = BOUGHT.find((field) => row.kind !== 'material' && wanted[field] !== undefined);
  if (misplaced) {
    const message = `lot ${row.id} was made here, not bought; take the field out`;
    throw new Refused('unfit', message, [misplaced]);
  }
  const { state, cost, box, location, supplierEstablishment, supplierLot, packedDate, origin } = wanted;
  const fields = {
    ...bodyOf(row),
    ...present({ location, supplierEstablishment, supplierLot, packedDate, origin }),
    ...(state !== undefined && { state }),
    ...(cost && { costPerKg: perKilogram(cost.amount, cost.per) }),
    ...(box !== undefined && { boxKg: box && kilograms(box) }),
  };
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null)) as StoredLot;
}

function present<Fields extends object>(fields: Fields): Partial<Fields> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as Partial<Fields>;
}

function changeText(row: LotRow, wanted: LotChangeRequest, { currency }: PlantBooks['plant']): string {
  const { useByDate, state, note, cost, box, origin, ...others } = wanted;
  const told = [
    ...(useByDate === undefined
      ? []
      : [`use-by date ${useByDate ?? 'taken away'}, was ${row.useByDay ?? 'none'}`]),
    ...(state === undefined ? [] : [`${state}, was ${bodyOf(row).state ?? 'unknown'}: ${note}`]),
    ...(cost ? [`cost ${cost.amount} ${currency} per ${cost.per}`] : []),
    ...(box === undefined ? [] : [`box ${box ? `${box.value} ${box.unit}` : 'taken away'}`]),
    ...(origin === undefined ? [] : [originText(origin)]),
    ...Object.entries(present(others)).map(([field, value]) => `${NAMES[field]} ${value ?? 'taken away'}`),
  ];
  return told.join('; ');
}

function originText(origin: Origin | null): string {
  if (origin === null) return 'origin taken away';
  return `born in ${origin.bornIn}, raised in ${origin.raisedIn}, slaughtered in ${origin.slaughteredIn}`;
}

const NAMES: Readonly<Record<string, string>> = {
  packedDate: 'packed date',
  location: 'location',
  supplierEstablishment: 'supplier Est.',
  supplierLot: "supplier's lot",
};

/** A lot that is on hold goes into no batch. */
export async function holdLot(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(reasonedSchema, call.body);
  return changed(books, call, 'lot put on hold', async (writing, row, { plant }) => {
    const { holdReason, ...body } = bodyOf(row);
    if (row.held) {
      throw new Refused('out of turn', `Lot ${row.id} is on hold already: ${holdReason}. Release it first.`);
    }
    await editLot(writing, row.id, keeping(row, { ...body, holdReason: reason }, true));
    const promised = massText(kilogramsOfMicrograms(row.reservedUg), plant.units);
    return `put on hold: ${reason}${row.reservedUg > 0 ? ` (${promised} of it promised to batches)` : ''}`;
  });
}

/** The hold is over: the lot may be used again. */
export async function releaseLot(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(reasonedSchema, call.body);
  return changed(books, call, 'lot released', async (writing, row) => {
    if (!row.held) {
      throw new Refused('out of turn', `Lot ${row.id} is not on hold; there is nothing to release.`);
    }
    const { holdReason, ...body } = bodyOf(row);
    await editLot(writing, row.id, keeping(row, body, false));
    return `released from hold (${holdReason}): ${reason}`;
  });
}

function keeping({ useByDay }: LotRow, body: StoredLot, held: boolean) {
  return { body, held, ...(useByDay !== null && { useByDay }) };
}

/** One change to the description of a lot that is still as it was read. */
async function changed(
  books: Books,
  call: Call,
  action: string,
  edit: (writing: Writing, row: LotRow, data: PlantBooks) => Promise<string>,
): Promise<Answer> {
  const { id = '' } = call.params;
  const data = await books.plant();
  const subject = { kind: 'lot', id };
  return change(books, call, { action, subject }, async (writing): Promise<Written<Answer>> => {
    const row = await lotOrRefuse(writing.db, id);
    await refuseChanged(writing.db, subject, row.version, call.ifVersion, data.plant.timeZone);
    const says = await edit(writing, row, data);
    const lot = await wholeLot(writing.db, id, writing.act.day, underWay(writing));
    return { says, result: { body: lot, version: lot.version } };
  });
}
