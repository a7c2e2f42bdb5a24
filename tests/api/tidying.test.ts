import { sql } from 'kysely';
import { expect, test } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { keepTidy } from '../../src/api/tidying.ts';
import { onEachDatabase } from '../store/databases.ts';
import { HOUR, login, moveClock, startWithPeople } from './access/people.ts';

/** What is kept for a while only: answers for repeated requests for 30 days, sessions as long as they go on. */

const DAY = 24 * HOUR;

const kept = ({ books }: Service) =>
  books.store.read(async (db) => ({
    keys: (await db.selectFrom('idempotencyKeys').select('key').orderBy('key').execute()).map(
      ({ key }) => key,
    ),
    sessions: (await db.selectFrom('sessions').select('personId').execute()).length,
  }));

const told: string[] = [];
const logger = { warn: (_: unknown, what: string) => told.push(what) } as never;

const tidyNow = async (service: Service) => (await keepTidy(service.books, logger))();

onEachDatabase((newStoreUrl, kind) => {
  test('goes when nobody asks for it again', async () => {
    const service = await startWithPeople({ storeUrl: await newStoreUrl() });
    const ana = await login(service, 'Ana');
    const hold = (key: string) =>
      ana('POST', '/v1/lots/B50-1118/tests', { fatFraction: 0.5, method: 'NIR' }, { 'idempotency-key': key });
    const first = await hold('first');
    moveClock(service, 6 * HOUR);
    expect((await hold('second')).status).toBe(201);
    moveClock(service, 30 * DAY - 3 * HOUR);
    await tidyNow(service);
    expect(await kept(service)).toEqual({ keys: ['second'], sessions: 0 });
    expect(first.status).toBe(201);
    moveClock(service, 6 * HOUR);
    if (kind === 'SQLite') {
      const only = (state: string) =>
        service.books.store.note(async (db) => {
          await sql.raw(`pragma query_only = ${state}`).execute(db);
        });
      await only('on');
      await tidyNow(service);
      expect(told).toEqual(['old sessions and kept answers could not be taken out']);
      await only('off');
    }
    await tidyNow(service);
    expect(await kept(service)).toEqual({ keys: [], sessions: 0 });
    await service.stop();
  });
});
