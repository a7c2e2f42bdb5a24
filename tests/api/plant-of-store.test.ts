import { join } from 'node:path';
import { expect, test } from 'vitest';
import { plantOfStore } from '../../src/api/plant-of-store.ts';
import { loadMaterials } from '../../src/tables/materials.ts';
import { onEachDatabase } from '../store/databases.ts';
import { demoProduct, lb, ROOT, startDemo } from './running.ts';
import { clientOf, good, verifiedStop } from './stock/client.ts';

/** What is followed from write to write is what is read afresh, whatever was written, taken back or withdrawn. */

const tables = loadMaterials(join(ROOT, 'ingredient-tables'));

onEachDatabase((newStoreUrl) => {
  test('the plant that is followed is the plant that is there', async () => {
    const service = await startDemo({ storeUrl: await newStoreUrl() });
    const { store, plant } = service.books;
    const ask = clientOf(service);
    const steps: [string, object?][] = [
      ['PUT /prices/salt', { cost: { amount: 1, per: 'lb' } }],
      ['POST /products', { ...demoProduct('bratwurst'), id: 'a-first-one', name: 'First' }],
      ['PUT /products/a-first-one', { ...demoProduct('bratwurst'), id: 'a-first-one', name: 'Changed' }],
      ['POST /lots/B50-1118/tests', { fatFraction: 0.5, method: 'NIR' }],
      ['POST /lots/B50-1118/hold', { reason: 'to be sampled' }],
      ['POST /lots/B65-1120/movements', { kind: 'discarded', mass: lb(5), reason: 'dropped it' }],
      ['DELETE /products/a-first-one'],
      ['DELETE /prices/salt'],
    ];
    for (const [line, body] of steps) {
      await good(ask(line, { ...(body && { body }), ifMatch: '*' }));
      expect(await plant(), line).toEqual(await plantOfStore(store, tables)());
    }
    const { body } = await good(ask('GET /tests?lotId=B50-1118'));
    const [{ seq }] = body.items;
    await good(ask(`POST /tests/${seq}/withdrawal`, { body: { reason: 'the wrong lot' } }));
    const [followed, afresh] = [await plant(), await plantOfStore(store, tables)()];
    expect(followed).toEqual(afresh);
    for (const map of ['products', 'prices', 'materials'] as const) {
      expect([...followed[map].keys()], map).toEqual([...afresh[map].keys()]);
    }
    await verifiedStop(service);
  });
});
