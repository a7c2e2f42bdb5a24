import Sqlite from 'better-sqlite3';
import pg from 'pg';
import { expect, it } from 'vitest';
import { type DatabaseKind, onEachDatabase } from './databases.ts';

type Rows = readonly unknown[];

/** Runs statements on a connection of its own and gives the rows of the last one. */
const RUN: Record<DatabaseKind, (url: string, ...statements: string[]) => Promise<Rows>> = {
  SQLite: async (url, ...statements) => {
    const database = new Sqlite(url);
    try {
      return statements.reduce<Rows>((_, statement) => {
        const prepared = database.prepare(statement);
        if (prepared.reader) return prepared.all();
        prepared.run();
        return [];
      }, []);
    } finally {
      database.close();
    }
  },
  PostgreSQL: async (url, ...statements) => {
    const client = new pg.Client(url);
    await client.connect();
    try {
      let rows: Rows = [];
      for (const statement of statements) rows = (await client.query(statement)).rows;
      return rows;
    } finally {
      await client.end();
    }
  },
};

onEachDatabase((newStoreUrl, kind) => {
  const run = RUN[kind];

  it('keeps what was written after the connection is closed', async () => {
    const url = await newStoreUrl();
    await run(url, 'create table lots (name text)', "insert into lots values ('Grüße 🥩')");
    expect(await run(url, 'select name from lots')).toEqual([{ name: 'Grüße 🥩' }]);
  });

  it('is another database at every call, and empty', async () => {
    const [first, second] = [await newStoreUrl(), await newStoreUrl()];
    await run(first, 'create table lots (name text)');
    await run(second, 'create table lots (name text)', "insert into lots values ('second')");
    expect(await run(first, 'select name from lots')).toEqual([]);
  });

  if (kind === 'SQLite') return;
  it('has what it acknowledges on the disk', async () => {
    expect(await run(await newStoreUrl(), 'show fsync')).toEqual([{ fsync: 'on' }]);
  });
});
