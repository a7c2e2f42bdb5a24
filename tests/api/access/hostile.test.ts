import { once } from 'node:events';
import { connect } from 'node:net';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { allEndpoints } from '../../../src/api/endpoints.ts';
import type { Service } from '../../../src/api/service.ts';
import { verifyStore } from '../../../src/store/verify.ts';
import { onEachDatabase } from '../../store/databases.ts';
import type { Json } from '../running.ts';
import { type Asks, cookieOf, login, passwordOf, plain, startWithPeople, tryLogin } from './people.ts';

/** Requests that mean harm: the service refuses them, shows nothing of itself, and its books stay whole. */

const RECEIPT = {
  materialId: 'beef-trim-73',
  mass: { value: 72, unit: 'lb' },
  cost: { amount: 2, per: 'lb' },
  packedDate: '2026-11-23',
  useByDate: '2026-12-05',
  supplierEstablishment: '00001',
  supplierLot: 'A-9',
};

onEachDatabase((newStoreUrl) => {
  let service: Service;
  let ana: Asks;
  beforeAll(async () => {
    service = await startWithPeople({ storeUrl: await newStoreUrl() });
    ana = await login(service, 'Ana');
    await ana('POST', '/v1/lots', { ...RECEIPT, id: 'TARGET' });
  });
  afterAll(async () => {
    const { findings } = await service.books.store.read((db) => verifyStore(db));
    await service.stop();
    expect(findings).toEqual([]);
  });

  /** A refusal that tells what is wrong, and nothing of files, queries or tables. */
  const refused = ({ status, text }: { status: number; text: string }, ...expected: number[]) => {
    expect(expected, text).toContain(status);
    expect(text).not.toMatch(/select |insert |sqlite|postgres|node_modules|\/src\/|\.ts:|at Object/i);
  };

  // NUL: PostgreSQL manual, section 8.3. Half a surrogate pair: The Unicode Standard, section 3.9, D92.
  describe.each([
    ['NUL', 'a\0b'],
    ['half a surrogate pair', 'a\ud800b'],
  ])('%s', (_, text) => {
    test.each<[string, string, Json]>([
      ['/v1/lots', '/location', { ...RECEIPT, location: text }],
      ['/v1/lots', '/supplierLot', { ...RECEIPT, supplierLot: text }],
      ['/v1/lots/TARGET/movements', '/reason', { kind: 'discarded', mass: RECEIPT.mass, reason: text }],
      ['/v1/lots/TARGET/hold', '/reason', { reason: text }],
      ['/v1/shipments', '/to', { to: text, document: 'D', lines: [{ lotId: 'TARGET', mass: 'all' }] }],
      ['/v1/people', '/name', { name: text, role: 'floor', password: 'a long enough one' }],
      ['/v1/session', '/name', { name: text, password: 'x' }],
      ['/v1/batches', '', { [text]: 1 }],
    ])('is kept from nowhere: %s %s', async (path, pointer, body) => {
      const answer = await ana('POST', path, body);
      refused(answer, 400);
      expect(answer.json.errors.map((error: Json) => error.pointer)).toEqual([pointer]);
    });
  });

  test.each([
    '/v1/lots/%00',
    '/v1/materials/%00',
    '/v1/people/%00',
    '/v1/entries?person=%00',
    '/v1/trace?supplierLot=%00',
    '/v1/lots/%ED%A0%80',
    '/v1/lots/%F0%9F',
  ])('%s names nothing', async (path) => refused(await ana('GET', path), 400));

  test.each([
    '/v1/lots/..%2F..%2Fetc%2Fpasswd',
    `/v1/lots/${'a'.repeat(7_000)}`,
    '/v1/lots/%D0%A2ARGET',
    '/v1/lots/TARGE%25',
    "/v1/lots/TARGET'--",
    '/v1/products/__proto__',
    '/v1/products/constructor',
    '/v1/records/99999999999999999999',
    '/problems/__proto__',
    '/rules/..%2F..%2Fpackage.json',
    '/docs/..%2F..%2Fpackage.json',
    '//elsewhere.example/%2e%2e',
  ])('%.60s is not there', async (path) => {
    const answer = await ana('GET', path);
    refused(answer, 404);
    expect(answer.headers.location).toBeUndefined();
  });

  test.each(["' or '1'='1", '%', '_', 'Ana%', '" or ""="'])(
    'a filter takes %s as it stands',
    async (text) => {
      const answer = await ana('GET', `/v1/entries?person=${encodeURIComponent(text)}`);
      expect([answer.status, answer.json]).toEqual([200, { items: [] }]);
    },
  );

  test.each([
    '{"__proto__": {"name": "Ana"}, "name": "Ana", "password": "x"}',
    '{"constructor": {}}',
    '"__proto__"',
  ])('what objects inherit is no field: %s', async (raw) => {
    const headers = { 'content-type': 'application/json' };
    refused(await plain(service, { method: 'POST', path: '/v1/session', raw, headers }), 400);
    expect(({} as Json).name).toBeUndefined();
  });

  test('lists in lists in lists end the request and not the service, with a key and without', async () => {
    const raw = `${'['.repeat(200_000)}${']'.repeat(200_000)}`;
    for (const key of [{}, { 'idempotency-key': 'deep' }]) {
      const headers = { 'content-type': 'application/json', ...key };
      refused(await plain(service, { method: 'POST', path: '/v1/session', raw, headers }), 400);
    }
  });

  test('a body of more than the limit is refused on every route that takes one', async () => {
    const raw = JSON.stringify({ padding: 'x'.repeat(600_000) });
    const taking = allEndpoints(service.books, '0').filter(({ takes }) => takes);
    expect(taking.length).toBeGreaterThan(10);
    for (const { method, path } of taking) {
      const headers = { 'content-type': 'application/json' };
      const answer = await plain(service, {
        method,
        path: `/v1${path.replaceAll(/:\w+/g, '1')}`,
        raw,
        headers,
      });
      expect(answer.status, path).toBe(413);
    }
  });

  test('an inspector changes nothing, a stranger reads nothing', async () => {
    const ilse = await login(service, 'Ilse');
    for (const { method, path, may } of allEndpoints(service.books, '0')) {
      const asked = `/v1${path.replaceAll(/:\w+/g, '1')}`;
      if (may === 'anyone' || path === '/people/me/password') continue;
      const stranger = await plain(service, { method, path: asked, ...(method !== 'GET' && { body: {} }) });
      expect(stranger.status, path).toBe(401);
      if (may === 'read') continue;
      expect((await ilse(method, asked, {})).status, `${method} ${path}`).toBe(403);
    }
    const read = allEndpoints(service.books, '0').filter(
      ({ may, method }) => may === 'read' && method !== 'GET',
    );
    const works = read.map(({ path }) => path).sort();
    const before = await service.books.store.read((db) => db.selectFrom('head').selectAll().execute());
    for (const path of works) await ilse('POST', `/v1${path}`, {});
    expect(await service.books.store.read((db) => db.selectFrom('head').selectAll().execute())).toEqual(
      before,
    );
  });

  test('nobody makes himself an admin', async () => {
    const tomas = await login(service, 'Tomas');
    for (const id of ['me', 'P2']) {
      refused(await tomas('PATCH', `/v1/people/${id}`, { role: 'admin' }, { 'if-match': '*' }), 403);
    }
    refused(
      await tomas('POST', '/v1/people', { name: 'X', role: 'admin', password: 'a long enough one' }),
      403,
    );
    refused(await tomas('POST', '/v1/keys', { name: 'X', role: 'admin' }), 403);
    const own = { old: passwordOf('Tomas'), new: 'another long one', role: 'admin' };
    refused(await tomas('PUT', '/v1/people/me/password', own), 400);
  });

  test('a session that somebody brings along is not taken over', async () => {
    const planted = 'a'.repeat(43);
    const answer = await tryLogin(service, 'Vera', passwordOf('Vera'), {
      cookie: `session=${planted}`,
      origin: service.address,
    });
    expect(answer.status).toBe(200);
    expect(cookieOf(answer)).toMatch(/^session=[A-Za-z0-9_-]{43}$/);
    expect(cookieOf(answer)).not.toContain(planted);
    expect(
      (await plain(service, { path: '/v1/lots', headers: { cookie: `session=${planted}` } })).status,
    ).toBe(401);
  });

  test('what tells of the plant may stay in no shared cache, and no other site may read it', async () => {
    for (const path of ['/v1/lots', '/v1/people', '/v1/session', '/v1/entries', '/v1/batches']) {
      const { headers } = await ana('GET', path, undefined, { origin: 'http://elsewhere.example' });
      expect(headers['cache-control'], path).toMatch(/private|no-store/);
      for (const name of Object.keys(headers)) expect(name).not.toMatch(/^access-control/);
    }
  });

  test('a header cannot be made to carry another', async () => {
    const answer = await ana('POST', '/v1/lots', { ...RECEIPT, id: 'X\r\nSet-Cookie: session=x' });
    refused(answer, 400);
    expect(answer.headers['set-cookie']).toBeUndefined();
  });

  test('headers of more than node takes end the request alone', async () => {
    const answer = await plain(service, { path: '/v1/session', headers: { cookie: 'x'.repeat(20_000) } });
    expect(answer.status).toBe(431);
    expect((await plain(service, { path: '/v1/session' })).status).toBe(200);
  });

  test('what is printed shows tags as text', async () => {
    const nasty = '<script>alert(1)</script>"\'&';
    await ana('POST', '/v1/lots', { ...RECEIPT, id: 'NASTY', supplierLot: nasty, location: nasty });
    await ana('POST', '/v1/lots/NASTY/tests', { fatFraction: 0.27, method: 'NIR' });
    const page = await ana('GET', '/v1/logs/fat-tests?fromDay=2026-11-25&toDay=2026-11-25', undefined, {
      accept: 'text/html',
    });
    expect(page.status).toBe(200);
    expect(page.headers['content-type']).toContain('text/html');
    expect(page.text).not.toContain('<script');
    expect(page.headers['content-security-policy']).toMatch(/default-src 'none'/);
    expect(page.headers['content-security-policy']).not.toContain('unsafe');
  });
});

test('addresses are counted as they are, whatever X-Forwarded-For says', async () => {
  const service = await startWithPeople({ requestsPerMinute: 20 });
  const answers: number[] = [];
  for (let n = 0; n < 25; n++) {
    const headers = { 'x-forwarded-for': `10.0.0.${n}`, forwarded: `for=10.0.0.${n}` };
    answers.push((await plain(service, { path: '/v1/session', headers })).status);
  }
  expect(answers.at(-1)).toBe(429);
  await service.stop();
});

test('who sends a request a byte at a time is not waited for without end', async () => {
  const service = await startWithPeople({ requestSeconds: 1 });
  const socket = connect(Number(new URL(service.address).port), '127.0.0.1');
  const ended = once(socket, 'close');
  const said = text(socket);
  socket.write(
    'POST /v1/session HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 50\r\n\r\n{',
  );
  expect((await plain(service, { path: '/v1/session' })).status).toBe(200);
  expect(await said).toMatch(/^HTTP\/1.1 408 /);
  await ended;
  await service.stop();
});
