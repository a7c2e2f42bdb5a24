import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, ROOT, startDemo } from '../running.ts';
import {
  cookieOf,
  MINUTE,
  moveClock,
  passwordOf,
  plain,
  QUICK,
  realPlantFolder,
  startWithPeople,
  tryLogin,
  withCookie,
  withKey,
} from './people.ts';

const LOT = { materialId: 'beef-trim-73', onHand: lb(60), cost: { amount: 2, per: 'lb' } };
const hold = (service: Service, headers: Record<string, string>) =>
  plain(service, {
    method: 'POST',
    path: '/v1/lots/B73-1120/hold',
    body: { reason: 'waits for a look' },
    headers,
  });

describe('a demonstration on this machine', () => {
  let service: Service;
  let host: string;
  beforeAll(async () => {
    service = await startDemo(QUICK);
    ({ host } = new URL(service.address));
  });
  afterAll(() => service.stop());

  test('lets everyone do everything, and says so', async () => {
    const { json, status } = await plain(service, { path: '/v1/session' });
    expect(status).toBe(200);
    expect(json).toMatchObject({ entrance: 'open', caller: { name: 'Demo', role: 'admin', via: 'demo' } });
    expect((await plain(service, { path: '/v1/people' })).json).toEqual({ items: [] });
  });

  const port = () => host.split(':')[1];
  test.each([
    ['127.0.0.1', 200],
    ['127.8.9.10', 200],
    ['localhost', 200],
    ['LOCALHOST', 200],
    ['[::1]', 200],
    ['plant.example', 403],
    ['127.0.0.1.plant.example', 403],
    ['localhost.plant.example', 403],
    ['192.168.1.4', 403],
    ['0.0.0.0', 403],
  ])('answers %s with %i, against names that lead here by a trick', async (name, status) => {
    for (const path of ['/v1/lots', '/v1/health', '/v1/session']) {
      for (const sent of [`${name}:${port()}`, name]) {
        const answer = await plain(service, { path, headers: { host: sent } });
        expect([sent, path, answer.status]).toEqual([sent, path, status]);
      }
    }
  });

  test.each([
    ['a program', {}, true],
    ['its own page', { 'sec-fetch-site': 'same-origin' }, true],
    ['the address line', { 'sec-fetch-site': 'none' }, true],
    ['another port here', { 'sec-fetch-site': 'same-site' }, false],
    ['another site', { 'sec-fetch-site': 'cross-site' }, false],
    ['another site that an old browser names', { origin: 'http://evil.example' }, false],
    ['a page without an address', { origin: 'null' }, false],
  ])('is asked by %s', async (_who, headers, isFine) => {
    const read = await plain(service, { path: '/v1/lots', headers });
    expect(read.status).toBe(isFine ? 200 : 403);
    const written = await hold(service, headers);
    expect(isFine ? [200, 409] : [403]).toContain(written.status);
    if (!isFine) expect(written.json.detail).toContain('another site');
  });

  test('needs no set-up code, and says how accounts begin', async () => {
    const body = { code: 'AAAA-AAAA-AAAA', name: 'Ana', password: passwordOf('Ana') };
    const { status, json } = await plain(service, { method: 'POST', path: '/v1/set-up', body });
    expect(status).toBe(409);
    expect(json.detail).toContain('POST /v1/people');
  });

  test('asks everyone to log in as soon as there is a person, who must be an admin', async () => {
    const add = (role: string) =>
      plain(service, {
        method: 'POST',
        path: '/v1/people',
        body: { name: 'Ana', role, password: passwordOf('Ana') },
      });
    const refused = await add('floor');
    expect(refused.status).toBe(422);
    expect(refused.json.errors).toEqual([{ pointer: '/role', message: expect.stringContaining('admin') }]);
    expect((await add('admin')).status).toBe(201);
    expect((await plain(service, { path: '/v1/people' })).status).toBe(401);
    expect((await plain(service, { path: '/v1/session' })).json).toEqual({ entrance: 'login' });
    // A name in the network is no trick any more: without the cookie it opens nothing.
    expect((await plain(service, { path: '/v1/health', headers: { host: 'plant.example' } })).status).toBe(
      200,
    );
    expect((await tryLogin(service, 'Ana', passwordOf('Ana'))).status).toBe(200);
  });
});

describe('a plant without an admin', () => {
  const running: Service[] = [];
  const folders: string[] = [];
  const start = async () => {
    const plantFolder = realPlantFolder();
    folders.push(plantFolder);
    const service = await startDemo({ ...QUICK, plantFolder });
    running.push(service);
    return service;
  };
  afterEach(async () => {
    await Promise.all(running.splice(0).map((service) => service.stop()));
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
  });

  const setUp = (service: Service, body: Json, headers = {}) =>
    plain(service, { method: 'POST', path: '/v1/set-up', body, headers });
  const good = (service: Service) => ({
    code: service.access.setUp.code(),
    name: 'Ana',
    password: passwordOf('Ana'),
  });

  test('lets nobody in, and says that it is to be set up', async () => {
    const service = await start();
    expect((await plain(service, { path: '/v1/session' })).json).toEqual({ entrance: 'set-up' });
    expect((await plain(service, { path: '/v1/lots' })).status).toBe(401);
    expect((await plain(service, { path: '/v1/people' })).status).toBe(401);
  });

  test('a demonstration that listens to the network is one of them', async () => {
    const service = await startDemo({ ...QUICK, host: '0.0.0.0' });
    running.push(service);
    expect(await service.access.isSetUpNeeded()).toBe(true);
    expect((await plain(service, { path: '/v1/lots' })).status).toBe(401);
  });

  test('gets its first admin by the code, however typed, once', async () => {
    const service = await start();
    const body = good(service);
    const code = String(body.code).toLowerCase().replaceAll('-', ' ');
    const made = await setUp(service, { ...body, code });
    expect(made.status).toBe(200);
    expect(made.headers['cache-control']).toBe('no-store');
    expect(made.json).toMatchObject({ entrance: 'login', caller: { id: 'P1', name: 'Ana', role: 'admin' } });
    const ana = withCookie(service, cookieOf(made));
    expect((await ana('GET', '/v1/people')).json.items).toHaveLength(1);
    const again = await setUp(service, { ...body, name: 'Eva' });
    expect(again.status).toBe(409);
    expect(await service.access.isSetUpNeeded()).toBe(false);
  });

  test('gets one admin when two set it up at once', async () => {
    const service = await start();
    const body = good(service);
    const both = await Promise.all([setUp(service, body), setUp(service, { ...body, name: 'Eva' })]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409]);
  });

  test('is not taken with a wrong code, which ends after ten tries', async () => {
    const service = await start();
    const body = good(service);
    for (let left = 9; left >= 0; left--) {
      const wrong = await setUp(service, { ...body, code: 'AAAA-AAAA-AAAA' });
      expect(wrong.status).toBe(403);
      expect(wrong.json.detail).toContain(`${left} tries`);
    }
    const late = await setUp(service, body);
    expect(late.status).toBe(403);
    expect(late.json.detail).toContain('has ended');
    expect(service.access.setUp.code()).toBeUndefined();
    expect((await plain(service, { path: '/v1/session' })).json).toEqual({ entrance: 'set-up' });
  });

  test('is not taken half an hour later', async () => {
    const service = await start();
    const body = good(service);
    moveClock(service, 30 * MINUTE);
    expect((await setUp(service, body)).json.detail).toContain('has ended');
  });

  test('keeps its code when the password cannot be used, and is told why', async () => {
    const service = await start();
    const body = good(service);
    const refused = await setUp(service, { ...body, password: 'too short' });
    expect(refused.status).toBe(400);
    expect(refused.json.errors[0].pointer).toBe('/password');
    expect(refused.text).not.toContain('too short');
    expect((await setUp(service, body)).status).toBe(200);
  });

  test('is not set up by a page of another site', async () => {
    const service = await start();
    expect((await setUp(service, good(service), { origin: 'http://evil.example' })).status).toBe(403);
    expect(await service.access.isSetUpNeeded()).toBe(true);
  });
});

describe('a write of someone who is logged in', () => {
  let service: Service;
  let cookie: string;
  let key: string;
  beforeAll(async () => {
    service = await startWithPeople();
    cookie = cookieOf(await tryLogin(service, 'Ana', passwordOf('Ana')));
    const made = await withCookie(service, cookie)('POST', '/v1/keys', { name: 'scale', role: 'floor' });
    key = made.json.key;
  });
  afterAll(() => service.stop());

  const host = () => new URL(service.address).host;
  /** What browsers and programs say of where they come from, and whether a cookie then counts. */
  const CASES: readonly (readonly [string, () => Record<string, string>, boolean])[] = [
    ['its own page by TLS or on this machine', () => ({ 'sec-fetch-site': 'same-origin' }), true],
    ['its own page over plain HTTP', () => ({ origin: `http://${host()}` }), true],
    ['its own page behind a proxy with TLS', () => ({ origin: `https://${host()}` }), true],
    ['the address line', () => ({ 'sec-fetch-site': 'none' }), true],
    ['another port of the host', () => ({ origin: 'http://127.0.0.1:1' }), false],
    ['another host that has the name in it', () => ({ origin: `http://${host()}.evil.example` }), false],
    ['a name and password before the host', () => ({ origin: `http://x@${host()}` }), false],
    ['another site', () => ({ origin: 'http://evil.example' }), false],
    ['a page without an address', () => ({ origin: 'null' }), false],
    ['a sibling site', () => ({ 'sec-fetch-site': 'same-site', origin: `http://${host()}` }), false],
    ['another site by its metadata', () => ({ 'sec-fetch-site': 'cross-site' }), false],
    [
      'another site that forges its address',
      () => ({ 'sec-fetch-site': 'cross-site', origin: `http://${host()}` }),
      false,
    ],
    ['nowhere', () => ({}), false],
  ];

  test.each(CASES)('that comes from %s', async (_where, headers, isFine) => {
    const written = await hold(service, { cookie, ...headers() });
    expect(isFine ? [200, 409] : [403]).toContain(written.status);
    for (const [method, path] of [
      ['DELETE', '/v1/keys/K9'],
      ['PATCH', '/v1/people/P9'],
      ['PUT', '/v1/people/me/password'],
    ] as const) {
      const { status } = await plain(service, { method, path, body: {}, headers: { cookie, ...headers() } });
      expect([method, status === 403]).toEqual([method, !isFine]);
    }
    // Reading changes nothing, and no other page can see the answer.
    expect((await plain(service, { path: '/v1/lots', headers: { cookie, ...headers() } })).status).toBe(200);
  });

  test('with a key is no matter of where it comes from', async () => {
    for (const [, headers] of CASES) {
      const { status } = await withKey(service, key)('POST', '/v1/lots', { ...LOT, wrong: 1 }, headers());
      expect(status).toBe(400);
    }
  });

  test('never counts with a body that a form of another page could send', async () => {
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data']) {
      const { status } = await plain(service, {
        method: 'POST',
        path: '/v1/session',
        raw: JSON.stringify({ name: 'Ana', password: passwordOf('Ana') }),
        headers: { 'content-type': type },
      });
      expect(status).toBe(415);
    }
  });

  test('a login or a logout from another site is refused too', async () => {
    const origin = { origin: 'http://evil.example' };
    expect((await tryLogin(service, 'Ana', passwordOf('Ana'), origin)).status).toBe(403);
    const out = await plain(service, {
      method: 'DELETE',
      path: '/v1/session',
      headers: { cookie, ...origin },
    });
    expect(out.status).toBe(403);
    expect((await withCookie(service, cookie)('GET', '/v1/session')).json.caller.name).toBe('Ana');
  });

  test('is not answered to other pages: no header lets them read', async () => {
    for (const method of ['GET', 'OPTIONS']) {
      const headers = { cookie, origin: 'http://evil.example', 'access-control-request-method': 'POST' };
      const answer = await plain(service, { method, path: '/v1/lots', headers });
      expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
      expect(answer.headers['cross-origin-resource-policy']).toBe('same-origin');
      expect(answer.headers['referrer-policy']).toBe('no-referrer');
    }
  });
});

describe('the program', () => {
  /** What it prints until it serves, and what it logs. */
  async function started(environment: Record<string, string>): Promise<{ printed: string; logged: string }> {
    const child = spawn(process.execPath, ['--import', 'tsx', 'src/main.ts'], {
      cwd: ROOT,
      env: { ...process.env, PORT: '0', LOG_LEVEL: 'trace', STORE: ':memory:', ...environment },
    });
    let printed = '';
    let logged = '';
    child.stdout.setEncoding('utf8').on('data', (data: string) => {
      printed += data;
      if (printed.includes('Ctrl-C')) child.kill('SIGTERM');
    });
    child.stderr.setEncoding('utf8').on('data', (data: string) => {
      logged += data;
    });
    await new Promise((resolve) => child.once('close', resolve));
    return { printed, logged };
  }

  test('prints the set-up code to the terminal, not into the log, and where to send it', async () => {
    const { printed, logged } = await started({ HOST: '0.0.0.0' });
    const [, code = ''] = /Set-up code: ((?:\w{4}-){2}\w{4})/.exec(printed) ?? [];
    expect(code).toHaveLength(14);
    expect(printed).toMatch(/POST http:\S+\/v1\/set-up/);
    expect(logged).toContain('stopping');
    expect(logged).not.toContain(code);
  });

  test('says that a demonstration is open to everyone on this machine', async () => {
    const { printed } = await started({});
    expect(printed).toContain('whoever is on this machine may do everything');
    expect(printed).not.toContain('Set-up code');
  });
});
