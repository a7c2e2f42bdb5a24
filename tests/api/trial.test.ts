import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { type Json, lb, send, startDemo } from './running.ts';

let demo: Service;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

const REQUEST = { product: 'hamburger-patties', batchSize: { total: lb(400) } };

async function blend(trial?: object): Promise<{ status: number; body: Json }> {
  const { status, text } = await send(demo.address, { body: { ...REQUEST, ...(trial && { trial }) } });
  return { status, body: JSON.parse(text) };
}

const fatOf = ({ checks }: Json) => checks.find(({ limit }: Json) => limit.id === 'house-fat-max');

describe('figures to try in one blend', () => {
  it('take the place of a target of the house, and say so', async () => {
    const { body: asItIs } = await blend();
    const { body: leaner } = await blend({ bounds: [{ limitId: 'house-fat-max', bound: 23 }] });
    expect(fatOf(leaner).limit.bound).toBe(23);
    expect(fatOf(leaner).value).toBeLessThanOrEqual(23);
    expect(fatOf(leaner).limit.says).toContain('Tried here: 23.');
    expect(leaner.cost).toBeGreaterThan(asItIs.cost);
  });

  it('never move the law', async () => {
    const { status, body } = await blend({ bounds: [{ limitId: 'us-319.15b-fat', bound: 40 }] });
    expect(status).toBe(422);
    expect(body.errors[0]).toEqual({
      pointer: '/trial/bounds/0/limitId',
      message: expect.stringMatching(/^"us-319.15b-fat" is no limit of the house .*house-fat-max/),
    });
  });

  it('put another price on a lot', async () => {
    const { body: asItIs } = await blend();
    const unused = asItIs.worth.notUsed.find(({ supplyId }: Json) => supplyId === 'B73-1120');
    const perLb = (perKg: number) => perKg * 0.45359237;
    const at = (perKg: number) =>
      blend({ prices: [{ lotId: 'B73-1120', cost: { amount: perLb(perKg), per: 'lb' } }] });
    const used = ({ lines }: Json) => lines.some(({ lotId }: Json) => lotId === 'B73-1120');
    expect(used((await at(unused.wouldEnterBelowPerKg * 1.002)).body)).toBe(false);
    expect(used((await at(unused.wouldEnterBelowPerKg * 0.998)).body)).toBe(true);
  });

  it('are refused where the lot is not on hand', async () => {
    const { status, body } = await blend({ prices: [{ lotId: 'NONE', cost: { amount: 1, per: 'lb' } }] });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/trial/prices/0/lotId');
  });

  it('go into no plan', async () => {
    const body = { ...REQUEST, trial: { bounds: [], prices: [] } };
    const { status } = await send(demo.address, { path: '/v1/batches', body });
    expect(status).toBe(400);
  });
});
