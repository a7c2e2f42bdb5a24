import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { stockEndpoints } from '../../../src/api/stock/endpoints.ts';
import { startDemo } from '../running.ts';
import { type Ask, clientOf, good, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

test('every example of the contract does what it is an example of', async () => {
  const { body } = await good(
    ask('POST /lots/B73-1123/movements', { body: { kind: 'sold', mass: { value: 1, unit: 'lb' } } }),
  );
  const places: Readonly<Record<string, string>> = {
    ':id': 'B73-1120',
    ':seq': String(body.movement.seq),
    ':materialId': 'sage',
  };
  const shown = stockEndpoints(service.books).filter(({ example }) => example !== undefined);
  expect(shown.length).toBeGreaterThan(10);
  for (const { method, path, example } of shown) {
    // A seq is a movement's or a test's: the first test of the demonstration is there.
    const place = path.replace('/tests/:seq', '/tests/1').replace(/:\w+/, (name) => places[name] ?? name);
    await good(ask(`${method} ${place}`, { body: example, ifMatch: '*' }));
  }
});
