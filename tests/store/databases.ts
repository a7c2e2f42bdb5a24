import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, describe, inject } from 'vitest';

export type DatabaseKind = 'SQLite' | 'PostgreSQL';

/** The URL of a new, empty database, which is gone after the tests of the file. */
export type NewStoreUrl = () => Promise<string>;

const serverUrl = inject('postgresUrl');
const folders: string[] = [];
const databases: string[] = [];

/** Connects when it is first used. */
const server = new pg.Pool({ connectionString: serverUrl ?? '', max: 4 });

afterAll(async () => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  // By force: a test that failed may have left a connection open.
  await Promise.all(databases.map((name) => server.query(`drop database if exists ${name} with (force)`)));
  await server.end();
});

/** Whether there is a PostgreSQL server to test on; without it such tests are skipped and named. */
export const postgresIsHere = serverUrl !== undefined;

/** Runs the same tests on both kinds of database. */
export function onEachDatabase(tests: (newStoreUrl: NewStoreUrl, kind: DatabaseKind) => void): void {
  describe('SQLite', () => tests(newSqliteUrl, 'SQLite'));
  describe.skipIf(!postgresIsHere)('PostgreSQL', () => tests(newPostgresUrl, 'PostgreSQL'));
}

/** The name of a file that is not there yet, in a folder of its own. */
export const newSqliteUrl: NewStoreUrl = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-store-'));
  folders.push(folder);
  return join(folder, 'store.db');
};

/** An empty database on the server. */
export const newPostgresUrl: NewStoreUrl = async () => {
  if (serverUrl === undefined) throw new Error('There is no PostgreSQL server: skip this test without one.');
  const name = `meatblock_${randomUUID().replaceAll('-', '')}`;
  databases.push(name);
  await server.query(`create database ${name}`);
  const url = new URL(serverUrl);
  url.pathname = name;
  return url.href;
};
