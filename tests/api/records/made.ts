import type { AddressInfo } from 'node:net';
import express from 'express';
import { DEMO_CALLER } from '../../../src/api/access/caller.ts';
import { allEndpoints } from '../../../src/api/endpoints.ts';
import { errorHandler } from '../../../src/api/error-handler.ts';
import { apiRouter } from '../../../src/api/router.ts';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, type Received, send } from '../running.ts';
import { type Ask, clientOf, good } from '../stock/client.ts';

/** The demo plant at work under a clock of the test's own, so that times can be foretold. */
export interface Floor {
  readonly ask: Ask;
  /** Sets the clock: an instant in UTC. */
  readonly at: (instant: string) => void;
  /** The text of an answer in a form. */
  readonly text: (path: string, accept: string) => Promise<Received>;
  readonly close: () => void;
}

export async function floorOf(service: Service, start: string): Promise<Floor> {
  let now = start;
  const books = { ...service.books, now: () => new Date(now) };
  const app = express();
  app.use(express.json());
  app.use('/v1', apiRouter(allEndpoints(books, '0'), { callerOf: async () => DEMO_CALLER }));
  app.use(errorHandler);
  const server = app.listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    ask: clientOf(service, address),
    at: (instant) => {
      now = instant;
    },
    text: async (path, accept) => send(address, { method: 'GET', path: `/v1${path}`, headers: { accept } }),
    close: () => server.close(),
  };
}

/** Plans a batch and weighs every line of it as it was planned. */
export async function weighedBatch({ ask }: Floor, request: Json): Promise<string> {
  const { body: plan } = await good(ask('POST /batches', { body: request }));
  for (const line of plan.lines) {
    for (const { load } of line.loads) {
      const body = { line: line.number, load, weight: line.perLoad };
      await good(ask(`POST /batches/${plan.id}/weighings`, { body }));
    }
  }
  await good(ask(`POST /batches/${plan.id}/weighed`, { body: {} }));
  return plan.id;
}

/** Finishes a batch of ground beef with rework and packs. */
export async function finishedBatch(floor: Floor, request: Json, out: Json): Promise<string> {
  const id = await weighedBatch(floor, request);
  await good(floor.ask(`POST /batches/${id}/finish`, { body: out }));
  return id;
}

export const GROUND_BEEF = { product: 'ground-beef-80-20', batchSize: { total: lb(200) } };
