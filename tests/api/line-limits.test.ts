import { afterAll, beforeAll, expect, it } from 'vitest';
import { lineLimitsAnswerSchema } from '../../src/api/contract/line-limits.ts';
import { ruleSetsAnswer } from '../../src/api/contract/resources.ts';
import type { Service } from '../../src/api/service.ts';
import { demoProduct, type Json, send, startDemo, strictly } from './running.ts';

let service: Service;
beforeAll(async () => {
  service = await startDemo();
});
afterAll(() => service.stop());

async function lineLimits(product: Json, given: Json = {}) {
  const { status, text } = await send(service.address, {
    path: '/v1/line-limits',
    body: { product, ...given },
  });
  return { status, body: JSON.parse(text) };
}

it('says of each seasoning line what the law and the house leave of it', async () => {
  const { status, body } = await lineLimits(demoProduct('smoked-sausage'));
  expect(status).toBe(200);
  const { lines } = strictly(lineLimitsAnswerSchema).parse(body) as Json;
  const ofLine = (materialId: string) =>
    lines
      .find((line: Json) => line.materialId === materialId)
      .limits.map((each: Json) => [each.limit.id, each.holds]);
  // The house of the demo plant has a tighter limit of phosphate and one of its own of salt.
  expect(ofLine('sodium-tripolyphosphate').slice(0, 2)).toEqual([
    ['house-us-424.21c-phosphate', true],
    ['us-424.21c-phosphate', true],
  ]);
  expect(ofLine('salt')).toEqual([['house-own-salt', true]]);
  expect(ofLine('black-pepper')).toEqual([]);
  const product = demoProduct('smoked-sausage');
  product.standard.productClass = 'uncooked-sausage';
  product.process = { ...product.process, cooking: 'raw', yieldFraction: 1, fatLossFraction: 0 };
  const fresh = await lineLimits(product);
  const cure = fresh.body.lines.find((line: Json) => line.materialId === 'curing-salt-6.25');
  expect(cure.limits[0]).toMatchObject({ atMostFraction: 0, holds: false });
});

it('names what is wrong with a product by its place', async () => {
  const product = demoProduct('smoked-sausage');
  product.seasoning[0].materialId = 'no-such-thing';
  product.standard.productClass = 'no-such-class';
  const { status, body } = await lineLimits(product);
  expect(status).toBe(422);
  expect(body.errors.map(({ pointer }: Json) => pointer)).toEqual([
    '/product/seasoning/0/materialId',
    '/product/standard/productClass',
  ]);
  expect((await lineLimits(demoProduct('bratwurst'), { date: '1950-01-01' })).status).toBe(404);
});

it('lists the markets with their classes, and what limits of the house may be made of', async () => {
  const { text } = await send(service.address, { method: 'GET', path: '/v1/rule-sets' });
  const { items, forms } = strictly(ruleSetsAnswer).parse(JSON.parse(text)) as Json;
  expect(items.map(({ jurisdiction }: Json) => jurisdiction)).toEqual([
    'us',
    'eu',
    'gb',
    'ca',
    'codex',
    'anz',
  ]);
  expect(items[0].classes).toContainEqual({
    productClass: 'hamburger',
    says: 'Hamburger',
    citation: '9 CFR 319.15(b)',
    cooking: ['raw'],
  });
  expect(forms).toContainEqual(
    expect.objectContaining({ name: 'salt', says: 'salt added', canBeBasis: true }),
  );
});
