import { exact, multiply } from '../../exact.ts';
import { kilogramsOfMicrograms, micrograms, microgramsOf } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { book, openLot } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { Writing } from '../../store/store.ts';
import { KILOGRAMS_PER, kilograms, massText, perKilogram } from '../../units.ts';
import { type Books, change } from '../books.ts';
import { type Receipt, receiveSchema } from '../contract/lots.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { materialsOf, type PlantBooks } from '../plant-of-store.ts';
import { recordTest } from './fat-tests.ts';
import { refuseIssues } from './issues.ts';
import { dateIssues } from './lot-dates.ts';
import { type StoredLot, wholeLot } from './lot-view.ts';
import { underWay } from './people.ts';

/** A delivery becomes a lot, with its fat test and its hold where there is one. */
export async function receiveLot(books: Books, call: Call): Promise<Answer> {
  const receipt = parseOrProblem(receiveSchema, call.body);
  const data = await books.plant();
  const what = { action: 'lot received', subject: { kind: 'lot', id: receipt.id ?? '' } };
  return change(books, call, what, async (writing) => {
    const { db, act } = writing;
    const { receivedDate = act.day, packedDate, useByDate, hold, test } = receipt;
    const material = await refuseUnfit(db, data, receipt);
    refuseIssues(dateIssues({ receivedDate, packedDate, useByDate }, act.day));
    const id = receipt.id ?? (await nextLotId(db, act.day));
    await openLot(writing, {
      id,
      kind: 'material',
      ofId: receipt.materialId,
      body: bodyOfReceipt(receipt),
      receivedDay: receivedDate,
      ...(useByDate !== undefined && { useByDay: useByDate }),
      held: hold !== undefined,
    });
    const massUg = await bookReceipt(writing, id, receipt);
    if (test) await recordTest(writing, id, test, material);
    const lot = await wholeLot(db, id, act.day, underWay(writing));
    const much = massText(kilogramsOfMicrograms(massUg), data.plant.units);
    return {
      says: `${much} of ${material.name} received${hold === undefined ? '' : `, on hold: ${hold}`}`,
      subject: { kind: 'lot', id },
      result: { body: lot, version: lot.version, location: `/lots/${encodeURIComponent(id)}` },
    };
  });
}

/** @returns the material. @throws Refused for a material that cannot be received, or an id that a material has. */
async function refuseUnfit(db: Db, { tables }: PlantBooks, { id, materialId }: Receipt) {
  const materials = await materialsOf(db, tables);
  const material = materials.get(materialId);
  if (!material) {
    const message = `"${materialId}": no such material; correct the id, or add the material first (POST /v1/materials)`;
    throw new Refused('unknown', message, ['materialId']);
  }
  if (id !== undefined && materials.has(id)) {
    throw new Refused('unfit', `"${id}" is the id of a material; give the lot another id`, ['id']);
  }
  return material;
}

function bodyOfReceipt(receipt: Receipt): StoredLot {
  const { cost, state, box, boxes, packedDate, measuredFat, hold } = receipt;
  const { supplierEstablishment, supplierLot, location, origin } = receipt;
  const oneBox = box ?? boxes?.mass;
  return {
    costPerKg: perKilogram(cost.amount, cost.per),
    state,
    ...(oneBox && { boxKg: kilograms(oneBox) }),
    ...(packedDate !== undefined && { packedDate }),
    ...(measuredFat && {
      measuredFat: {
        fatFraction: measuredFat.fatFraction,
        method: measuredFat.method,
        ...(measuredFat.sdFraction !== undefined && { sdFraction: measuredFat.sdFraction }),
      },
    }),
    ...(supplierEstablishment !== undefined && { supplierEstablishment }),
    ...(supplierLot !== undefined && { supplierLot }),
    ...(location !== undefined && { location }),
    ...(origin && { origin }),
    ...(hold !== undefined && { holdReason: hold }),
  };
}

async function bookReceipt(writing: Writing, lotId: string, { mass, boxes }: Receipt): Promise<number> {
  const { value, unit } = mass ?? boxes?.mass ?? { value: 0, unit: 'kg' };
  const massUg = boxes
    ? microgramsOf(multiply(multiply(exact(value), KILOGRAMS_PER[unit]), exact(boxes.count)))
    : micrograms(value, unit);
  const details = { entered: { value: String(value), unit }, ...(boxes && { boxes: boxes.count }) };
  await book(writing, { lotId, kind: 'received', massUg, reservedUg: 0, details });
  return massUg;
}

/** The day and a running number, such as L261125-003. */
async function nextLotId(db: Db, day: string): Promise<string> {
  const start = `L${day.slice(2).replaceAll('-', '')}-`;
  const rows = await db.selectFrom('lots').select('id').where('id', 'like', `${start}%`).execute();
  const numbers = rows.flatMap(({ id }) => /^\d{1,9}$/.exec(id.slice(start.length))?.[0] ?? []);
  const next = Math.max(0, ...numbers.map(Number)) + 1;
  return `${start}${String(next).padStart(3, '0')}`;
}
