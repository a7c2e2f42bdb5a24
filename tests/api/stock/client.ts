import type { AddressInfo } from 'node:net';
import express from 'express';
import { expect } from 'vitest';
import type { Role } from '../../../src/api/access/roles.ts';
import type { Endpoint } from '../../../src/api/endpoint.ts';
import { allEndpoints } from '../../../src/api/endpoints.ts';
import { errorHandler } from '../../../src/api/error-handler.ts';
import { apiRouter } from '../../../src/api/router.ts';
import type { Service } from '../../../src/api/service.ts';
import { verifyStore } from '../../../src/store/verify.ts';
import { type Json, send, strictly } from '../running.ts';

/** Calls a service as a program would, and holds every good answer against its contract. */

export interface Answered {
  readonly status: number;
  readonly etag: string;
  readonly location: string;
  readonly body: Json;
}

export interface Asked {
  readonly body?: unknown;
  readonly ifMatch?: string;
  readonly key?: string;
}

export type Ask = (line: string, asked?: Asked) => Promise<Answered>;

/** @returns asks such as ask('POST /lots', { body }), below /v1. */
export function clientOf(service: Service, address = service.address): Ask {
  const endpoints = allEndpoints(service.books, '0');
  return async (line, { body, ifMatch, key } = {}) => {
    const [method = '', path = ''] = line.split(' ');
    const { status, headers, text } = await send(address, {
      method,
      path: `/v1${path}`,
      headers: {
        ...(body !== undefined && { 'content-type': 'application/json' }),
        ...(ifMatch !== undefined && { 'if-match': ifMatch }),
        ...(key !== undefined && { 'idempotency-key': key }),
      },
      ...(body !== undefined && { body }),
    });
    const answered = JSON.parse(text);
    const endpoint = endpoints.find((one) => one.method === method && fits(one, path));
    if (status < 300) {
      expect(status, text).toBe(endpoint?.status ?? 200);
      const faults = endpoint && strictly(endpoint.gives).safeParse(answered).error?.issues;
      expect(faults ?? [], line).toEqual([]);
    }
    return {
      status,
      etag: String(headers.etag ?? ''),
      location: String(headers.location ?? '').replace(/^\/v1/, ''),
      body: answered,
    };
  };
}

function fits({ path }: Endpoint, asked: string): boolean {
  const pattern = path.replace(/:\w+/g, '[^/]+');
  return new RegExp(`^${pattern}$`).test(asked.split('?')[0] ?? '');
}

/** The good answer to a question. */
export async function good(answer: Promise<Answered>): Promise<Answered> {
  const answered = await answer;
  expect(answered.status, JSON.stringify(answered.body)).toBeLessThan(300);
  return answered;
}

/** A refusal, of which the pointers of its fields and the words are looked at. */
export async function refusal(
  answer: Promise<Answered>,
  status: number,
  pointers: readonly string[],
  ...words: readonly string[]
): Promise<void> {
  const { status: found, body } = await answer;
  expect([found, (body.errors ?? []).map(({ pointer }: Json) => pointer)], JSON.stringify(body)).toEqual([
    status,
    pointers,
  ]);
  for (const word of words) expect(JSON.stringify(body)).toContain(word);
}

/** How many entries the books have: what is refused writes none. */
export async function entriesOf({ books }: Service): Promise<number> {
  const { length } = await books.store.read((db) =>
    db.selectFrom('head').select('length').executeTakeFirstOrThrow(),
  );
  return length;
}

/** The same books, as somebody of that role sees them. */
export async function askAs(
  service: Service,
  role: Role,
): Promise<{ ask: Ask; address: string; close: () => void }> {
  const caller = { id: 'tomas', name: 'Tomas', role, via: 'session' } as const;
  const app = express();
  app.use(express.json());
  app.use('/v1', apiRouter(allEndpoints(service.books, '0'), { callerOf: async () => caller }));
  app.use(errorHandler);
  const server = app.listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  const { port } = server.address() as AddressInfo;
  const address = `http://127.0.0.1:${port}`;
  return { ask: clientOf(service, address), address, close: () => server.close() };
}

/** Ends a service whose books, after all that was done to them, still add up. */
export async function verifiedStop(service: Service): Promise<void> {
  const verdict = await service.books.store.read((db) => verifyStore(db));
  await service.stop();
  expect(verdict.findings).toEqual([]);
}
