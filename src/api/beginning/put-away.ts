import type { Product } from '../../batch/product.ts';
import { book } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import { presentOf, revise } from '../../store/revisions.ts';
import type { RevisionRow } from '../../store/schema.ts';
import type { Writing } from '../../store/store.ts';
import { WITHDRAWAL, withdrawalsOf, withdrawTest } from '../../store/tests.ts';

/**
 * What a plant was founded with is put away: receipts are taken back, tests and states withdrawn. No row is changed or
 * taken out, and no meat counts as discarded that never was there.
 */

/** Actions of what the program itself writes into the books. */
export const FOUNDED = 'plant founded';
export const BEGUN = 'plant begun';

const WHY = 'of the demonstration, put away when the plant was begun';

/** Work of people that stands in the books, in words; empty while there is none. */
export async function workBooked(db: Db): Promise<string[]> {
  const counted = async (table: 'batches' | 'movements' | 'tests' | 'records', one: string, many: string) => {
    const { count } = await db
      .selectFrom(table)
      .select(({ fn }) => fn.countAll<number>().as('count'))
      .where(({ eb, selectFrom }) =>
        eb('entry', 'not in', selectFrom('entries').select('seq').where('action', 'in', [FOUNDED, BEGUN])),
      )
      .executeTakeFirstOrThrow();
    return Number(count) === 0 ? [] : [`${count} ${Number(count) === 1 ? one : many}`];
  };
  return [
    ...(await counted('batches', 'batch', 'batches')),
    ...(await counted('movements', 'movement of lots', 'movements of lots')),
    ...(await counted('tests', 'test', 'tests')),
    ...(await counted('records', 'record', 'records')),
  ];
}

/** Takes back what was received, where no work is booked. @returns how many lots. */
export async function putLotsAway(writing: Writing): Promise<number> {
  const received = await writing.db
    .selectFrom('movements')
    .innerJoin('lots', 'lots.id', 'movements.lotId')
    .select(['movements.seq', 'movements.lotId', 'movements.massUg'])
    .where('movements.kind', '=', 'received')
    .where('movements.reverses', 'is', null)
    .where('movements.massUg', '>', 0)
    .where('lots.onHandUg', '>', 0)
    .orderBy('movements.seq')
    .execute();
  for (const { seq, lotId, massUg } of received) {
    await book(writing, {
      lotId,
      kind: 'received',
      massUg: -massUg,
      reservedUg: 0,
      reverses: seq,
      reason: WHY,
    });
  }
  return received.length;
}

/** Withdraws every test of a lot that stands: nothing is learned from them. @returns how many. */
export async function withdrawTests(writing: Writing): Promise<number> {
  const rows = await writing.db.selectFrom('tests').select(['seq', 'subjectKind']).orderBy('seq').execute();
  const tests = rows.filter(({ subjectKind }) => subjectKind !== WITHDRAWAL);
  const withdrawn = await withdrawalsOf(writing.db, tests);
  const standing = tests.filter(({ seq }) => !withdrawn.has(seq));
  for (const { seq } of standing) await withdrawTest(writing, seq, WHY);
  return standing.length;
}

/** Withdraws what of a kind is not kept. @returns the states that stay. */
export async function withdrawOthers(
  writing: Writing,
  kind: string,
  isKept: (row: RevisionRow) => boolean,
): Promise<RevisionRow[]> {
  const rows = await presentOf(writing.db, kind);
  for (const row of rows) {
    if (!isKept(row)) await revise(writing, kind, row.id, JSON.parse(row.body), { withdrawn: true });
  }
  return rows.filter(isKept);
}

const WATER = ['water', 'ice'];

/** Materials that products name, which must have a price before there can be a blend; water always. */
export function materialsNamed(products: readonly Pick<Product, 'seasoning' | 'form'>[]): Set<string> {
  return new Set([
    ...WATER,
    ...products.flatMap(({ seasoning, form: { casingMaterialId } }) => [
      ...seasoning.map(({ materialId }) => materialId),
      ...(casingMaterialId === undefined ? [] : [casingMaterialId]),
    ]),
  ]);
}
