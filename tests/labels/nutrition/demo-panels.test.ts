import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isMeat } from '../../../src/batch/material.ts';
import { formulate } from '../../../src/formulate/formulate.ts';
import { declare } from '../../../src/labels/declaration.ts';
import { DEMO, demoMaterial, demoRequest, pounds } from '../../helpers/demo-requests.ts';
import { nutritionOfParts } from './batches.ts';

/** Which products of the demo plant and which materials lead to a panel, and which do not and why. */

const requests = readdirSync('demo-data/requests').map(
  (name) => [name, JSON.parse(readFileSync(`demo-data/requests/${name}`, 'utf8'))] as const,
);

async function nutritionOfRequest(body: unknown) {
  const request = demoRequest(body);
  const formulation = await formulate(request);
  if (formulation.outcome !== 'blend') throw new Error(`no blend: ${formulation.outcome}`);
  return declare(request.product, request.standard, formulation.blend, DEMO.plant).nutrition;
}

describe('the demo plant', () => {
  it.each([...DEMO.products.keys()])('has a panel for %s', async (product) => {
    // The one product that is asked for by its finished weight, and big enough a batch for all.
    const nutrition = await nutritionOfRequest({ product, batchSize: { total: pounds(300) } });
    expect(nutrition?.cautions.filter((text) => text.startsWith('No nutrition'))).toEqual([]);
    expect(nutrition?.panel?.rows.length).toBeGreaterThan(10);
  });

  it.each(requests)('has a panel for the request %s', async (_name, body) => {
    const nutrition = await nutritionOfRequest(body);
    expect(nutrition?.cautions.filter((text) => text.startsWith('No nutrition'))).toEqual([]);
    expect(nutrition?.panel).toBeDefined();
  });
});

describe('meat of the tables', () => {
  // 9 CFR 317.309(h)(4) and (6): no less than 80 percent of a labeled vitamin, and over it what good practice brings.
  it('that lacks vitamin D alone may be half of a product with a panel, which says so', () => {
    const part = (id: string, massKg: string) => [demoMaterial(id), massKg] as const;
    const withJowl = (massKg: string) =>
      nutritionOfParts([part('pork-trim-80', '50'), part('pork-jowl', massKg)]);
    const { panel, cautions } = withJowl('50');
    expect(panel?.rows.find(({ label }) => label === 'Trans Fat')?.amount).toBe('0g');
    expect(cautions.join()).toMatch(
      /Not counted.*vitamin D of Pork jowl, skinless \(50\.00 % of the batch\)/,
    );
    expect(withJowl('50.001').panel).toBeUndefined();
  });

  it('lacks trans fat where no line of its species tells it, and nowhere else', () => {
    const without = [...DEMO.materials.values()].filter(
      (material) =>
        isMeat(material) &&
        (nutritionOfParts([[material, '1']]).per100g['trans fat']?.notKnown.length ?? 0) > 0,
    );
    expect([...new Set(without.map(({ species }) => species))].sort()).toEqual(['goat', 'lamb']);
  });
});
