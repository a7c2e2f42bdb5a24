import { execFileSync } from 'node:child_process';
import {
  closeSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { connect as connectSocket, createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import pg from 'pg';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { backup } from '../../src/store/copy.ts';
import { asStoreFault, StoreFault } from '../../src/store/faults.ts';
import { snapshot } from '../../src/store/snapshot.ts';
import { openStore, type Store } from '../../src/store/store.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { newPostgresUrl, newSqliteUrl, onEachDatabase, postgresIsHere } from './databases.ts';
import { act, fillSmallPlant, receiveLot, statements, tamper } from './small-plant.ts';

/** Faults as they really come: a disk that is full, a file that is damaged, a server that is gone. */

const folder = mkdtempSync(join(tmpdir(), 'meatblock-faults-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Small file systems of their own need root and leave to mount. */
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
const mount = (options: string) => execFileSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', disk]);
const remount = (options: string) => execFileSync('mount', ['-o', `remount,${options}`, disk]);

async function fault(doing: Promise<unknown>): Promise<StoreFault> {
  const error = await doing.then(
    () => undefined,
    (reason) => reason,
  );
  expect(error).toBeInstanceOf(StoreFault);
  return error as StoreFault;
}

const PADDING = 'x'.repeat(4_000);

/** Receives lots until the store refuses. @returns how many it acknowledged, and the refusal. */
async function fillUp(store: Store) {
  for (let count = 0; count < 5_000; count += 1) {
    const full = await receiveLot(store, `L${count}`, 1, PADDING).then(
      () => undefined,
      (reason) => reason,
    );
    if (full) return { acknowledged: count, full };
  }
  throw new Error('the disk never got full');
}

async function expectWhole(store: Store, lots: number): Promise<void> {
  const verdict = await store.read((db) => verifyStore(db));
  expect(verdict).toMatchObject({ entries: lots, findings: [] });
}

describe('SQLite', () => {
  it('says that there is no room, keeps what it acknowledged, and goes on once there is', async () => {
    const store = await openStore(await newSqliteUrl());
    await store.note((db) => sql`pragma max_page_count = 120`.execute(db).then(() => {}));
    const { acknowledged, full } = await fillUp(store);
    expect(full).toMatchObject({ name: 'StoreFault', kind: 'full' });
    expect(full.message).toMatch(/^The disk of the store is full\. Nothing of this was saved\. Make room/);
    await expectWhole(store, acknowledged);
    await store.note((db) => sql`pragma max_page_count = 100000`.execute(db).then(() => {}));
    await receiveLot(store, 'after');
    await expectWhole(store, acknowledged + 1);
    await store.close();
  });

  it('says that it may not write', async () => {
    const store = await openStore(await newSqliteUrl());
    await receiveLot(store, 'A');
    await store.note((db) => sql`pragma query_only = on`.execute(db).then(() => {}));
    expect(await fault(receiveLot(store, 'B'))).toMatchObject({ kind: 'read-only' });
    await store.note((db) => sql`pragma query_only = off`.execute(db).then(() => {}));
    await receiveLot(store, 'C');
    await expectWhole(store, 2);
    await store.close();
  });

  describe.runIf(canMount)('on a disk of its own', () => {
    afterEach(() => {
      execFileSync('umount', ['-l', disk]);
    });

    it('says that the disk is full, and goes on once there is room', async () => {
      mount('size=3m');
      const url = join(disk, 'store.db');
      const store = await openStore(url);
      const { acknowledged, full } = await fillUp(store);
      expect(full).toMatchObject({ name: 'StoreFault', kind: 'full' });
      await expect(receiveLot(store, 'big', 1, 'x'.repeat(3_000_000))).rejects.toMatchObject({
        kind: 'full',
      });
      await expectWhole(store, acknowledged);
      remount('size=16m');
      await receiveLot(store, 'after');
      await expectWhole(store, acknowledged + 1);
      await store.close();
    });

    it('says that there is no room for a backup, and leaves nothing of it', async () => {
      const url = await newSqliteUrl();
      const store = await openStore(url);
      await fillSmallPlant(store);
      await store.close();
      mount('size=4k');
      writeFileSync(join(disk, 'full'), Buffer.alloc(4_096));
      await expect(backup(url, join(disk, 'a.gz'))).rejects.toThrow(
        /cannot be written: its disk is full\. The store is untouched/,
      );
      expect(() => statSync(join(disk, 'a.gz.partial'))).toThrow('ENOENT');
    });

    it('says that the disk is read-only', async () => {
      mount('size=8m');
      const url = join(disk, 'store.db');
      const store = await openStore(url);
      await receiveLot(store, 'A');
      await store.close();
      remount('ro');
      for (const place of [url, join(disk, 'new.db'), join(disk, 'folder', 'new.db')]) {
        expect(await fault(openStore(place))).toMatchObject({ kind: 'read-only' });
      }
      remount('rw');
      const again = await openStore(url);
      await receiveLot(again, 'B');
      await expectWhole(again, 2);
      await again.close();
    });
  });

  it('says that a file is damaged', async () => {
    const url = await newSqliteUrl();
    const store = await openStore(url);
    await fillSmallPlant(store);
    await store.close();
    overwrite(url, 4_096, statSync(url).size - 4_096);
    const broken = await fault(snapshot(url, (db) => verifyStore(db)));
    expect(broken.message).toBe(
      'The file of the store is damaged. Stop the service and restore the last backup.',
    );
    overwrite(url, 0, 100);
    expect(await fault(openStore(url))).toMatchObject({ kind: 'damaged' });
  });

  it('says that a file is not there when it is only to be read, and makes none', async () => {
    const url = await newSqliteUrl();
    expect(await fault(snapshot(url, async () => {}))).toMatchObject({ kind: 'unreachable' });
    expect(() => statSync(url)).toThrow('ENOENT');
  });
});

function overwrite(file: string, from: number, length: number): void {
  const handle = openSync(file, 'r+');
  writeSync(handle, Buffer.alloc(length, 0xa5), 0, length, from);
  closeSync(handle);
}

onEachDatabase((newStoreUrl) => {
  it('is refused when a newer version wrote it', async () => {
    const url = await newStoreUrl();
    await (await openStore(url)).close();
    await tamper(url, statements("insert into kysely_migration values ('9999-later', '2030-01-01')"));
    const newer = await fault(openStore(url));
    expect(newer).toMatchObject({ kind: 'newer' });
    expect(newer.message).toMatch(
      /written by a newer version.*Start that version, or restore an older backup/,
    );
    expect(await fault(snapshot(url, async () => {}))).toMatchObject({ kind: 'newer' });
  });
});

describe.skipIf(!postgresIsHere)('PostgreSQL', () => {
  it('is read only where no table of this program is', async () => {
    expect(await fault(snapshot(await newPostgresUrl(), async () => {}))).toMatchObject({
      kind: 'unprepared',
    });
  });

  it('says that it may not write', async () => {
    const store = await openStore(await newPostgresUrl());
    const writing = store.write(act('lot', 'A'), async ({ db }) => {
      await sql`set transaction read only`.execute(db);
      await db.updateTable('lots').set({ version: 2 }).execute();
      return { says: '', result: null };
    });
    expect(await fault(writing)).toMatchObject({ kind: 'read-only' });
    await store.close();
  });

  it('loses its connections in the middle of a write, and goes on with new ones', async () => {
    const url = await newPostgresUrl();
    const store = await openStore(url);
    await receiveLot(store, 'A');
    const writing = store.write(act('lot', 'B'), async (inner) => {
      await endConnections(url);
      await inner.db.selectFrom('lots').selectAll().execute();
      return { says: '', result: null };
    });
    expect(await fault(writing)).toMatchObject({ kind: 'unreachable' });
    await receiveLot(store, 'C');
    await endConnections(url);
    await new Promise((resolve) => setTimeout(resolve, 50));
    await receiveLot(store, 'D');
    await expectWhole(store, 3);
    await store.close();
  });

  it('is gone, and is found again when it is back', async () => {
    const url = new URL(await newPostgresUrl());
    const line = await openLine(url);
    const store = await openStore(line.url);
    await receiveLot(store, 'A');
    await line.cut();
    for (const id of ['B', 'C']) {
      const gone = await fault(receiveLot(store, id));
      expect(gone.message).toMatch(/^The database cannot be reached\./);
    }
    expect(await fault(openStore(line.url))).toMatchObject({ kind: 'unreachable' });
    await line.mend();
    await receiveLot(store, 'D');
    await expectWhole(store, 2);
    await store.close();
    await line.cut();
  });

  it('is not reached under a name that is not there', async () => {
    const url = new URL(await newPostgresUrl());
    url.pathname = '/no_such_database';
    expect(await fault(openStore(url.href))).toMatchObject({ kind: 'unreachable' });
  });
});

async function endConnections(url: string): Promise<void> {
  const client = new pg.Client(url);
  await client.connect();
  await client.query(
    'select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()',
  );
  await client.end();
}

/** A line to a server that can be cut, as when the server or the network is gone. */
async function openLine(server: URL) {
  const sockets = new Set<Socket>();
  const relay: Server = createServer((near) => {
    const far = connectSocket(Number(server.port || 5432), server.hostname);
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(one);
      one.pipe(other);
      one.on('error', () => other.destroy());
      one.on('close', () => other.destroy());
    }
  });
  const listen = (port: number) => new Promise<void>((resolve) => relay.listen(port, '127.0.0.1', resolve));
  await listen(0);
  const { port } = relay.address() as { port: number };
  const url = new URL(server);
  url.hostname = '127.0.0.1';
  url.port = String(port);
  return {
    url: url.href,
    mend: () => listen(port),
    cut: () =>
      new Promise<void>((resolve) => {
        relay.close(() => resolve());
        for (const socket of sockets) socket.destroy();
        sockets.clear();
      }),
  };
}

describe('the fault behind an error', () => {
  // sqlite.org/rescode.html; PostgreSQL manual, appendix A.
  it.each([
    ['SQLITE_FULL', 'full'],
    ['SQLITE_IOERR_SHMSIZE', 'full'],
    ['ENOSPC', 'full'],
    ['53100', 'full'],
    ['SQLITE_IOERR_WRITE', 'failing'],
    ['SQLITE_IOERR_FSYNC', 'failing'],
    ['58030', 'failing'],
    ['SQLITE_READONLY_DBMOVED', 'read-only'],
    ['SQLITE_BUSY_SNAPSHOT', 'busy'],
    ['40P01', 'busy'],
    ['SQLITE_CORRUPT_INDEX', 'damaged'],
    ['XX001', 'damaged'],
    ['57P03', 'unreachable'],
    ['28P01', 'unreachable'],
  ])('%s is %s', (code, kind) => {
    expect(asStoreFault(Object.assign(new Error('x'), { code }))).toMatchObject({ kind });
  });

  it('is the error itself when it is none of the store', () => {
    const error = Object.assign(new Error('x'), { code: 'SQLITE_CONSTRAINT_CHECK' });
    expect(asStoreFault(error)).toBe(error);
  });
});
