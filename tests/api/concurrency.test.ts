import { expect, test } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { verifyStore } from '../../src/store/verify.ts';
import { onEachDatabase } from '../store/databases.ts';
import { login, startWithPeople } from './access/people.ts';
import { leftOf, mixerAt } from './batches/mixer.ts';
import { demoProduct, type Json, startDemo } from './running.ts';
import { entriesOf } from './stock/client.ts';

/** Many people at once over real HTTP: nothing is given twice, and whoever comes second is told why. */

const times = <Result>(count: number, work: (index: number) => Promise<Result>) =>
  Promise.all(Array.from({ length: count }, (_, index) => work(index)));

const statuses = (answers: readonly { readonly status: number }[]) =>
  answers.map(({ status }) => status).sort((a, b) => a - b);

const beef = (pounds: number) => ({
  product: 'ground-beef-80-20',
  batchSize: { total: { value: pounds, unit: 'lb' } },
});

async function expectWhole({ books }: Service): Promise<void> {
  const { findings } = await books.store.read((db) => verifyStore(db));
  expect(findings).toEqual([]);
}

onEachDatabase((newStoreUrl, kind) => {
  // Each of many plans several times over: on one database all fifty, on the other fewer, to save time.
  const planners = kind === 'SQLite' ? 50 : 16;

  test('many plan out of stock for a few: what is promised is there, and each of the others is told why', async () => {
    const service = await startDemo({ storeUrl: await newStoreUrl() });
    const { post, get } = mixerAt(service.address);
    const answers = await times(planners, () => post('/batches', beef(800)));
    const planned = answers.filter(({ status }) => status === 201).map(({ body }) => body);
    expect(planned.length).toBeGreaterThan(1);
    expect(new Set(planned.map(({ id }) => id)).size).toBe(planned.length);
    const others = answers.filter(({ status }) => status !== 201);
    expect(others.length).toBeGreaterThan(0);
    for (const { status, body } of others) {
      expect([status, body.type]).toEqual(
        status === 409 ? [409, '/problems/not-as-things-stand'] : [422, '/problems/no-blend'],
      );
      expect(body.detail).toMatch(/makes at most [\d.]+ lb|Plan it again/);
    }
    const promisedKg = new Map<string, number>();
    for (const { lines } of planned) {
      for (const { lotId, loads } of lines) {
        const kg = loads.reduce((total: number, load: Json) => total + load.planned.kg, 0);
        promisedKg.set(lotId, (promisedKg.get(lotId) ?? 0) + kg);
      }
    }
    for (const [id, kg] of promisedKg) {
      const { onHand, reserved } = await get(`/lots/${id}`);
      expect(reserved.kg).toBeCloseTo(kg, 6);
      expect(reserved.kg).toBeLessThanOrEqual(onHand.kg);
    }
    await expectWhole(service);
    await service.stop();
  });

  test('one batch, many hands: each line is weighed once, it is finished once and packed no more than there is', async () => {
    const service = await startDemo({ storeUrl: await newStoreUrl() });
    const { post, get, plan } = mixerAt(service.address);
    const batch = await plan('ground-beef-80-20', 100);
    for (const weighing of leftOf(batch)) {
      const answers = await times(2, () => post(`/batches/${batch.id}/weighings`, weighing));
      const [done, late] = answers.sort((a, b) => a.status - b.status);
      expect(done?.status).toBeLessThan(300);
      expect(late?.status, JSON.stringify(late?.body)).toBeGreaterThanOrEqual(400);
      expect(late?.body.detail).toMatch(/\w{3,}/);
    }
    expect(leftOf(await get(`/batches/${batch.id}`))).toEqual([]);
    expect(statuses(await times(2, () => post(`/batches/${batch.id}/weighed`, {})))).toEqual([200, 409]);
    const output = { output: { weight: { value: '99.8', unit: 'lb' } } };
    const finished = await times(2, () => post(`/batches/${batch.id}/finish`, output));
    expect(statuses(finished)).toEqual([200, 409]);
    expect(finished.find(({ status }) => status === 409)?.body.detail).toContain('finished');
    const packs = { packs: [{ count: 60, net: { value: '1', unit: 'lb' } }] };
    const packed = await times(2, () => post(`/batches/${batch.id}/packs`, packs));
    const [first, second] = packed.sort((a, b) => a.status - b.status);
    expect(first?.status).toBeLessThan(300);
    expect(second?.status).toBeGreaterThanOrEqual(400);
    expect(second?.body.detail).toMatch(/lb/);
    await expectWhole(service);
    await service.stop();
  });

  test('a version is changed once: the others are told who changed what', async () => {
    const service = await startWithPeople({ storeUrl: await newStoreUrl() });
    const hands = [await login(service, 'Ana'), await login(service, 'Vera')] as const;
    const etag = String((await hands[0]('GET', '/v1/products/bratwurst')).headers.etag);
    const answers = await times(8, (n) => {
      const body = { ...demoProduct('bratwurst'), name: `Bratwurst ${n}` };
      return hands[n % 2 === 0 ? 0 : 1]('PUT', '/v1/products/bratwurst', body, { 'if-match': etag });
    });
    expect(statuses(answers), answers[0]?.text).toEqual([200, 412, 412, 412, 412, 412, 412, 412]);
    const winner = answers.findIndex(({ status }) => status === 200);
    const now = (await hands[0]('GET', '/v1/products/bratwurst')).json;
    expect(JSON.stringify(now)).toContain(`Bratwurst ${winner}`);
    for (const { status, json } of answers) {
      if (status === 412) expect(json.detail).toContain(winner % 2 === 0 ? 'Ana' : 'Vera');
    }
    await expectWhole(service);
    await service.stop();
  });

  test('the same key twenty times at once is done once; all get the answer, after a restart too; others have keys of their own', async () => {
    const settings = { storeUrl: await newStoreUrl() };
    const service = await startWithPeople(settings);
    const ana = await login(service, 'Ana');
    const key = { 'idempotency-key': 'one-and-the-same' };
    const receipt = {
      materialId: 'beef-trim-73',
      mass: { value: 720, unit: 'lb' },
      cost: { amount: 2, per: 'lb' },
      packedDate: '2026-11-23',
      useByDate: '2026-12-05',
      supplierEstablishment: '00001',
      supplierLot: 'A-9',
    };
    const before = await entriesOf(service);
    const answers = await times(20, () => ana('POST', '/v1/lots', receipt, key));
    const [first] = answers;
    expect(first?.status, first?.text).toBe(201);
    for (const answer of answers) {
      expect([answer.status, answer.json, answer.headers.etag]).toEqual([
        201,
        first?.json,
        first?.headers.etag,
      ]);
    }
    expect(await entriesOf(service)).toBe(before + 1);
    expect((await ana('POST', '/v1/lots', { ...receipt, supplierLot: 'B' }, key)).status).toBe(409);
    const vera = await login(service, 'Vera');
    const hers = await vera('POST', '/v1/lots', { ...receipt, supplierLot: 'C' }, key);
    expect(hers.status).toBe(201);
    expect(hers.json.id).not.toBe(first?.json.id);
    await service.stop();

    const again = await startDemo({ ...settings, passwordCost: 16 });
    const later = await (await login(again, 'Ana'))('POST', '/v1/lots', receipt, key);
    expect([later.status, later.json]).toEqual([201, first?.json]);
    expect(await entriesOf(again)).toBe(before + 2);
    await expectWhole(again);
    await again.stop();
  });
});
