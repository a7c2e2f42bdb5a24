import { pino } from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { passwordsOf } from '../../../src/api/access/passwords.ts';
import { resetPassword } from '../../../src/api/access/reset-password.ts';
import { sha256Of } from '../../../src/api/access/secrets.ts';
import { type Service, startService } from '../../../src/api/service.ts';
import { readSettings } from '../../../src/api/settings.ts';
import { faultOf } from '../../../src/store/faults.ts';
import { TABLES } from '../../../src/store/schema.ts';
import { verifyStore } from '../../../src/store/verify.ts';
import { SETTINGS } from '../running.ts';
import {
  cookieOf,
  HOUR,
  login,
  MINUTE,
  moveClock,
  PASSWORD,
  passwordOf,
  plain,
  QUICK,
  startWithPeople,
  tryLogin,
  withCookie,
  withKey,
} from './people.ts';

let service: Service;
beforeAll(async () => {
  service = await startWithPeople();
});
afterAll(() => service.stop());
// What one test does wrong must not lock the next one out.
beforeEach(() => moveClock(service, 16 * MINUTE));

const sessionsNow = () =>
  service.books.store.read((db) => db.selectFrom('sessions').selectAll().orderBy('createdAt').execute());

describe('a login', () => {
  test('gives a cookie that no script reads and no other site sends, and tells who it is', async () => {
    const { status, json, headers } = await tryLogin(service, '  tomas ', passwordOf('Tomas'));
    expect(status).toBe(200);
    expect(json).toEqual({
      entrance: 'login',
      caller: { id: 'P2', name: 'Tomas', role: 'floor', via: 'session', may: ['anyone', 'read', 'work'] },
    });
    expect(headers['cache-control']).toBe('no-store');
    const [cookie = ''] = headers['set-cookie'] ?? [];
    expect(cookie).toMatch(/^session=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=604800$/);
    const token = cookieOf({ headers }).slice('session='.length);
    const kept = await sessionsNow();
    expect(kept.map(({ tokenHash }) => tokenHash)).toContain(sha256Of(token));
    expect(JSON.stringify(kept)).not.toContain(token);
  });

  test('asks for TLS alone when the setting says so', async () => {
    expect(readSettings({ SECURE_COOKIE: 'yes' })).toMatchObject({ secureCookie: true });
    const behindTls = await startWithPeople({ secureCookie: true });
    try {
      const { headers } = await tryLogin(behindTls, 'Ana', passwordOf('Ana'));
      expect(headers['set-cookie']?.[0]).toMatch(/; Secure$/);
    } finally {
      await behindTls.stop();
    }
  });

  test.each([
    ['Tomas', 'not the password'],
    ['Tomas', passwordOf('Ana')],
    ['Nobody', passwordOf('Ana')],
    ['Tomas', ''],
  ])('of %s with "%s" is refused in the same words', async (name, password) => {
    const { status, json, headers } = await tryLogin(service, name, password);
    expect(status).toBe(401);
    expect(json.detail).toBe('The name or the password is wrong. An admin can give you a new password.');
    expect(headers['set-cookie']).toBeUndefined();
    expect(headers['www-authenticate']).toBeDefined();
  });

  test('never takes a session that was there before, and ends it', async () => {
    const fixed = `session=${'A'.repeat(43)}`;
    const first = await tryLogin(service, 'Tomas', passwordOf('Tomas'), { cookie: fixed });
    expect(cookieOf(first)).not.toBe(fixed);
    expect((await withCookie(service, fixed)('GET', '/v1/lots')).status).toBe(401);
    const origin = service.address;
    const second = await tryLogin(service, 'Vera', passwordOf('Vera'), { cookie: cookieOf(first), origin });
    expect(second.json.caller.name).toBe('Vera');
    expect((await withCookie(service, cookieOf(first))('GET', '/v1/lots')).status).toBe(401);
    expect((await withCookie(service, cookieOf(second))('GET', '/v1/lots')).status).toBe(200);
  });

  test('of a name is locked after ten wrong ones, even with the right password, for a quarter of an hour', async () => {
    const inside = await login(service, 'Vera');
    const wrong = await Promise.all(
      Array.from({ length: 12 }, () => tryLogin(service, 'vera', 'wrong wrong')),
    );
    expect(wrong.filter(({ status }) => status === 401)).toHaveLength(10);
    const locked = await tryLogin(service, 'Vera', passwordOf('Vera'));
    expect(locked.status).toBe(429);
    expect(Number(locked.headers['retry-after'])).toBeGreaterThan(14 * 60);
    expect(locked.json.detail).toContain('Wait 15 minutes');
    expect((await inside('GET', '/v1/lots')).status).toBe(200);
    expect((await tryLogin(service, 'Tomas', passwordOf('Tomas'))).status).toBe(200);
    moveClock(service, 15 * MINUTE);
    expect((await tryLogin(service, 'Vera', passwordOf('Vera'))).status).toBe(200);
  });

  test('from an address is locked after thirty wrong ones, whatever the names', async () => {
    for (let count = 0; count < 30; count++) await tryLogin(service, `n${count}`, 'wrong wrong');
    expect((await tryLogin(service, 'Tomas', passwordOf('Tomas'))).status).toBe(429);
    moveClock(service, 15 * MINUTE);
    expect((await tryLogin(service, 'Tomas', passwordOf('Tomas'))).status).toBe(200);
  });
});

describe('a session', () => {
  test('ends with the logout', async () => {
    const tomas = await login(service, 'Tomas');
    const out = await tomas('DELETE', '/v1/session');
    expect(out.status).toBe(200);
    expect(out.json).toEqual({ entrance: 'login' });
    expect(out.headers['set-cookie']?.[0]).toMatch(/^session=; .*Max-Age=0$/);
    expect((await tomas('GET', '/v1/lots')).status).toBe(401);
    expect((await tomas('DELETE', '/v1/session')).status).toBe(200);
  });

  test('ends after twelve hours without a request, not with one', async () => {
    const tomas = await login(service, 'Tomas');
    for (let count = 0; count < 3; count++) {
      moveClock(service, 11 * HOUR);
      expect((await tomas('GET', '/v1/lots')).status).toBe(200);
    }
    moveClock(service, 12 * HOUR);
    expect((await tomas('GET', '/v1/lots')).status).toBe(401);
    expect((await tomas('GET', '/v1/session')).json).toEqual({ entrance: 'login' });
  });

  test('ends after seven days in any case, and is then taken out', async () => {
    const tomas = await login(service, 'Tomas');
    for (let count = 0; count < 16; count++) {
      moveClock(service, 10 * HOUR);
      expect((await tomas('GET', '/v1/lots')).status).toBe(200);
    }
    moveClock(service, 8 * HOUR);
    expect((await tomas('GET', '/v1/lots')).status).toBe(401);
    await login(service, 'Ana');
    expect(await sessionsNow()).toHaveLength(1);
  });

  test('is noted as seen once a minute at most', async () => {
    const tomas = await login(service, 'Tomas');
    const seen = async () => (await sessionsNow()).at(-1)?.seenAt;
    const before = await seen();
    moveClock(service, 50_000);
    await tomas('GET', '/v1/lots');
    expect(await seen()).toBe(before);
    moveClock(service, 20_000);
    await tomas('GET', '/v1/lots');
    expect(await seen()).not.toBe(before);
  });

  test('goes on for reading where the store cannot be written', async () => {
    const tomas = await login(service, 'Tomas');
    moveClock(service, HOUR);
    const { store } = service.books;
    const { note } = store;
    const full = { note: () => Promise.reject(faultOf('full')) };
    Object.assign(store, full);
    try {
      expect((await tomas('GET', '/v1/lots')).status).toBe(200);
      expect((await tryLogin(service, 'Tomas', passwordOf('Tomas'))).status).toBe(507);
    } finally {
      Object.assign(store, { note });
    }
  });

  test('knows the role of this moment', async () => {
    const ana = await login(service, 'Ana');
    const tomas = await login(service, 'Tomas');
    const change = async (role: string) => {
      const { headers } = await ana('GET', '/v1/people/P2');
      return ana('PATCH', '/v1/people/P2', { role }, { 'if-match': String(headers.etag) });
    };
    expect((await tomas('GET', '/v1/keys')).status).toBe(403);
    expect((await change('admin')).status).toBe(200);
    expect((await tomas('GET', '/v1/keys')).status).toBe(200);
    expect((await change('floor')).status).toBe(200);
    expect((await tomas('GET', '/v1/keys')).status).toBe(403);
  });
});

describe('a password', () => {
  const change = (ask: Awaited<ReturnType<typeof login>>, old: string, next: string) =>
    ask('PUT', '/v1/people/me/password', { old, new: next });

  test('is changed by whoever knows the old one; every session ends but the one that is new', async () => {
    const [here, there] = [await login(service, 'Ilse'), await login(service, 'Ilse')];
    const changed = await change(here, passwordOf('Ilse'), 'another long secret');
    expect(changed.status).toBe(200);
    for (const old of [here, there]) expect((await old('GET', '/v1/lots')).status).toBe(401);
    const now = withCookie(service, cookieOf(changed));
    expect((await now('GET', '/v1/lots')).status).toBe(200);
    expect((await tryLogin(service, 'Ilse', passwordOf('Ilse'))).status).toBe(401);
    expect((await change(now, 'another long secret', passwordOf('Ilse'))).status).toBe(200);
    await login(service, 'Ilse');
  });

  test('is not changed by whoever does not, and not to one that cannot be', async () => {
    const ilse = await login(service, 'Ilse');
    const wrong = await change(ilse, 'not the old one', 'another long secret');
    expect(wrong.status).toBe(422);
    expect(wrong.json.errors[0].pointer).toBe('/old');
    const short = await change(ilse, passwordOf('Ilse'), 'short');
    expect(short.status).toBe(400);
    expect(short.json.errors[0].pointer).toBe('/new');
    expect((await ilse('GET', '/v1/lots')).status).toBe(200);
    for (let count = 0; count < 10; count++) await change(ilse, 'not the old one', 'another long secret');
    expect((await change(ilse, passwordOf('Ilse'), 'another long secret')).status).toBe(429);
  });

  test('that was forgotten gets a new one at the machine', async () => {
    const tomas = await login(service, 'Tomas');
    const passwords = passwordsOf(16);
    const now = service.books.now();
    const { store } = service.books;
    const reset = await resetPassword(store, ' TOMAS', { now, passwords });
    expect(reset).toEqual({
      personId: 'P2',
      name: 'Tomas',
      password: expect.stringMatching(/^(\w{4}-){3}\w{4}$/),
    });
    expect((await tomas('GET', '/v1/lots')).status).toBe(401);
    expect((await tryLogin(service, 'Tomas', passwordOf('Tomas'))).status).toBe(401);
    const again = await login(service, 'Tomas', reset.password);
    expect((await change(again, reset.password, passwordOf('Tomas'))).status).toBe(200);
    await expect(resetPassword(store, 'Nobody', { passwords })).rejects.toMatchObject({ code: 'unknown' });
  });
});

test('no password, cookie, key or set-up code is in the log, in an answer or, but as a hash, in the store', async () => {
  const logged: string[] = [];
  const logger = pino({ level: 'trace' }, { write: (line: string) => logged.push(line) });
  const open = await startService({ ...SETTINGS, ...QUICK, host: '0.0.0.0' }, logger);
  try {
    const answers: string[] = [];
    const heard = <Answer extends { readonly text: string }>(answer: Answer): Answer => {
      answers.push(answer.text);
      return answer;
    };
    const code = String(open.access.setUp.code());
    const body = { code, name: 'Ana', password: passwordOf('Ana') };
    const made = heard(await plain(open, { method: 'POST', path: '/v1/set-up', body }));
    const cookie = cookieOf(made);
    const ana = withCookie(open, cookie);
    const repeat = { 'idempotency-key': 'one' };
    const key = (await ana('POST', '/v1/keys', { name: 'scale', role: 'floor' }, repeat)).json.key;
    const keyAgain = heard(await ana('POST', '/v1/keys', { name: 'scale', role: 'floor' }, repeat));
    expect(keyAgain.json).toMatchObject({ id: 'K1' });
    const person = { name: 'Eva', role: 'admin', password: passwordOf('Eva') };
    const added = heard(await ana('POST', '/v1/people', person, { 'idempotency-key': 'two' }));
    const addedAgain = heard(await ana('POST', '/v1/people', person, { 'idempotency-key': 'two' }));
    expect(addedAgain.json).toEqual(added.json);
    heard(
      await ana('PATCH', '/v1/people/P2', { password: `${PASSWORD} x` }, { 'if-match': '"1"', ...repeat }),
    );
    heard(await ana('PATCH', '/v1/people/P2', { password: [`${PASSWORD} y`] }, { 'if-match': '"1"' }));
    heard(await ana('POST', '/v1/people', { ...person, password: { a: PASSWORD } }));
    for (const path of ['/v1/people', '/v1/keys', '/v1/entries', '/v1/session'])
      heard(await ana('GET', path));
    heard(await withKey(open, key)('GET', '/v1/session'));
    heard(await withKey(open, `${key}x`)('GET', '/v1/session'));
    heard(await tryLogin(open, 'Ana', `${PASSWORD} wrong`));
    heard(await tryLogin(open, `${PASSWORD} in the wrong field`, 'wrong wrong'));

    expect(logged.join('')).toContain('a login failed');
    const secrets = [PASSWORD, cookie.slice('session='.length), key.slice('meatblock_'.length), code];
    const { store } = open.books;
    for (const secret of secrets) {
      expect(secret.length).toBeGreaterThan(10);
      expect(logged.join('')).not.toContain(secret);
      expect(answers.join('')).not.toContain(secret);
    }
    const rows = async (table: (typeof TABLES)[number]) =>
      JSON.stringify(await store.read((db) => db.selectFrom(table).selectAll().execute()));
    const [kept = ''] = (await store.read((db) => db.selectFrom('people').select('password').execute())).map(
      ({ password }) => String(password),
    );
    for (const table of TABLES) {
      const all = await rows(table);
      for (const secret of secrets) expect(all, table).not.toContain(secret);
      expect(all.includes(kept), table).toBe(table === 'people');
      // The hash of a random key tells nothing, and its revision vouches for it.
      expect(all.includes(sha256Of(key)), table).toBe(table === 'apiKeys' || table === 'revisions');
    }
    expect(answers.join('')).not.toContain('scrypt');
    expect((await store.read((db) => verifyStore(db))).findings).toEqual([]);
  } finally {
    await open.stop();
  }
});
