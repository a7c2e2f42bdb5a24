import { expect } from 'vitest';
import { batchAnswer } from '../../../src/api/batches/contract.ts';
import { problemSchema } from '../../../src/api/contract/blend-answer.ts';
import { type Json, send, strictly } from '../running.ts';

/** The person at the mixer: works batches over HTTP, and holds every answer against its schema. */

const BATCH = strictly(batchAnswer);
const PROBLEM = strictly(problemSchema);

export interface Reply {
  readonly status: number;
  readonly body: Json;
  readonly etag: string | undefined;
}

export type Headers = Readonly<Record<string, string>>;

export function mixerAt(address: string) {
  const call = async (
    method: string,
    path: string,
    body?: unknown,
    headers: Headers = {},
  ): Promise<Reply> => {
    const sent = await send(address, {
      method,
      path: `/v1${path}`,
      ...(body !== undefined && { body }),
      headers: { ...(body !== undefined && { 'content-type': 'application/json' }), ...headers },
    });
    const json: Json = JSON.parse(sent.text);
    if (sent.status >= 400) {
      expect(sent.status, sent.text).toBeLessThan(500);
      PROBLEM.parse(json);
    } else if (/^\/batches(\/[^/]+(\/(?!sheet|label|correction-proposals).*)?)?$/.test(path) && json.steps) {
      BATCH.parse(json);
    }
    return { status: sent.status, body: json, etag: sent.headers.etag };
  };
  const post = (path: string, body: unknown, headers?: Headers) => call('POST', path, body, headers);
  const get = async (path: string) => (await call('GET', path)).body;
  /** Posts what must go well. */
  const done = async (path: string, body: unknown): Promise<Json> => {
    const { status, body: answer } = await post(path, body);
    expect(status, JSON.stringify(answer)).toBeLessThan(300);
    return answer;
  };
  const plan = (product: string, lb: number, more: object = {}): Promise<Json> =>
    done('/batches', { product, batchSize: { total: { value: lb, unit: 'lb' } }, ...more });
  /** Weighs what is left of a batch as it is planned, in loads if only some. */
  const weighAll = async (batch: Json, loads?: readonly number[]): Promise<Json> => {
    let now = batch;
    for (const { line, load, weight } of leftOf(batch)) {
      if (loads && !loads.includes(load)) continue;
      now = await done(`/batches/${batch.id}/weighings`, { line, load, weight });
    }
    return now;
  };
  const weighed = async (product: string, lb: number, more: object = {}): Promise<Json> => {
    const batch = await weighAll(await plan(product, lb, more));
    return done(`/batches/${batch.id}/weighed`, {});
  };
  return { call, post, get, done, plan, weighAll, weighed };
}

export type Mixer = ReturnType<typeof mixerAt>;

/** What is still to be weighed, as scales show it. */
export function leftOf({ lines }: Json): { line: number; load: number; weight: Json }[] {
  return lines.flatMap(({ number, perLoad, loads }: Json) =>
    loads
      .filter(({ rest }: Json) => rest.kg > 0)
      .map(({ load, rest, planned }: Json) => ({
        line: number,
        load,
        weight: times(perLoad, rest.kg / planned.kg),
      })),
  );
}

export const lineOf = (batch: Json, materialId: string): Json =>
  batch.lines.find((line: Json) => line.materialId === materialId);

export const limitOf = (batch: Json, limitId: string): Json =>
  batch.limits.find((limit: Json) => limit.limitId === limitId);

/** A weight so many times another, as a scale of that unit shows it. */
export function times({ value, unit }: Json, by: number): Json {
  const decimals = String(value).split('.')[1]?.length ?? 0;
  return { value: (Number(value) * by).toFixed(decimals), unit };
}

export const lb = (value: string) => ({ value, unit: 'lb' });

/** 9 CFR 424.21(c): nitrite at most 156 ppm of the green weight in comminuted product. */
export const NITRITE = 'us-424.21c-nitrite-comminuted';
