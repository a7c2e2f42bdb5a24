import { connect } from 'node:net';
import { availableParallelism } from 'node:os';
import { afterEach, describe, expect, test } from 'vitest';
import { type BlendTask, prepareBlend } from '../../src/api/blend-task.ts';
import { blendRequestSchema } from '../../src/api/contract/blend-request.ts';
import { jobPool } from '../../src/api/job-pool.ts';
import { Problem } from '../../src/api/problem.ts';
import type { Service } from '../../src/api/service.ts';
import type { Settings } from '../../src/api/settings.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder } from '../../src/tables/plant-folder.ts';
import { type Json, lb, SETTINGS, send, startDemo } from './running.ts';

const GOOD = { product: 'smoked-sausage', batchSize: { total: lb(500) } };

const running: Service[] = [];
async function start(settings: Partial<Settings>): Promise<Service> {
  const service = await startDemo(settings);
  running.push(service);
  return service;
}
afterEach(async () => {
  await Promise.all(running.splice(0).map((service) => service.stop()));
});

function taskOf(request: Json): BlendTask {
  const data = loadPlantFolder(SETTINGS.plantFolder, SETTINGS.tablesFolder);
  const prepared = prepareBlend(blendRequestSchema.parse(request), data, RULE_SETS, '2026-11-25');
  if (!prepared.ok) throw new Error(JSON.stringify(prepared.issues));
  return prepared.task;
}

describe('a limit on requests in a minute', () => {
  test('lets so many through and refuses the next with the time to wait', async () => {
    const service = await start({ requestsPerMinute: 3 });
    const statuses: number[] = [];
    for (let count = 0; count < 3; count++) {
      statuses.push((await send(service.address, { method: 'GET', path: '/v1/health' })).status);
    }
    expect(statuses).toEqual([200, 200, 200]);
    const refused = await send(service.address, { body: GOOD });
    expect(refused.status).toBe(429);
    expect(refused.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
    expect(Number(refused.headers['retry-after'])).toBeLessThanOrEqual(60);
    expect(JSON.parse(refused.text)).toMatchObject({
      type: '/problems/too-many-requests',
      status: 429,
      detail: expect.stringContaining('More than 3 requests in a minute'),
    });
  });

  test('is told with every answer', async () => {
    const service = await start({ requestsPerMinute: 3 });
    const { headers } = await send(service.address, { method: 'GET', path: '/v1/health' });
    expect(headers['ratelimit-policy']).toContain('q=3');
    expect(headers.ratelimit).toContain('r=2');
  });
});

describe('a limit on the time of one blend', () => {
  test('ends in the problem "too-slow", and a pool with more time still answers', async () => {
    const task = taskOf(GOOD);
    const hasty = jobPool({ solveSeconds: 0.001, doubted: () => undefined });
    try {
      const refusals = await Promise.allSettled([hasty.run('blend', task), hasty.run('blend', task)]);
      for (const refusal of refusals) {
        expect(refusal).toMatchObject({ status: 'rejected', reason: { kind: 'too-slow' } });
        expect(refusal.status === 'rejected' && refusal.reason).toBeInstanceOf(Problem);
      }
    } finally {
      await hasty.close();
    }
    const patient = jobPool({ solveSeconds: 30, doubted: () => undefined });
    try {
      expect((await patient.run('blend', task)).outcome).toBe('blend');
    } finally {
      await patient.close();
    }
  });

  test('answers 503 with the time to wait, while the rest of the service goes on', async () => {
    const service = await start({ solveSeconds: 0.001 });
    for (let count = 0; count < 3; count++) {
      const slow = await send(service.address, { body: GOOD });
      expect(slow.status).toBe(503);
      expect(slow.headers['retry-after']).toBe('5');
      expect(JSON.parse(slow.text)).toMatchObject({
        type: '/problems/too-slow',
        detail: expect.stringContaining('fewer lots'),
      });
      expect((await send(service.address, { method: 'GET', path: '/v1/lots' })).status).toBe(200);
    }
  });
});

describe('a limit on blends that wait', () => {
  const MANY = 64 + 2 * availableParallelism() + 60;

  test('refuses what is too much as busy and answers all the others', async () => {
    const task = taskOf({ product: 'ground-beef-80-20', batchSize: { total: lb(500) } });
    const pool = jobPool({ solveSeconds: 60, doubted: () => undefined });
    try {
      const results = await Promise.allSettled(Array.from({ length: MANY }, () => pool.run('blend', task)));
      const refused = results.flatMap((result) => (result.status === 'rejected' ? [result.reason] : []));
      const answered = results.flatMap((result) => (result.status === 'fulfilled' ? [result.value] : []));
      expect(refused.length).toBeGreaterThan(0);
      expect(new Set(refused.map(({ kind }: Json) => kind))).toEqual(new Set(['busy']));
      expect(answered.length).toBeGreaterThanOrEqual(64);
      expect(new Set(answered.map(({ outcome }) => outcome))).toEqual(new Set(['blend']));
      expect((await pool.run('blend', task)).outcome).toBe('blend');
    } finally {
      await pool.close();
    }
  });

  test('answers 503 over HTTP and asks to come again in a second', async () => {
    const service = await start({});
    const answers = await Promise.all(
      Array.from({ length: MANY }, () => send(service.address, { body: GOOD })),
    );
    const refused = answers.filter(({ status }) => status !== 200);
    expect(refused.length).toBeGreaterThan(0);
    for (const { status, headers, text } of refused) {
      expect(status).toBe(503);
      expect(headers['retry-after']).toBe('1');
      expect(JSON.parse(text).type).toBe('/problems/busy');
    }
    expect((await send(service.address, { body: GOOD })).status).toBe(200);
  });
});

describe('a limit on the size of a body', () => {
  test('is the one of the settings', async () => {
    const service = await start({ maxBodyKb: 1 });
    const padded = (bytes: number) => JSON.stringify({ ...GOOD, excludeLots: [] }).padEnd(bytes);
    const headers = { 'content-type': 'application/json' };
    expect((await send(service.address, { raw: padded(1024), headers })).status).toBe(200);
    expect((await send(service.address, { raw: padded(1025), headers })).status).toBe(413);
  });
});

describe('callers that do not keep to HTTP', () => {
  function speak(service: Service, words: string): Promise<string> {
    return new Promise((resolve, reject) => {
      const socket = connect(Number(new URL(service.address).port), '127.0.0.1');
      let heard = '';
      socket.setEncoding('utf8');
      socket.on('data', (data: string) => {
        heard += data;
      });
      socket.on('close', () => resolve(heard));
      socket.on('error', reject);
      socket.end(words);
    });
  }

  test('are refused, and the next caller is answered', async () => {
    const service = await start({});
    expect(await speak(service, 'Give me sausage\r\n\r\n')).toMatch(/^HTTP\/1\.1 400 /);
    expect(await speak(service, `GET /v1/health HTTP/1.1\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`)).toMatch(
      /^HTTP\/1\.1 431 /,
    );
    expect((await send(service.address, { body: GOOD })).status).toBe(200);
  });

  test('that hang up in the middle of a request harm nobody', async () => {
    const service = await start({});
    const half =
      'POST /v1/blends HTTP/1.1\r\nHost: plant\r\nContent-Type: application/json\r\nContent-Length: 999\r\n\r\n{"pro';
    await Promise.all(Array.from({ length: 20 }, () => speak(service, half)));
    expect((await send(service.address, { body: GOOD })).status).toBe(200);
  });
});
