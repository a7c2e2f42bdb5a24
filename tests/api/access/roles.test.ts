import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { entriesAnswer, keysAnswer, peopleAnswer, personAnswer } from '../../../src/api/access/contract.ts';
import { mayDo, ROLES, type Role } from '../../../src/api/access/roles.ts';
import type { Endpoint } from '../../../src/api/endpoint.ts';
import { allEndpoints } from '../../../src/api/endpoints.ts';
import type { Service } from '../../../src/api/service.ts';
import { type Json, strictly } from '../running.ts';
import { type Asks, login, passwordOf, plain, startWithPeople, tryLogin, withKey } from './people.ts';

let service: Service;
let endpoints: readonly Endpoint[];
let ana: Asks;
const people = {} as Record<Role, Asks>;
const keys = {} as Record<Role, Asks>;
beforeAll(async () => {
  service = await startWithPeople();
  endpoints = allEndpoints(service.books, '0', service.access);
  ana = await login(service, 'Ana');
  people.admin = ana;
  people.floor = await login(service, 'Tomas');
  people.formulator = await login(service, 'Vera');
  people.inspector = await login(service, 'Ilse');
  for (const role of ROLES) {
    const { json } = await ana('POST', '/v1/keys', { name: `${role} program`, role });
    keys[role] = withKey(service, json.key);
  }
});
afterAll(() => service.stop());

const headNow = () =>
  service.books.store.read((db) => db.selectFrom('head').select('length').executeTakeFirstOrThrow());

/** Calls an endpoint in a way that is understood only so far as to see who calls. */
function touch(ask: Asks, { method, path, takes, needsVersion }: Endpoint) {
  const body = takes ? { 'no such field': true } : undefined;
  const headers: Record<string, string> = needsVersion ? { 'if-match': '"1"' } : {};
  return ask(method, `/v1${path.replaceAll(/:\w+/g, 'none')}`, body, headers);
}

const stranger: Asks = (method, path, body, headers = {}) =>
  plain(service, { method, path, ...(body !== undefined && { body }), headers });

/** Logging out and the like are no matter of a role. */
const isForRoles = ({ may }: Endpoint) => may !== 'anyone';

describe('every endpoint', () => {
  test('is closed to whoever has not logged in, but for what needs no login', async () => {
    for (const endpoint of endpoints) {
      const { status, headers } = await touch(stranger, endpoint);
      const name = `${endpoint.method} ${endpoint.path}`;
      expect([name, status === 401], name).toEqual([name, isForRoles(endpoint) && true]);
      if (status === 401) expect(headers['www-authenticate']).toBe('Bearer');
    }
    const open = endpoints.filter((endpoint) => !isForRoles(endpoint));
    expect(open.map(({ method, path }) => `${method} ${path}`).sort()).toEqual([
      'DELETE /session',
      'GET /health',
      'GET /session',
      'POST /session',
      'POST /set-up',
      'POST /translations',
    ]);
  });

  test.each(ROLES)(
    'is open to %s where the role may, and closed where not, for people as for keys',
    async (role) => {
      const seen = new Set<string>();
      for (const endpoint of endpoints.filter(isForRoles)) {
        for (const ask of [people[role], keys[role]]) {
          const { status, json } = await touch(ask, endpoint);
          const name = `${endpoint.method} ${endpoint.path} ${status}`;
          expect(status, name).not.toBe(401);
          expect([name, status !== 403]).toEqual([name, mayDo(role, endpoint.may)]);
          if (status === 403) expect(json.detail).toContain(`has the role ${role}`);
          seen.add(`${endpoint.may} ${status === 403}`);
        }
      }
      expect([...seen].length).toBe(4);
    },
  );

  test('that an inspector may use writes nothing into the books', async () => {
    const before = await headNow();
    const written = endpoints.filter(({ method }) => method !== 'GET');
    let tried = 0;
    for (const { path, method, example, may } of written) {
      if (path === '/people/me/password' || may === 'anyone') continue;
      const { status } = await people.inspector(
        method,
        `/v1${path.replaceAll(/:\w+/g, 'none')}`,
        example ?? {},
        {
          'if-match': '"1"',
        },
      );
      if (may !== 'read') expect([path, status]).toEqual([path, 403]);
      tried += 1;
    }
    expect(tried).toBeGreaterThan(20);
    expect(await headNow()).toEqual(before);
  });
});

describe('people', () => {
  const etagOf = async (path: string) => String((await ana('GET', path)).headers.etag);
  const patch = async (path: string, change: Json) =>
    ana('PATCH', path, change, { 'if-match': await etagOf(path) });
  const add = async (name: string, role: Role, headers = {}) =>
    ana('POST', '/v1/people', { name, role, password: passwordOf(name) }, headers);

  test('are listed as the contract says, and kept in no cache', async () => {
    const { json, headers } = await ana('GET', '/v1/people');
    expect(strictly(peopleAnswer).safeParse(json).error).toBeUndefined();
    expect(json.items.slice(0, 4)).toMatchObject([
      { id: 'P1', name: 'Ana', role: 'admin', active: true, version: 1 },
      { id: 'P4', name: 'Ilse', role: 'inspector' },
      { id: 'P2', name: 'Tomas', role: 'floor' },
      { id: 'P3', name: 'Vera', role: 'formulator' },
    ]);
    expect(headers['cache-control']).toBe('no-store');
  });

  test('have names of their own, however written', async () => {
    for (const name of ['ANA', ' ana ', 'Ａna']) {
      const { status, json } = await add(name, 'floor');
      expect([name, status]).toEqual([name, 409]);
      expect(json.errors[0].pointer).toBe('/name');
    }
    const made = await add('  Jan   from  the cooler ', 'floor');
    expect(made.status).toBe(201);
    expect(made.json.name).toBe('Jan from the cooler');
    expect(made.headers.location).toBe(`/v1/people/${made.json.id}`);
    expect(strictly(personAnswer).safeParse(made.json).error).toBeUndefined();
    expect((await patch(`/v1/people/${made.json.id}`, { name: 'vera' })).status).toBe(409);
    expect((await patch(`/v1/people/${made.json.id}`, { name: 'JAN FROM the cooler' })).status).toBe(200);
  });

  test.each([
    [{ name: '', role: 'floor', password: 'long enough for it' }, '/name'],
    [{ name: 'a\u0000b', role: 'floor', password: 'long enough for it' }, '/name'],
    [{ name: 'Max', role: 'owner', password: 'long enough for it' }, '/role'],
    [{ name: 'Max', role: 'floor', password: 'too short' }, '/password'],
    [{ name: 'Max of the night', role: 'floor', password: 'max of the night' }, '/password'],
    [{ name: 'Max', role: 'floor' }, '/password'],
    [{ name: 'Max', role: 'floor', password: 'long enough for it', id: 'P1' }, '/id'],
  ])('are not added as %o', async (body, pointer) => {
    const { status, json } = await ana('POST', '/v1/people', body);
    expect([status, json.errors[0].pointer]).toEqual([400, pointer]);
  });

  test('are changed only by whoever read how they stand', async () => {
    const etag = await etagOf('/v1/people/P3');
    expect((await ana('PATCH', '/v1/people/P3', { role: 'admin' })).status).toBe(428);
    expect((await patch('/v1/people/P3', { role: 'formulator' })).status).toBe(200);
    const late = await ana('PATCH', '/v1/people/P3', { role: 'admin' }, { 'if-match': etag });
    expect(late.status).toBe(412);
    expect(late.json.detail).toContain('Ana on ');
    expect((await patch('/v1/people/P3', {})).status).toBe(400);
    expect((await ana('GET', '/v1/people/P99')).status).toBe(404);
  });

  test('who may come in no more are logged out at once', async () => {
    const { json } = await add('Kim', 'formulator');
    const kim = await login(service, 'Kim');
    expect((await kim('GET', '/v1/lots')).status).toBe(200);
    expect((await patch(`/v1/people/${json.id}`, { active: false })).json.active).toBe(false);
    expect((await kim('GET', '/v1/lots')).status).toBe(401);
    expect((await tryLogin(service, 'Kim', passwordOf('Kim'))).status).toBe(401);
    await patch(`/v1/people/${json.id}`, { active: true });
    expect((await kim('GET', '/v1/lots')).status).toBe(401);
    await login(service, 'Kim');
  });

  test('who get a new password from an admin are logged out at once', async () => {
    const { json } = await add('Lea', 'floor');
    const lea = await login(service, 'Lea');
    expect((await patch(`/v1/people/${json.id}`, { password: 'a new one for her' })).status).toBe(200);
    expect((await lea('GET', '/v1/lots')).status).toBe(401);
    await login(service, 'Lea', 'a new one for her');
  });

  test('always have an admin among them', async () => {
    for (const change of [{ role: 'floor' }, { active: false }]) {
      const refused = await patch('/v1/people/P1', change);
      expect(refused.status).toBe(409);
      expect(refused.json.detail).toContain('last admin');
    }
    const { json } = await add('Eva', 'admin');
    const [one, other] = await Promise.all([
      patch('/v1/people/P1', { role: 'formulator' }),
      patch(`/v1/people/${json.id}`, { role: 'formulator' }),
    ]);
    // The two are admins no more only one after the other: the later one is refused, or comes from nobody who may.
    expect([one.status, other.status].filter((status) => status === 200)).toHaveLength(1);
    const stillAdmin = one.status === 200 ? await login(service, 'Eva') : ana;
    const { headers } = await stillAdmin('GET', '/v1/people/P1');
    const back = await stillAdmin(
      'PATCH',
      '/v1/people/P1',
      { role: 'admin' },
      { 'if-match': String(headers.etag) },
    );
    expect(back.status).toBe(200);
  });

  test('are added once when the same request comes twice, and no hash of the password is kept for that', async () => {
    const repeat = { 'idempotency-key': 'add-mia' };
    const first = await add('Mia', 'floor', repeat);
    const other = { name: 'Mia', role: 'floor', password: 'another one this time' };
    const second = await ana('POST', '/v1/people', other, repeat);
    expect(second.json).toEqual(first.json);
    expect((await ana('POST', '/v1/people', { ...other, role: 'admin' }, repeat)).status).toBe(409);
    await login(service, 'Mia');
  });
});

describe('a key', () => {
  test('is shown once, works as its role says, and stands in the books by its name', async () => {
    const made = await ana('POST', '/v1/keys', { name: 'cooler scale', role: 'floor' });
    expect(made.status).toBe(201);
    expect(made.headers['cache-control']).toBe('no-store');
    expect(made.json.key).toMatch(/^meatblock_[\w-]{43}$/);
    const { json: listed, text } = await ana('GET', '/v1/keys');
    expect(strictly(keysAnswer).safeParse(listed).error).toBeUndefined();
    expect(text).not.toContain(made.json.key);
    const scale = withKey(service, made.json.key);
    const held = await scale('POST', '/v1/lots/B85-1119/hold', { reason: 'torn bag' });
    expect(held.status).toBe(200);
    expect((await scale('POST', '/v1/lots/B85-1119/release', { reason: 'fine' })).status).toBe(403);
    const { json } = await ana('GET', '/v1/entries?limit=1');
    expect(json.items[0].person).toEqual({ id: made.json.id, name: 'cooler scale (key)' });
  });

  test('has no password to change', async () => {
    const { status } = await keys.admin('PUT', '/v1/people/me/password', {
      old: 'x',
      new: 'long enough for it',
    });
    expect(status).toBe(409);
  });

  test('that was revoked opens nothing, also where no login is needed', async () => {
    const { json } = await ana('POST', '/v1/keys', { name: 'old scale', role: 'admin' });
    const scale = withKey(service, json.key);
    expect((await scale('GET', '/v1/people')).status).toBe(200);
    const revoked = await ana('DELETE', `/v1/keys/${json.id}`);
    expect(revoked.json).toMatchObject({ id: json.id, revokedAt: expect.any(String) });
    for (const path of ['/v1/people', '/v1/health']) {
      const { status, headers } = await scale('GET', path);
      expect(status).toBe(401);
      expect(headers['www-authenticate']).toContain('invalid_token');
    }
    expect((await ana('DELETE', `/v1/keys/${json.id}`)).status).toBe(409);
    expect((await ana('DELETE', '/v1/keys/K999')).status).toBe(404);
  });

  test.each(['Bearer', 'Bearer ', 'Bearer meatblock_x', 'Basic QW5hOnNlY3JldA==', 'nonsense'])(
    'is not "%s"',
    async (authorization) => {
      const { status } = await plain(service, { path: '/v1/lots', headers: { authorization } });
      expect(status).toBe(401);
    },
  );
});

describe('the audit', () => {
  const read = async (query = '') => {
    const { json, status } = await people.inspector('GET', `/v1/entries${query}`);
    expect(status, JSON.stringify(json)).toBe(200);
    expect(strictly(entriesAnswer).safeParse(json).error).toBeUndefined();
    return json;
  };

  test('tells who did what and when, each entry with the hash of the one before', async () => {
    const { items } = await read('?order=oldest&limit=500');
    expect(items.slice(0, 3)).toMatchObject([
      { seq: 1, action: 'plant founded', person: { name: 'meatblock' }, previousHash: '' },
      {
        seq: 2,
        action: 'person added',
        person: { id: 'demo' },
        subject: { kind: 'person', id: 'P1' },
        says: 'Ana, admin',
      },
      { seq: 3, action: 'person added', person: { id: 'P1', name: 'Ana' }, says: 'Tomas, floor' },
    ]);
    for (const [index, { seq, previousHash, day }] of items.entries()) {
      expect(seq).toBe(index + 1);
      expect(previousHash).toBe(items[index - 1]?.hash ?? '');
      expect(day).toBe('2026-11-25');
    }
  });

  test.each(['newest', 'oldest'])('is read page by page, the %s first', async (order) => {
    const whole = (await read(`?order=${order}&limit=500`)).items.map(({ seq }: Json) => seq);
    const paged: number[] = [];
    let after = '';
    do {
      const page = await read(`?order=${order}&limit=7${after}`);
      paged.push(...page.items.map(({ seq }: Json) => seq));
      after = page.next === undefined ? '' : `&after=${page.next}`;
    } while (after !== '');
    expect(paged).toEqual(whole);
    expect(whole.length).toBeGreaterThan(14);
  });

  test.each([
    ['person=Ana', ({ person }: Json) => person.name === 'Ana'],
    ['person=P1', ({ person }: Json) => person.id === 'P1'],
    ['action=key%20made', ({ action }: Json) => action === 'key made'],
    [
      'subjectKind=person&subjectId=P2',
      ({ subject }: Json) => subject.kind === 'person' && subject.id === 'P2',
    ],
    ['fromDay=2026-11-25&toDay=2026-11-25', () => true],
    ['toDay=2026-11-24', () => false],
  ])('is narrowed by %s', async (query, fits) => {
    const all = (await read('?limit=500')).items;
    const { items } = await read(`?limit=500&${query}`);
    expect(items).toEqual(all.filter(fits));
  });
});
