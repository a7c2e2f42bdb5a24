/**
 * Ends the service without warning at random moments under load, again and again, and looks whether the books hold:
 * every acknowledged write is there, nothing is half-written, balances and chain verify, and a write that got no answer,
 * sent again under its key, is done exactly once. Some rounds end it while it starts, makes its tables or founds the plant.
 *
 * Usage: npm run crash -- --rounds 20 [--on sqlite|postgresql] [--seconds 2.5]
 * With --on postgresql it brings a server of its own.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual, parseArgs } from 'node:util';
import { connect } from '../../../src/store/open.ts';
import { verifyStore } from '../../../src/store/verify.ts';
import { findPrograms, startPostgres } from '../../postgres-server.ts';
import { client, isGone, type SentWrite, send } from './load.ts';
import { startAndKill, startProcess } from './service-process.ts';

const CLIENTS = 6;
/** Somewhere in this time a service has started. */
const STARTS_WITHIN_MS = 1500;

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '20' },
    seconds: { type: 'string', default: '2.5' },
    on: { type: 'string', default: 'sqlite' },
  },
});

const folder = mkdtempSync(join(tmpdir(), 'meatblock-crash-'));
const server = values.on === 'postgresql' ? await ownServer() : undefined;
const storeUrl = server?.url ?? join(folder, 'plant.sqlite');
/** Keys of every write that was answered well. */
const keysDone = new Set<string>();
const totals = {
  rounds: 0,
  endedAtStart: 0,
  acknowledged: 0,
  unanswered: 0,
  doneThoughUnanswered: 0,
  refused: 0,
};

try {
  for (let round = 1; round <= Number(values.rounds); round++) {
    await oneRound();
    totals.rounds = round;
    if (round % 10 === 0 || round === Number(values.rounds)) console.log(JSON.stringify(totals));
  }
} finally {
  await server?.stop();
  rmSync(folder, { recursive: true, force: true });
}

/** @throws Error when PostgreSQL is not on this machine. */
async function ownServer() {
  const programs = findPrograms();
  if (programs) return startPostgres(programs);
  throw new Error('PostgreSQL is not here; on Debian: sudo apt-get install postgresql');
}

async function oneRound(): Promise<void> {
  const sent: SentWrite[] = [];
  if (totals.rounds === 0 || Math.random() < 0.5) {
    await startAndKill(storeUrl, Math.random() * STARTS_WITHIN_MS);
    totals.endedAtStart++;
    await verify('after a start that was ended');
  }
  const service = await startProcess(storeUrl);
  let isOver = false;
  const clients = Array.from({ length: CLIENTS }, () => client(service.address, sent, () => isOver));
  const loadMs = (0.3 + Math.random()) * Number(values.seconds) * 1000;
  await new Promise((resolve) => setTimeout(resolve, loadMs));
  isOver = true;
  await service.kill();
  await Promise.all(clients.map((one) => one.catch((error: unknown) => refuseUnlessGone(error))));
  await verify('after the end');
  const before = await keysKept(sent);
  const again = await startProcess(storeUrl);
  for (const write of sent) await askAgain(again.address, write, before);
  const code = await again.stop();
  if (code !== 0) throw new Error(`the service ended with ${code} when it was asked to stop`);
  await verify('after asking again');
  await countOnce(sent);
  await countEntries(sent);
}

/** Every entry but the founding is a write that was sent and answered well, and each of those is one entry. */
async function countEntries(sent: readonly SentWrite[]): Promise<void> {
  for (const { key, answer } of sent) if (answer && answer.status < 300) keysDone.add(key);
  const { length } = await withStore((db) =>
    db.selectFrom('head').select('length').executeTakeFirstOrThrow(),
  );
  if (length !== keysDone.size + 1) {
    throw new Error(`${keysDone.size} writes were answered well; there are ${length - 1} entries of them`);
  }
}

function refuseUnlessGone(error: unknown): void {
  if (!isGone(error)) throw error;
}

/** An acknowledged write gives the same answer under its key; an unanswered one gives its answer now. */
async function askAgain(address: string, write: SentWrite, kept: ReadonlySet<string>): Promise<void> {
  const told = write.answer;
  const now = await send(address, write);
  if (!told) {
    totals.unanswered++;
    if (kept.has(write.key)) totals.doneThoughUnanswered++;
    write.answer = now;
    return;
  }
  if (told.status >= 400) {
    // What was refused changed nothing, so its key was not used either.
    // Stock runs out, others were quicker: 409 and 422. Anything else is a fault of the service or of this harness.
    if (told.status !== 409 && told.status !== 422)
      throw new Error(`${write.path} failed: ${JSON.stringify(told.body)}`);
    totals.refused++;
    write.answer = now;
    return;
  }
  totals.acknowledged++;
  if (!kept.has(write.key))
    throw new Error(`${write.path} was acknowledged and is gone: ${JSON.stringify(told)}`);
  if (!isDeepStrictEqual(now, told)) {
    throw new Error(`${write.path} answers otherwise: ${JSON.stringify(told)} then ${JSON.stringify(now)}`);
  }
}

async function keysKept(sent: readonly SentWrite[]): Promise<Set<string>> {
  const wanted = new Set(sent.map(({ key }) => key));
  return withStore(async (db) => {
    const rows = await db.selectFrom('idempotencyKeys').select('key').execute();
    return new Set(rows.map(({ key }) => key).filter((key) => wanted.has(key)));
  });
}

/** Everything that was answered well is in the books exactly once. */
async function countOnce(sent: readonly SentWrite[]): Promise<void> {
  const done = sent.filter(({ answer }) => answer && answer.status < 300);
  await withStore(async (db) => {
    for (const { path, body } of done) {
      const { id } = body as { id?: string };
      if (path === '/shipments') {
        const { lines, document } = body as { lines: readonly unknown[]; document: string };
        const rows = await db
          .selectFrom('movements')
          .select('seq')
          .where('kind', '=', 'shipped')
          .where('details', 'like', `%${document}%`)
          .execute();
        if (rows.length !== lines.length) throw new Error(`${document} has ${rows.length} lines shipped`);
      } else if (path === '/lots') {
        const rows = await db
          .selectFrom('movements')
          .select('seq')
          .where('lotId', '=', String(id))
          .where('kind', '=', 'received')
          .execute();
        if (rows.length !== 1) throw new Error(`lot ${id} was received ${rows.length} times`);
      } else if (path.endsWith('/movements')) {
        const { kind } = body as { kind: 'discarded' | 'sold' };
        const lotId = path.split('/')[2] ?? '';
        // Each lot is discarded from and sold once.
        const rows = await db
          .selectFrom('movements')
          .select('seq')
          .where('lotId', '=', lotId)
          .where('kind', '=', kind)
          .execute();
        if (rows.length !== 1) throw new Error(`${lotId} was ${kind} ${rows.length} times`);
      }
    }
  });
}

async function verify(when: string): Promise<void> {
  const verdict = await withStore((db) => verifyStore(db));
  if (verdict.findings.length > 0)
    throw new Error(`${when}: ${JSON.stringify(verdict.findings.slice(0, 5))}`);
}

async function withStore<Result>(
  look: (db: Awaited<ReturnType<typeof connect>>['db']) => Promise<Result>,
): Promise<Result> {
  const { db, close } = await connect(storeUrl);
  try {
    return await look(db);
  } finally {
    await close();
  }
}
