import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, send, startDemo } from '../running.ts';
import { lb, lineOf, type Mixer, mixerAt } from './mixer.ts';

/** The label follows what was weighed; product that breaks after the batch was finished goes back as rework. */

let service: Service;
let mixer: Mixer;
beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

describe('the label', () => {
  test('stays as planned where the weights are', async () => {
    const batch = await mixer.weighed('bratwurst', 60);
    expect(batch.cautions).toEqual([]);
    expect((await mixer.get(`/batches/${batch.id}/label`)).allergens.allergens).toEqual(['milk']);
  });

  test('leaves out what was not weighed in, and says so until it is printed anew', async () => {
    const planned = await mixer.plan('bratwurst', 60);
    const milk = lineOf(planned, 'nonfat-dry-milk');
    for (const { number, perLoad, loads } of planned.lines) {
      if (number === milk.number) continue;
      for (const { load } of loads)
        await mixer.done(`/batches/${planned.id}/weighings`, { line: number, load, weight: perLoad });
    }
    const batch = await mixer.done(`/batches/${planned.id}/weighed`, {
      reasons: [
        { line: milk.number, reason: 'the bag was wet' },
        ...['us-319.140-water', 'house-fat-max', 'house-line-water-max'].map((limitId) => ({
          limitId,
          reason: 'no milk in it',
        })),
      ],
    });
    expect(batch.cautions.join()).toMatch(
      /THE LABEL IS NOT AS PLANNED.*allergens: "no allergens" in place of "Contains: Milk\."/,
    );
    const label = await mixer.get(`/batches/${planned.id}/label`);
    expect(label.allergens.allergens).toEqual([]);
    expect(label.ingredients.text).not.toContain('milk');
    await mixer.done(`/batches/${planned.id}/finish`, { output: { weight: lb('57.5') } });
    await mixer.done(`/lots/${planned.id}/release`, { reason: 'sold to the zoo' });
    const closed = await mixer.done(`/batches/${planned.id}/closing`, {});
    const record = await mixer.get(`/records/${closed.record}`);
    const kept = await service.books.store.read((db) =>
      db
        .selectFrom('documents')
        .select('body')
        .where('hash', '=', record.body.documents.label)
        .executeTakeFirstOrThrow(),
    );
    expect(JSON.parse(kept.body)).toEqual(label);
  });

  test('that promises a lean which the mix does not hold puts the product on hold', async () => {
    const batch = await mixer.weighed('ground-beef-80-20', 100);
    await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.224, method: 'NIR' });
    const { body: asked } = await mixer.post(`/batches/${batch.id}/finish`, {
      output: { weight: lb('100') },
    });
    expect(asked.detail).toContain('fat, as the label promises');
    const finished = await mixer.done(`/batches/${batch.id}/finish`, {
      output: { weight: lb('100') },
      reasons: ['house-fat-max', 'house-label-lean-max'].map((limitId) => ({
        limitId,
        reason: 'sold as 75/25',
      })),
    });
    expect(finished.finished.hold).toContain('its label would not be true');
    expect(finished.cautions.join()).toContain('The label would not be true');
    expect((await mixer.get(`/lots/${batch.id}`)).held).toContain('its label would not be true');
  });
});

describe('product set aside after the batch was finished', () => {
  let batch: Json;
  beforeAll(async () => {
    batch = await mixer.weighed('smoked-sausage', 100);
    const out = (batch.weighed.lb * 0.9).toFixed(1);
    await mixer.done(`/batches/${batch.id}/finish`, {
      output: { weight: lb(out), useByDate: '2026-12-20' },
      rework: [],
      temperatures: [{ what: 'highest internal, cooking', value: 160, unit: 'F' }],
    });
  });

  test('leaves the bulk and is a lot of rework that carries what went in', async () => {
    const before = await mixer.get(`/lots/${batch.id}`);
    const body = { weight: lb('6.5'), reason: 'broken links at packing' };
    const after = await mixer.done(`/batches/${batch.id}/rework`, body);
    expect(after.finished.rework).toMatchObject([{ lotId: `${batch.id}-R1`, weight: { value: '6.5' } }]);
    expect(after.next).toContain('set aside');
    const bulk = await mixer.get(`/lots/${batch.id}`);
    expect(bulk.onHand.lb).toBeCloseTo(before.onHand.lb - 6.5, 9);
    const rework = await mixer.get(`/lots/${batch.id}-R1`);
    expect(rework).toMatchObject({ kind: 'material', onHand: { lb: 6.5 }, useByDate: '2026-12-20' });
    const again = await mixer.done(`/batches/${batch.id}/rework`, body);
    expect(again.finished.rework.map(({ lotId }: Json) => lotId)).toEqual([
      `${batch.id}-R1`,
      `${batch.id}-R2`,
    ]);
    const kinds = (await mixer.get(`/movements?lotId=${batch.id}-R2`)).items.map(({ kind }: Json) => kind);
    expect(kinds).toEqual(['set aside']);
  });

  test('is found by a trace both ways', async () => {
    const trace = async (query: string) =>
      (
        await send(service.address, {
          method: 'GET',
          path: `/v1/trace?${query}`,
          headers: { accept: 'text/plain' },
        })
      ).text;
    const lot = batch.lines.find(({ lotId }: Json) => lotId).lotId;
    expect(await trace(`lotId=${lot}&direction=forward`)).toContain(`${batch.id}-R2`);
    expect(await trace(`lotId=${batch.id}-R2&direction=back`)).toContain(lot);
  });

  test('of more than there is, or before there is any, is refused', async () => {
    const more = await mixer.post(`/batches/${batch.id}/rework`, { weight: lb('500'), reason: 'all of it' });
    expect([more.status, more.body.detail]).toEqual([409, expect.stringContaining(`Lot ${batch.id} has`)]);
    const planned = await mixer.plan('smoked-sausage', 50);
    const early = await mixer.post(`/batches/${planned.id}/rework`, { weight: lb('1'), reason: 'too early' });
    expect(early.status).toBe(409);
  });
});

test('a rest of meat that nobody fetches stays out of blends, unless it is named', async () => {
  await mixer.done('/lots', {
    id: 'CRUMB',
    materialId: 'beef-trim-85',
    mass: { value: 0.3, unit: 'lb' },
    cost: { amount: 0.01, per: 'lb' },
    receivedDate: '2026-11-25',
  });
  const request = { product: 'ground-beef-80-20', batchSize: { total: { value: 100, unit: 'lb' } } };
  const lots = async (more: object) =>
    (await mixer.done('/blends', { ...request, ...more })).lines.map(({ lotId }: Json) => lotId);
  expect(await lots({})).not.toContain('CRUMB');
  expect(await lots({ excludeLots: ['CRUMB'] })).not.toContain('CRUMB');
  expect(await lots({ use: [{ lotId: 'CRUMB', min: { value: 0.3, unit: 'lb' } }] })).toContain('CRUMB');
});
