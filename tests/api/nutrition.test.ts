import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { labelAnswerSchema } from '../../src/api/contract/label.ts';
import type { Service } from '../../src/api/service.ts';
import { lineOf, type Mixer, mixerAt } from './batches/mixer.ts';
import { demoProduct, type Json, lb, startDemo, strictly } from './running.ts';

/** Nutrition on the label, as it is planned and as it was weighed. */

let service: Service;
let mixer: Mixer;
beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const post = (body: unknown, accept = 'application/json') =>
  fetch(`${service.address}/v1/labels`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', accept },
    body: JSON.stringify(body),
  });

describe('the label that the service declares', () => {
  test('has the panel with where each figure comes from, by its contract and as text', async () => {
    const request = { product: 'ground-beef-80-20', batchSize: { total: lb(500) } };
    const label: Json = strictly(labelAnswerSchema).parse(await (await post(request)).json());
    expect(label.nutrition.panel.rows.map(({ label: name }: Json) => name).slice(0, 3)).toEqual([
      'Total Fat',
      'Saturated Fat',
      'Trans Fat',
    ]);
    const { amount, from } = label.nutrition.per100g.fat;
    const total = from.reduce((sum: number, part: Json) => sum + part.amount, 0);
    expect(Math.abs(total - amount)).toBeLessThan(1e-9);
    expect(from.every(({ source }: Json) => source !== '')).toBe(true);
    const text = await (await post(request, 'text/plain')).text();
    expect(text).toMatch(/Nutrition Facts {2}\[9 CFR 317\.309/);
    expect(text).toMatch(/Protein +\d+g\n/);
  });

  test('has none where the plant claims an exemption, and says whose claim it is', async () => {
    const product = demoProduct('ground-beef-80-20');
    product.label.nutritionExemption = 'small business, 40,000 lb a year';
    const response = await post({ product, batchSize: { total: lb(500) } });
    const { nutrition }: Json = await response.json();
    expect(nutrition.panel).toBeUndefined();
    expect(nutrition.cautions.join()).toMatch(/claims an exemption: "small business, 40,000 lb a year"/);
  });
});

describe('the label of a batch', () => {
  test('is wrong where what was weighed lies beyond the tolerance of its panel', async () => {
    const planned = await mixer.plan('bratwurst', 60);
    const salt = lineOf(planned, 'salt');
    for (const { number, perLoad, loads } of planned.lines) {
      for (const { load } of loads) {
        const weight =
          number === salt.number ? { ...perLoad, value: (Number(perLoad.value) * 1.5).toFixed(3) } : perLoad;
        await mixer.done(`/batches/${planned.id}/weighings`, {
          line: number,
          load,
          weight,
          ...(number === salt.number && { reason: 'poured too fast' }),
        });
      }
    }
    const batch = await mixer.done(`/batches/${planned.id}/weighed`, {
      reasons: [{ limitId: 'house-own-salt', reason: 'poured too fast' }],
    });
    // Half more salt is more than a fifth more sodium, and no less of anything else.
    expect(batch.cautions.join()).toMatch(
      /THE LABEL IS NOT AS PLANNED.*nutrition: Sodium \d+mg is printed, the batch has \d+\.\d+ mg in a serving of 113 g/,
    );
    expect(batch.cautions.join()).not.toMatch(/Protein \d+g is printed/);
  });
});
