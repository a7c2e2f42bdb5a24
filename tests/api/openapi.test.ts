import type { Router } from 'express';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DEMO_CALLER } from '../../src/api/access/caller.ts';
import { blendRequestSchema } from '../../src/api/contract/blend-request.ts';
import { allEndpoints } from '../../src/api/endpoints.ts';
import { apiRouter } from '../../src/api/router.ts';
import type { Service } from '../../src/api/service.ts';
import { type Json, lb, type Sent, send, startDemo } from './running.ts';

let service: Service;
let document: Json;
beforeAll(async () => {
  service = await startDemo();
  document = await (await fetch(`${service.address}/v1/openapi.json`)).json();
});
afterAll(() => service.stop());

const GOOD = { product: 'bratwurst', batchSize: { pieces: 400 } };
/** Operations that take a request for a blend itself. */
const POSTS = ['/v1/blends', '/v1/batch-sheets', '/v1/labels'];
/** Good bodies of the operations that take something else. */
const BODIES: Record<string, Json> = {
  '/v1/curves': { blend: GOOD, along: { limitId: 'house-fat-max', from: 20, to: 35 } },
  '/v1/corrections': {
    product: 'ground-beef-80-20',
    inMixer: [{ lotId: 'B73-1120', mass: lb(200) }],
    testedFat: { fatFraction: 0.21, method: 'NIR' },
  },
  '/v1/use-plans': { products: [{ product: 'bratwurst', price: { amount: 4.5, per: 'lb' } }] },
};

/** Something that there is, for the places of operations that read one thing. */
const PLACES: Record<string, string> = {
  '/v1/lots/{id}': 'B73-1120',
  '/v1/movements/{seq}': '1',
  '/v1/products/{id}': 'bratwurst',
  '/v1/materials/{id}': 'salt',
  '/v1/exports/{dataset}': 'lots',
};

function valuesOf(value: Json, key: string): Json[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) =>
    name === key ? [inner, ...valuesOf(inner, key)] : valuesOf(inner, key),
  );
}

function operations(): { path: string; method: string; operation: Json }[] {
  return Object.entries<Json>(document.paths).flatMap(([path, item]) =>
    Object.entries<Json>(item).map(([method, operation]) => ({
      path,
      method: method.toUpperCase(),
      operation,
    })),
  );
}

/** The routes as the router holds them. */
function routesOf(router: Router): string[] {
  return router.stack.flatMap(({ route }) => (route ? [`/v1${route.path.replace(/:(\w+)/g, '{$1}')}`] : []));
}

describe('the OpenAPI document', () => {
  test('is of version 3.1.0 and carries the version of the service', async () => {
    const health: Json = await (await fetch(`${service.address}/v1/health`)).json();
    expect(document.openapi).toBe('3.1.0');
    expect(document.info).toMatchObject({ title: 'meatblock', version: health.version });
  });

  test('refers only to what is in it', () => {
    const references = valuesOf(document, '$ref');
    expect(references.length).toBeGreaterThan(20);
    for (const reference of references) {
      expect(reference).toMatch(/^#\//);
      const found = reference
        .slice(2)
        .split('/')
        .reduce((at: Json, step: string) => at?.[step], document);
      expect(found, reference).toBeTypeOf('object');
    }
  });

  test('describes every route there is, and no other', () => {
    const routes = routesOf(
      apiRouter(allEndpoints(service.books, '0'), { callerOf: async () => DEMO_CALLER }),
    );
    expect(routes.length).toBeGreaterThan(8);
    expect(Object.keys(document.paths).sort()).toEqual(routes.sort());
  });

  test('tells for each operation what a good answer is and which problems there are', () => {
    for (const { path, method, operation } of operations()) {
      const { '200': done, '201': made, ...problems } = operation.responses;
      const good = done ?? made;
      // Files are told by their type alone.
      const answer = good.content['application/json']?.schema ?? good.content['text/csv'];
      expect(answer, `${method} ${path}`).toBeTypeOf('object');
      expect(Object.keys(problems).length).toBeGreaterThan(0);
      for (const [status, { content }] of Object.entries<Json>(problems)) {
        expect(Number(status)).toBeGreaterThanOrEqual(400);
        expect(content['application/problem+json'].schema).toEqual({ $ref: '#/components/schemas/Problem' });
      }
    }
  });

  test('asks of a blend the fields that a request is checked for, and requires the same ones', () => {
    const { properties, required, additionalProperties } = document.components.schemas.BlendRequest;
    expect(Object.keys(properties).sort()).toEqual(Object.keys(blendRequestSchema.shape).sort());
    expect(required.sort()).toEqual(
      Object.entries(blendRequestSchema.shape)
        .filter(([, schema]) => !schema.safeParse(undefined).success)
        .map(([field]) => field)
        .sort(),
    );
    expect(additionalProperties).toBe(false);
    for (const path of POSTS) {
      expect(document.paths[path].post.requestBody.content['application/json'].schema).toEqual({
        $ref: '#/components/schemas/BlendRequest',
      });
    }
  });
});

describe('what is documented', () => {
  test('is answered: every operation that only reads gives its documented good answer', async () => {
    const read = operations().flatMap(({ path, method, operation }) => {
      const id = PLACES[path];
      const isWork = POSTS.includes(path) || path in BODIES;
      if (method === 'GET' ? path.includes('{') && id === undefined : !isWork) return [];
      const place = path === '/v1/trace' ? `${path}?lotId=B73-1120` : path.replace(/\{\w+\}/, id ?? '');
      return [{ path: place, method, operation, body: BODIES[path] ?? GOOD }];
    });
    expect(read.length).toBeGreaterThan(15);
    for (const { path, method, operation, body } of read) {
      for (const type of Object.keys(operation.responses['200'].content)) {
        const sent: Sent = {
          method,
          path,
          headers: { accept: type, ...(method === 'POST' && { 'content-type': 'application/json' }) },
          ...(method === 'POST' && { body }),
        };
        const { status, headers } = await send(service.address, sent);
        expect([status, headers['content-type']], `${method} ${path}`).toEqual([
          200,
          /^text\/|json$/.test(type) ? `${type}; charset=utf-8` : type,
        ]);
      }
    }
  });

  test('is shown by examples that the service answers, or takes where they change something', async () => {
    const endpoints = allEndpoints(service.books, '0').filter(({ example }) => example !== undefined);
    expect(endpoints.length).toBeGreaterThan(POSTS.length);
    for (const { path, takes, example } of endpoints) {
      expect(takes?.safeParse(example).error?.issues ?? [], path).toEqual([]);
      if (!POSTS.includes(`/v1${path}`) && !(`/v1${path}` in BODIES)) continue;
      const { status } = await send(service.address, { path: `/v1${path}`, body: example });
      expect([path, status]).toEqual([path, 200]);
    }
  });

  test('is all that is answered: the parameters listed are the ones accepted', async () => {
    const sample: Record<string, string> = {
      '/v1/materials kind': 'salt',
      '/v1/lots kind': 'pack',
      '/v1/records kind': 'cleaning',
      '/v1/lots after': 'B73-1120',
      kind: 'received',
      species: 'beef',
      search: 'salt',
      limit: '1',
      form: 'xlsx',
      decimal: 'comma',
      offset: '1',
      after: '1',
      before: '261125-001',
      order: 'oldest',
      state: 'planned',
      onHand: 'any',
      open: 'true',
      held: 'true',
      materialId: 'salt',
      usableOn: '2026-11-25',
      jurisdiction: 'us',
      productClass: 'hamburger',
      product: 'bratwurst',
      date: '2026-11-25',
      fromDay: '2026-11-25',
      toDay: '2026-11-25',
      paper: 'a4',
      language: 'es',
      cost: 'true',
    };
    const listed = operations().flatMap(({ path, method, operation }) =>
      (operation.parameters ?? [])
        .filter(({ in: place }: Json) => place === 'query')
        .map(({ name }: Json) => ({ path, method, name })),
    );
    expect(listed.length).toBeGreaterThan(10);
    for (const { path, method, name } of listed) {
      // A trace takes exactly one start, so its parameters are tried where traces are.
      if (path === '/v1/trace') continue;
      // What is written is tried where it is written, batches and drills where there are some.
      const isWork = POSTS.includes(path) || path in BODIES;
      if (method === 'GET' ? path.includes('{') && PLACES[path] === undefined : !isWork) continue;
      const value = sample[`${path} ${name}`] ?? sample[name] ?? 'any-id';
      const place = path.replace(/\{\w+\}/, PLACES[path] ?? '');
      const { status } = await send(service.address, {
        method,
        path: `${place}?${name}=${value}`,
        ...(method === 'POST' && { body: BODIES[path] ?? GOOD }),
      });
      expect(status, `${path} ${name}`).toBe(200);
    }
  });

  const REFUSED: readonly (readonly [string, Sent, number])[] = [
    ['a body that is not JSON', { raw: '{', headers: { 'content-type': 'application/json' } }, 400],
    ['too large a body', { raw: 'x'.repeat(600_000), headers: { 'content-type': 'application/json' } }, 413],
    ['a body of another type', { raw: '{}', headers: { 'content-type': 'text/plain' } }, 415],
    ['an unknown product', { body: { ...GOOD, product: 'meat-pie' } }, 422],
    [
      'a sheet in a form that there is not',
      {
        path: '/v1/batch-sheets',
        body: GOOD,
        headers: { 'content-type': 'application/json', accept: 'image/png' },
      },
      406,
    ],
    ['an unknown parameter', { method: 'GET', path: '/v1/lots?colour=red' }, 400],
    ['an unknown product to read', { method: 'GET', path: '/v1/products/meat-pie' }, 404],
  ];

  test.each(REFUSED)('holds the refusal of %s', async (_name, sent, status) => {
    const refused = await send(service.address, sent);
    expect(refused.status).toBe(status);
    const path = (sent.path ?? '/v1/blends').split('?')[0]?.replace('meat-pie', '{id}') ?? '';
    const operation = document.paths[path][(sent.method ?? 'POST').toLowerCase()];
    expect(Object.keys(operation.responses)).toContain(String(status));
  });

  test('holds the refusal of too many requests, for reading as for posting', () => {
    for (const { path, method, operation } of operations()) {
      expect(Object.keys(operation.responses), `${method} ${path}`).toContain('429');
    }
  });

  test('describes the limits that a request is held to', () => {
    const { lots, use, excludeLots, materials } = document.components.schemas.BlendRequest.properties;
    for (const list of [use, excludeLots, materials]) expect(list.maxItems).toBe(500);
    expect(lots.anyOf.find(({ type }: Json) => type === 'array').maxItems).toBe(500);
    expect(document.components.schemas.Mass.properties.value).toMatchObject({
      exclusiveMinimum: 0,
      maximum: 1e9,
    });
  });
});

describe('the documentation page', () => {
  test('comes from this service alone, with everything it loads', async () => {
    const response = await fetch(`${service.address}/docs`);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
    const page = await response.text();
    expect(page).not.toMatch(/(?:https?:)?\/\/[a-z]/i);
    const loaded = [...page.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, url = '']) => url);
    expect(loaded.filter((url) => url.endsWith('.js'))).toHaveLength(2);
    for (const url of loaded.filter((candidate) => !candidate.startsWith('data:'))) {
      expect(url).toMatch(/^\/docs\//);
      const part = await fetch(`${service.address}${url}`);
      expect(part.status, url).toBe(200);
      expect(part.headers.get('content-type')).toMatch(
        url.endsWith('.css') ? /^text\/css/ : /^text\/javascript/,
      );
      expect((await part.text()).length).toBeGreaterThan(50);
    }
  });

  test('starts on the document of this service', async () => {
    const script = await (await fetch(`${service.address}/docs/start.js`)).text();
    expect(script).toContain("url: '/v1/openapi.json'");
    expect(script).toContain('validatorUrl: null');
    expect(script).not.toMatch(/https?:/);
  });

  test('serves nothing of its library but what a page needs', async () => {
    for (const file of ['package.json', 'README.md', 'index.js', 'absolute-path.js']) {
      const { status } = await send(service.address, { method: 'GET', path: `/docs/files/${file}` });
      expect(status, file).toBe(404);
    }
  });
});

describe('the headers of every answer', () => {
  test.each([
    '/docs',
    '/docs/start.js',
    '/docs/files/swagger-ui.css',
    '/v1/health',
    '/v1/nothing',
    '/v1/openapi.json',
  ])('guard %s and fit a service without TLS', async (path) => {
    const { headers } = await send(service.address, { method: 'GET', path });
    const policy = String(headers['content-security-policy']);
    expect(policy).toMatch(path.startsWith('/docs') ? /^default-src 'self';/ : /^default-src 'none';/);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('upgrade-insecure-requests');
    expect(policy).not.toContain('unsafe-eval');
    expect(headers['strict-transport-security']).toBeUndefined();
    expect(headers['x-powered-by']).toBeUndefined();
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  test('admit scripts and styles from no other place', async () => {
    for (const path of ['/docs', '/v1/health']) {
      const { headers } = await send(service.address, { method: 'GET', path });
      expect(String(headers['content-security-policy']), path).not.toMatch(/https?:/);
    }
  });
});

test('a request of the documented smallest form is answered', async () => {
  const { status, text } = await send(service.address, {
    body: { product: 'ground-beef-90-10', batchSize: { total: lb(100) } },
  });
  expect(status).toBe(200);
  expect(JSON.parse(text).outcome).toBe('blend');
});
