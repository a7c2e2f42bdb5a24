import { Refused } from '../../ledger/refused.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';

/** Packs of one lot are alike: one weighs what was packed over how many there were. */

/** What one pack of each lot weighs, in micrograms and parts of one, by lot; lots that are no packs are not there. */
export async function packUg(db: Db, rows: readonly LotRow[]): Promise<Map<string, number>> {
  const packs = rows.filter(({ kind }) => kind === 'pack');
  if (packs.length === 0) return new Map();
  const made = await db
    .selectFrom('movements')
    .select(['lotId', ({ fn }) => fn.sum<number>('massUg').as('massUg')])
    .where('kind', '=', 'packed')
    .where(
      'lotId',
      'in',
      packs.map(({ id }) => id),
    )
    .groupBy('lotId')
    .execute();
  const packedUg = new Map(made.map(({ lotId, massUg }) => [lotId, Number(massUg)]));
  return new Map(
    packs.flatMap(({ id, body }) => {
      const { count } = JSON.parse(body) as { readonly count?: number };
      const all = packedUg.get(id) ?? 0;
      return count !== undefined && count > 0 && all > 0 ? [[id, all / count] as const] : [];
    }),
  );
}

export function packsLeft(massUg: number, onePackUg: number): number {
  return Math.round(massUg / onePackUg);
}

/**
 * What so many packs weigh; the last ones take all that is there.
 * @throws Refused 'unfit' for a lot that is no packs.
 */
export async function packsUg(
  db: Db,
  row: LotRow,
  count: number,
  thereUg: number,
  path: readonly (string | number)[],
): Promise<number> {
  const one = await onePackUg(db, row, path);
  return count === packsLeft(thereUg, one) ? thereUg : Math.round(one * count);
}

/** What one pack of a lot weighs. @throws Refused 'unfit' for a lot that is no packs. */
export async function onePackUg(db: Db, row: LotRow, path: readonly (string | number)[]): Promise<number> {
  const one = (await packUg(db, [row])).get(row.id);
  if (one !== undefined) return one;
  throw new Refused('unfit', `Lot ${row.id} is not kept in packs; give its mass`, path);
}
