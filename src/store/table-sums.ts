import { rowHash } from './hash.ts';

/** How many rows a table has, and what they come to. */
export interface TableSum {
  readonly count: number;
  /**
   * The SHA-256 of every row, added up modulo 2^256: the same in any order, since databases sort text in different
   * ways, and another one as soon as a row is missing, doubled or changed.
   */
  readonly sha256: string;
}
export type TableSums = Readonly<Record<string, TableSum>>;

/** Some rows of one table, on the way from one place to another. */
export interface Page {
  readonly table: string;
  readonly rows: readonly object[];
}

export interface Summing {
  readonly add: (page: Page) => void;
  readonly sums: () => TableSums;
}

const MODULUS = 1n << 256n;

/** Sums up pages as they pass by. Tables without rows are listed too. */
export function summing(tables: readonly string[]): Summing {
  const totals = new Map(tables.map((table) => [table, { count: 0, total: 0n }]));
  return {
    add: ({ table, rows }) => {
      const before = totals.get(table) ?? { count: 0, total: 0n };
      const total = rows.reduce<bigint>((sum, row) => sum + BigInt(`0x${rowHash(row)}`), before.total);
      totals.set(table, { count: before.count + rows.length, total: total % MODULUS });
    },
    sums: () =>
      Object.fromEntries(
        [...totals].map(([table, { count, total }]) => [
          table,
          { count, sha256: total.toString(16).padStart(64, '0') },
        ]),
      ),
  };
}

/** Pages that are summed up as they pass. */
export async function* summed(pages: AsyncIterable<Page>, { add }: Summing): AsyncGenerator<Page> {
  for await (const page of pages) {
    add(page);
    yield page;
  }
}

/** The first difference between two sums, in words; undefined when there is none. */
export function sumsDiffer(wanted: TableSums, found: TableSums): string | undefined {
  for (const [table, { count, sha256 }] of Object.entries(wanted)) {
    const there = found[table];
    if (there?.count !== count)
      return `table ${table} has ${there?.count ?? 0} rows where ${count} are expected`;
    if (there.sha256 !== sha256) return `rows of table ${table} were changed`;
  }
  const more = Object.keys(found).find((table) => !(table in wanted));
  return more === undefined ? undefined : `table ${more} is not expected`;
}
