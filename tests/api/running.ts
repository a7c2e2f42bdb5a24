import { readFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { join } from 'node:path';
import { pino } from 'pino';
import { z } from 'zod';
import { type Service, startService } from '../../src/api/service.ts';
import type { Settings } from '../../src/api/settings.ts';

/** A service that really listens, on a free port, with the demo plant. */

export const ROOT = join(import.meta.dirname, '../..');

export const SETTINGS: Settings = {
  host: '127.0.0.1',
  port: 0,
  plantFolder: join(ROOT, 'demo-data'),
  tablesFolder: join(ROOT, 'ingredient-tables'),
  storeUrl: ':memory:',
  logLevel: 'silent',
  maxBodyKb: 512,
  maxFileMb: 30,
  solveSeconds: 30,
  requestsPerMinute: 1_000_000,
};

export const SILENT = pino({ level: 'silent' });

export function startDemo(settings: Partial<Settings> = {}): Promise<Service> {
  return startService({ ...SETTINGS, ...settings }, SILENT);
}

/** JSON that a test edits: the types are those of any JSON object. */
// biome-ignore lint/suspicious/noExplicitAny: requests are edited into wrong shapes on purpose.
export type Json = any;

export function demoProduct(id: string): Json {
  return JSON.parse(readFileSync(join(ROOT, 'demo-data/products', `${id}.json`), 'utf8'));
}

export const lb = (value: number) => ({ value, unit: 'lb' });

export interface Sent {
  readonly method?: string;
  /** Sent as it stands, without the clean-up that fetch does. */
  readonly path?: string;
  readonly headers?: Readonly<Record<string, string>>;
  /** Sent as JSON. */
  readonly body?: unknown;
  /** Sent as it stands. */
  readonly raw?: string | Buffer;
}

export interface Received {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
  readonly bytes: Buffer;
}

/** Sends exactly what it is given: wrong methods, paths, headers and bodies included. */
export function send(address: string, { method = 'POST', path = '/v1/blends', ...sent }: Sent) {
  const payload = sent.raw ?? (sent.body === undefined ? undefined : JSON.stringify(sent.body));
  const { hostname, port } = new URL(address);
  return new Promise<Received>((resolve, reject) => {
    const outgoing = request(
      {
        hostname,
        port,
        method,
        path,
        agent: false,
        headers: {
          ...(payload !== undefined && { 'content-length': String(Buffer.byteLength(payload)) }),
          ...(sent.headers ?? (payload === undefined ? {} : { 'content-type': 'application/json' })),
        },
      },
      (incoming) => {
        const chunks: Buffer[] = [];
        incoming.on('data', (chunk: Buffer) => chunks.push(chunk));
        incoming.on('end', () =>
          resolve({
            status: incoming.statusCode ?? 0,
            headers: incoming.headers,
            text: Buffer.concat(chunks).toString('utf8'),
            bytes: Buffer.concat(chunks),
          }),
        );
        incoming.on('error', reject);
      },
    );
    outgoing.on('error', reject);
    outgoing.end(payload);
  });
}

/** The same schema with every object strict, however deep: an answer must not carry undeclared fields. */
export function strictly(schema: z.ZodType): z.ZodType {
  if (schema instanceof z.ZodObject) {
    const shape = schema.shape as Record<string, z.ZodType>;
    return z.strictObject(Object.fromEntries(Object.entries(shape).map(([key, at]) => [key, strictly(at)])));
  }
  if (schema instanceof z.ZodArray) return z.array(strictly(schema.element as z.ZodType));
  if (schema instanceof z.ZodOptional) return strictly(schema.unwrap() as z.ZodType).optional();
  if (schema instanceof z.ZodUnion) {
    return z.union((schema.options as readonly z.ZodType[]).map(strictly) as [z.ZodType, ...z.ZodType[]]);
  }
  return schema;
}
