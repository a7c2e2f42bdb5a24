import { expect, test } from 'vitest';
import { snapshot } from '../../src/store/snapshot.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { send } from '../api/running.ts';
import { onEachDatabase } from '../store/databases.ts';
import { FROM_SOURCE, startProcess } from './crash/service-process.ts';

onEachDatabase((newStoreUrl) => {
  test('two services that start at once on one new store make its tables and found the plant once, and both serve it', async () => {
    const storeUrl = await newStoreUrl();
    const services = await Promise.all([
      startProcess(storeUrl, FROM_SOURCE),
      startProcess(storeUrl, FROM_SOURCE),
    ]);
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, n) =>
        send(services[n % 2]?.address ?? '', {
          path: '/v1/lots/B50-1118/movements',
          body: { kind: 'discarded', mass: { value: 1, unit: 'lb' }, reason: `dropped, the ${n}th` },
        }),
      ),
    );
    expect(answers.map(({ status, text }) => (status === 201 ? status : text))).toEqual(Array(20).fill(201));
    const seen = await Promise.all(
      services.map(({ address }) => send(address, { method: 'GET', path: '/v1/lots/B50-1118' })),
    );
    expect(seen[0]?.text).toBe(seen[1]?.text);
    for (const service of services) expect(await service.stop()).toBe(0);
    const { entries, findings } = await snapshot(storeUrl, (db) => verifyStore(db));
    expect([entries, findings]).toEqual([21, []]);
  });
});
