import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { send, startDemo } from './running.ts';

let demo: Service;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

it('answers in full though the version is the one that was read: tests change what is known of a lot without it', async () => {
  const path = '/v1/lots/B65-1120';
  const read = (headers = {}) => send(demo.address, { method: 'GET', path, headers });
  const before = await read();
  await send(demo.address, { path: `${path}/tests`, body: { fatFraction: 0.31, method: 'NIR' } });
  const after = await read({ 'if-none-match': String(before.headers.etag) });
  expect(after.status).toBe(200);
  expect(after.text).not.toBe(before.text);
});
