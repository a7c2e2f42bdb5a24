import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import pg from 'pg';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Service, startService } from '../../src/api/service.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { type Json, SETTINGS, send } from '../api/running.ts';
import { findPrograms, type PostgresServer, startPostgres } from '../postgres-server.ts';
import { newSqliteUrl } from '../store/databases.ts';

/** What people get while the disk or the server of the store fails, and after: the log has the cause, the books all that was acknowledged. */

const folder = mkdtempSync(join(tmpdir(), 'meatblock-service-faults-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const disk = join(folder, 'disk');
const canMount = (() => {
  try {
    mkdirSync(disk);
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk], { stdio: 'ignore' });
    execFileSync('umount', [disk], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

interface Running {
  readonly service: Service;
  readonly logged: Json[];
}

async function start(storeUrl: string): Promise<Running> {
  const logged: Json[] = [];
  const logger = pino({ level: 'info' }, { write: (line: string) => logged.push(JSON.parse(line)) });
  return { service: await startService({ ...SETTINGS, storeUrl }, logger), logged };
}

let received = 0;

/** Receives a lot. @returns the answer; an id only when it was acknowledged. */
async function receive(
  { service }: Running,
  padding = '',
): Promise<{ id?: string; status: number; json: Json }> {
  const id = `F-${++received}`;
  const { status, text } = await send(service.address, {
    path: '/v1/lots',
    body: {
      id,
      materialId: 'beef-trim-73',
      mass: { value: 10, unit: 'lb' },
      cost: { amount: 2, per: 'lb' },
      useByDate: '2026-12-05',
      supplierEstablishment: '00001',
      supplierLot: id,
      location: `Cooler ${padding}`.trim(),
    },
  });
  return { status, json: JSON.parse(text), ...(status === 201 && { id }) };
}

const readAgain = (running: Running) =>
  send(running.service.address, { method: 'GET', path: '/v1/lots?limit=1' }).then(({ status }) => status);

/** Until it goes well, or for ten seconds. @returns the id, and every status before it. */
async function receiveAgain(running: Running): Promise<{ id: string; statuses: number[] }> {
  const statuses: number[] = [];
  for (let attempt = 0; attempt < 100; attempt++) {
    const { id, status } = await receive(running);
    if (id !== undefined) return { id, statuses };
    statuses.push(status);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`never again: ${statuses}`);
}

async function expectWhole({ service }: Running, ids: readonly (string | undefined)[]): Promise<void> {
  const { findings, there } = await service.books.store.read(async (db) => ({
    ...(await verifyStore(db)),
    there: (await db.selectFrom('lots').select('id').where('id', 'like', 'F-%').execute()).map(
      ({ id }) => id,
    ),
  }));
  expect(findings).toEqual([]);
  expect([...there].sort()).toEqual([...ids].map(String).sort());
}

/** The last failed request as the log tells of it. */
const lastCause = ({ logged }: Running) =>
  JSON.stringify(logged.filter(({ level }) => level >= 50).at(-1)?.err);

/** Receives lots until there is no room. */
async function fillUp(running: Running) {
  const ids: string[] = [];
  for (let count = 0; count < 3_000; count++) {
    const answer = await receive(running, 'x'.repeat(60));
    if (answer.id === undefined) return { ids, answer };
    ids.push(answer.id);
  }
  throw new Error('the disk never got full');
}

function expectFull({ status, json }: Awaited<ReturnType<typeof receive>>, running: Running): void {
  expect([status, json.type]).toEqual([507, '/problems/store-full']);
  expect(json.detail).toMatch(/disk of the store is full\. Nothing of this was saved\. Make room/);
  expect(JSON.stringify(json)).not.toMatch(/SQLITE|sqlite|\.db/);
  expect(lastCause(running)).toContain('database or disk is full');
}

describe('SQLite', () => {
  it('a full disk is 507, and 201 again once there is room', async () => {
    const running = await start(await newSqliteUrl());
    const { store } = running.service.books;
    const pages = (count: number) =>
      store.note(async (db) => {
        await sql.raw(`pragma max_page_count = ${count}`).execute(db);
      });
    await pages(130);
    const { ids, answer } = await fillUp(running);
    expectFull(answer, running);
    expect(await readAgain(running)).toBe(200);
    await pages(1_000_000);
    ids.push((await receiveAgain(running)).id);
    await expectWhole(running, ids);
    await running.service.stop();
  });

  describe.runIf(canMount)('on a disk of its own', () => {
    afterEach(() => {
      execFileSync('umount', ['-l', disk]);
    });

    it('full is 507, 201 again once there is room, and whole after a restart', async () => {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=1500k', 'tmpfs', disk]);
      const url = join(disk, 'store.db');
      const running = await start(url);
      const { ids, answer } = await fillUp(running);
      expectFull(answer, running);
      expect(await readAgain(running)).toBe(200);
      execFileSync('mount', ['-o', 'remount,size=16m', disk]);
      ids.push((await receiveAgain(running)).id);
      await expectWhole(running, ids);
      await running.service.stop();
      expect(statSync(url).size).toBeGreaterThan(0);
      const again = await start(url);
      await expectWhole(again, ids);
      await again.service.stop();
    });
  });

  it('a store that may not be written is 503 for those who write, and read by the others', async () => {
    const running = await start(await newSqliteUrl());
    const { store } = running.service.books;
    const first = await receive(running);
    const only = (state: 'on' | 'off') =>
      store.note(async (db) => {
        await sql.raw(`pragma query_only = ${state}`).execute(db);
      });
    await only('on');
    const { status, json } = await receive(running);
    expect([status, json.type]).toEqual([503, '/problems/store-read-only']);
    expect(lastCause(running)).toContain('readonly');
    expect(await readAgain(running)).toBe(200);
    await only('off');
    await expectWhole(running, [first.id, (await receiveAgain(running)).id]);
    await running.service.stop();
  });
});

const programs = findPrograms();

describe.skipIf(programs === undefined)('PostgreSQL under a running service', () => {
  let server: PostgresServer;
  let running: Running;
  let dataFolder: string;
  const ids: (string | undefined)[] = [];
  beforeAll(async () => {
    server = await startPostgres(programs ?? '');
    const client = new pg.Client(server.url);
    await client.connect();
    dataFolder = (await client.query('show data_directory')).rows[0].data_directory;
    await client.end();
    running = await start(server.url);
  });
  afterAll(async () => {
    await running.service.stop();
    await server.stop();
  });

  /** As whoever the files belong to. */
  const control = (...args: string[]) => {
    const { uid, gid } = statSync(dataFolder);
    execFileSync(join(programs ?? '', 'pg_ctl'), [...args, `--pgdata=${dataFolder}`, '--wait'], {
      cwd: dataFolder,
      uid,
      gid,
      stdio: 'ignore',
    });
  };

  /** What a killed server leaves running holds its memory until it notices. */
  const startAgain = async (attempts = 50): Promise<void> => {
    try {
      control('start', '--log=log');
    } catch (error) {
      if (attempts === 0) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
      await startAgain(attempts - 1);
    }
  };

  /** Connections of a killed server may go on for a moment. */
  const receiveUntilRefused = async () => {
    for (;;) {
      const answer = await receive(running);
      if (answer.id === undefined) return answer;
      ids.push(answer.id);
    }
  };

  it.each([
    ['stopped and started', () => control('stop', '--mode=fast')],
    [
      'killed and recovered',
      () =>
        process.kill(
          Number(readFileSync(join(dataFolder, 'postmaster.pid'), 'utf8').split('\n')[0]),
          'SIGKILL',
        ),
    ],
  ])('%s: 503 in between, all works afterwards, and what was acknowledged is there', async (_, end) => {
    for (let n = 0; n < 5; n++) ids.push((await receive(running)).id);
    const underWay = Array.from({ length: 8 }, () => receive(running));
    end();
    const answers = await Promise.all(underWay);
    const maybe = answers.filter(({ id }) => id === undefined);
    ids.push(...answers.flatMap(({ id }) => id ?? []));
    for (const { status, json } of [...maybe, await receiveUntilRefused()]) {
      expect([status, json.type]).toEqual([503, '/problems/store-unavailable']);
      expect(json.detail).toContain('cannot be reached');
      expect(JSON.stringify(json)).not.toContain('127.0.0.1');
    }
    expect(lastCause(running)).toMatch(/ECONNREFUSED|terminat|shut|connection/i);
    expect(await readAgain(running)).toBe(503);
    await startAgain();
    ids.push((await receiveAgain(running)).id);
    expect(await readAgain(running)).toBe(200);
    const there = await running.service.books.store.read((db) =>
      db.selectFrom('lots').select('id').where('id', 'like', 'F-%').execute(),
    );
    // One that got no answer may have been done all the same: nobody was told that it was.
    expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(ids));
    expect((await running.service.books.store.read((db) => verifyStore(db))).findings).toEqual([]);
  });
});
