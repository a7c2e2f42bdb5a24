import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { batchSheetAnswerSchema, blendAnswerSchema } from '../../src/api/contract/blend-answer.ts';
import { labelAnswerSchema } from '../../src/api/contract/label.ts';
import { lotsAnswer } from '../../src/api/contract/lots.ts';
import {
  healthAnswer,
  materialsAnswer,
  plantAnswer,
  productsAnswer,
  rulesAnswer,
} from '../../src/api/contract/resources.ts';
import type { Service } from '../../src/api/service.ts';
import { demoProduct, type Json, lb, startDemo, strictly } from './running.ts';

let service: Service;
beforeAll(async () => {
  service = await startDemo();
});
afterAll(() => service.stop());

function post(path: string, body: unknown, accept = 'application/json'): Promise<Response> {
  return fetch(`${service.address}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', accept },
    body: JSON.stringify(body),
  });
}

/** The answer, having been found to hold all that the contract says and nothing else. */
async function answer(response: Response, schema: z.ZodType): Promise<Json> {
  const body = await response.json();
  expect(response.status, JSON.stringify(body)).toBe(200);
  expect(response.headers.get('content-type')).toBe('application/json; charset=utf-8');
  const parsed = strictly(schema).safeParse(body);
  expect(parsed.error?.issues ?? []).toEqual([]);
  return body;
}

const blendOf = async (request: unknown): Promise<Json> => {
  const blend = await answer(await post('/v1/blends', request), blendAnswerSchema);
  expect(blend.outcome, JSON.stringify(blend.because)).toBe('blend');
  return blend;
};
const sheetOf = async (request: unknown) =>
  answer(await post('/v1/batch-sheets', request), batchSheetAnswerSchema);
const labelOf = async (request: unknown) => answer(await post('/v1/labels', request), labelAnswerSchema);
const get = async (path: string, schema: z.ZodType) =>
  answer(await fetch(`${service.address}${path}`), schema);

const sumOf = (lines: Json[], unit: 'kg' | 'lb') =>
  lines.reduce((sum: number, { mass }: Json) => sum + mass[unit], 0);

const REQUEST = { product: 'ground-beef-80-20', batchSize: { total: lb(500) } };
/** One division of the coarsest scale, in lb, for every load of the largest batch asked here. */
const SCALE_STEP = 0.1;

const OWN_MATERIAL = {
  id: 'own-pork',
  name: 'Own pork',
  declaredName: 'pork',
  kind: 'skeletal meat',
  species: 'pork',
  composition: { waterFraction: 0.49, fatFraction: 0.35, proteinFraction: 0.15 },
};
const OWN_LOT = {
  id: 'OWN-1',
  materialId: 'own-pork',
  onHand: lb(900),
  cost: { amount: 1.1, per: 'lb' },
  receivedDate: '2026-11-24',
  packedDate: '2026-11-23',
  useByDate: '2026-12-04',
  state: 'chilled',
  box: lb(60),
  supplierEstablishment: '00005',
  supplierLot: '77',
  location: 'Cooler 9',
};

describe('a blend', () => {
  const PRODUCTS = [
    'ground-beef-80-20',
    'ground-beef-90-10',
    'hamburger-patties',
    'fresh-pork-sausage',
    'breakfast-sausage-links',
    'italian-sausage',
    'bratwurst',
    'smoked-sausage',
  ];

  test.each(PRODUCTS)('of %s weighs in total what is asked, and every limit holds', async (product) => {
    const blend = await blendOf({ product, batchSize: { total: lb(500) } });
    expect(Math.abs(blend.batch.lb - 500)).toBeLessThan(SCALE_STEP * blend.loads + 0.05);
    expect(sumOf(blend.lines, 'lb')).toBeCloseTo(blend.batch.lb, 6);
    expect(blend.checks.filter(({ holds }: Json) => !holds)).toEqual([]);
    expect(blend.checks.length).toBeGreaterThan(5);
    expect(blend.cost).toBeCloseTo(
      blend.lines.reduce((sum: number, { cost }: Json) => sum + cost, 0),
      6,
    );
  });

  test.each(PRODUCTS)('of %s uses the weight of meat that is asked', async (product) => {
    const blend = await blendOf({ product, batchSize: { meat: lb(300) } });
    expect(Math.abs(blend.greenWeight.lb - 300)).toBeLessThanOrEqual(SCALE_STEP * blend.loads);
    expect(blend.batch.lb).toBeGreaterThanOrEqual(blend.greenWeight.lb);
  });

  test.each(PRODUCTS)('of %s gives the finished weight that is asked', async (product) => {
    const { process } = demoProduct(product);
    const blend = await blendOf({ product, batchSize: { finished: lb(300) } });
    expect(Math.abs(blend.finished.lb - 300)).toBeLessThanOrEqual(SCALE_STEP * blend.loads + 0.05);
    expect(blend.finished.lb).toBeCloseTo(blend.batch.lb * process.yieldFraction, 6);
  });

  test.each(PRODUCTS.filter((product) => product !== 'ground-beef-80-20'))(
    'of %s makes the pieces that are asked, within one division',
    async (product) => {
      const { form } = demoProduct(product);
      const pieceLb = form.pieceMass.unit === 'oz' ? form.pieceMass.value / 16 : form.pieceMass.value;
      const sheet = await sheetOf({ product, batchSize: { pieces: 600 } });
      expect(Math.abs(sheet.batch.total.lb - 600 * pieceLb)).toBeLessThan(
        SCALE_STEP * sheet.batch.loads + 0.05,
      );
      expect(Math.abs(sheet.batch.pieces - 600)).toBeLessThanOrEqual(
        Math.ceil((SCALE_STEP * sheet.batch.loads + 0.05) / pieceLb),
      );
    },
  );

  test.each(PRODUCTS)('of %s is the same for the product sent back as it was read', async (product) => {
    const batchSize = { total: lb(400) };
    const stored = await (await fetch(`${service.address}/v1/products/${product}`)).json();
    expect(await blendOf({ product: stored, batchSize })).toEqual(await blendOf({ product, batchSize }));
  });

  test('is the same for the demo day given and left out', async () => {
    const { today } = await get('/v1/plant', plantAnswer);
    expect(await blendOf({ ...REQUEST, date: today })).toEqual(await blendOf(REQUEST));
  });

  test('is the same for one weight in kg, g, lb and oz', async () => {
    const inLb = await blendOf(REQUEST);
    for (const total of [
      { value: 226.796185, unit: 'kg' },
      { value: 226796.185, unit: 'g' },
      { value: 8000, unit: 'oz' },
    ]) {
      expect(await blendOf({ ...REQUEST, batchSize: { total } })).toEqual(inLb);
    }
  });

  test('is drawn from lots and materials given with the request', async () => {
    const blend = await blendOf({
      product: 'fresh-pork-sausage',
      batchSize: { total: lb(200) },
      lots: [OWN_LOT],
      materials: [OWN_MATERIAL],
    });
    expect(blend.lines.flatMap(({ lotId }: Json) => lotId ?? [])).toEqual(['OWN-1']);
    expect(blend.lines[0]).toMatchObject({ materialId: 'own-pork', material: 'Own pork' });
  });

  test('follows the measured fat of a lot given with the request', async () => {
    const lean = { ...OWN_LOT, id: 'LEAN', materialId: 'beef-trim-90', cost: { amount: 4, per: 'lb' } };
    const fat = { ...OWN_LOT, id: 'FAT', materialId: 'beef-trim-50', cost: { amount: 1, per: 'lb' } };
    const measured = (fatFraction: number) => ({ ...fat, measuredFat: { fatFraction, method: 'NIR' } });
    const shareOf = (blend: Json) => blend.lines.find(({ lotId }: Json) => lotId === 'FAT').mass.lb;
    const leaner = await blendOf({ ...REQUEST, lots: [lean, measured(0.45)] });
    const fatter = await blendOf({ ...REQUEST, lots: [lean, measured(0.55)] });
    expect(shareOf(leaner)).toBeGreaterThan(shareOf(fatter));
    expect(leaner.raw.fatFraction).toBeCloseTo(0.2, 3);
    expect(fatter.raw.fatFraction).toBeCloseTo(0.2, 3);
  });

  test('costs what the prices of the request say', async () => {
    const request = { product: 'fresh-pork-sausage', batchSize: { total: lb(200) } };
    const priced = await blendOf({
      ...request,
      prices: [{ materialId: 'sage', cost: { amount: 107.2, per: 'lb' } }],
    });
    const plain = await blendOf(request);
    const sage = ({ lines }: Json) => lines.find(({ materialId }: Json) => materialId === 'sage');
    expect(sage(plain).cost).toBeCloseTo(7.2 * sage(plain).mass.lb, 6);
    expect(sage(priced).cost).toBeCloseTo(107.2 * sage(priced).mass.lb, 6);
  });

  test('takes a material that only the request prices', async () => {
    const product = demoProduct('fresh-pork-sausage');
    product.seasoning.push({ materialId: 'allspice', basis: 'green weight', fraction: 0.001 });
    const blend = await blendOf({
      product,
      batchSize: { total: lb(200) },
      prices: [{ materialId: 'allspice', cost: { amount: 5, per: 'lb' } }],
    });
    expect(blend.lines.map(({ materialId }: Json) => materialId)).toContain('allspice');
  });

  test('leaves out the lots that the request excludes', async () => {
    const plain = await blendOf(REQUEST);
    const excludeLots = plain.lines.map(({ lotId }: Json) => lotId).slice(0, 1);
    const without = await blendOf({ ...REQUEST, excludeLots });
    expect(without.lines.map(({ lotId }: Json) => lotId)).not.toContain(excludeLots[0]);
    expect(without.unroundedCost).toBeGreaterThanOrEqual(plain.unroundedCost - 1e-6);
  });

  test('uses at least and at most of a lot what the request says', async () => {
    const [first] = (await blendOf(REQUEST)).lines;
    const most = await blendOf({ ...REQUEST, use: [{ lotId: first.lotId, max: lb(50) }] });
    const capped = most.lines.find(({ lotId }: Json) => lotId === first.lotId);
    expect(capped?.mass.lb ?? 0).toBeLessThanOrEqual(50);

    const least = await blendOf({ ...REQUEST, use: [{ lotId: 'B95-1121', min: lb(80) }] });
    const forced = least.lines.find(({ lotId }: Json) => lotId === 'B95-1121');
    expect(forced.mass.lb).toBeGreaterThanOrEqual(80);

    const both = await blendOf({ ...REQUEST, use: [{ lotId: 'B95-1121', min: lb(80), max: lb(80) }] });
    expect(both.lines.find(({ lotId }: Json) => lotId === 'B95-1121').mass.lb).toBeCloseTo(80, 6);
  });

  test('never takes the lot past its use-by day and says why it is left out', async () => {
    const blend = await blendOf({ product: 'bratwurst', batchSize: { total: lb(300) } });
    expect(blend.lines.map(({ lotId }: Json) => lotId)).not.toContain('P72-1110');
    expect(blend.leftOut.find(({ supplyId }: Json) => supplyId === 'P72-1110').because).toContain(
      '2026-11-22',
    );
  });

  test('answers "no blend" with the target that cannot be kept', async () => {
    const product = {
      ...demoProduct('ground-beef-80-20'),
      targets: [
        { measure: 'fat', min: 0.18, max: 0.2 },
        { measure: 'protein', min: 0.5 },
      ],
    };
    const none = await answer(await post('/v1/blends', { ...REQUEST, product }), blendAnswerSchema);
    expect(none.outcome).toBe('no blend');
    expect(none.because.map(({ limitId }: Json) => limitId)).toEqual(['house-protein-min']);
    expect(none.because[0].message).toContain('50');
    expect(none.because[0].message).toContain('Change this target');
  });

  test('answers "no blend" with the size that can be made when the batch is too big', async () => {
    const none = await answer(
      await post('/v1/blends', { ...REQUEST, batchSize: { total: lb(9000) } }),
      blendAnswerSchema,
    );
    expect(none.outcome).toBe('no blend');
    expect(none.because[0].message).toMatch(/at most \d+\.\d\d lb/);
    const [, most] = /at most (\d+\.\d\d) lb/.exec(none.because[0].message) ?? [];
    expect((await blendOf({ ...REQUEST, batchSize: { total: lb(Math.floor(Number(most))) } })).outcome).toBe(
      'blend',
    );
  });
});

describe('a batch sheet', () => {
  test.each(['ground-beef-80-20', 'smoked-sausage', 'bratwurst'])(
    'of %s has the lines of the blend',
    async (product) => {
      const request = { product, batchSize: { total: lb(500) } };
      const blend = await blendOf(request);
      const sheet = await sheetOf(request);
      expect(
        sheet.weigh.map(({ material, lotId, weight, unit, scale }: Json) => ({
          material,
          lotId,
          weight: { text: weight, unit, scale },
        })),
      ).toEqual(blend.lines.map(({ material, lotId, weight }: Json) => ({ material, lotId, weight })));
      expect(sheet.pick.map(({ lotId, mass }: Json) => ({ lotId, mass }))).toEqual(
        blend.lines.flatMap(({ lotId, mass }: Json) => (lotId ? [{ lotId, mass }] : [])),
      );
      expect(sheet.proof.map(({ limitId, holds }: Json) => [limitId, holds])).toEqual(
        blend.checks.map(({ limit, holds }: Json) => [limit.id, holds]),
      );
      expect(sheet.batch.total).toEqual(blend.batch);
      expect(sheet.cost.batch).toBe(blend.cost);
    },
  );

  test('comes as text when text is asked for, with every lot to weigh', async () => {
    const blend = await blendOf(REQUEST);
    const response = await post('/v1/batch-sheets', REQUEST, 'text/plain');
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('text/plain; charset=utf-8');
    const text = await response.text();
    expect(text).toMatch(/^BATCH SHEET {2}Ground beef 80\/20\n/);
    expect(text.endsWith('\n')).toBe(true);
    for (const { lotId, weight } of blend.lines) {
      expect(text).toMatch(new RegExp(`${lotId} +${weight.text} +${weight.unit}`));
    }
  });

  test('shows kg when kg is asked for, with the same weights on the scales', async () => {
    const inLb = await sheetOf(REQUEST);
    const inKg = await sheetOf({ ...REQUEST, units: 'kg' });
    expect(inKg).toEqual({ ...inLb, units: 'kg' });
    const text = await (await post('/v1/batch-sheets', { ...REQUEST, units: 'kg' }, 'text/plain')).text();
    expect(text).toContain('Batch     226.80 kg (500.00 lb)');
  });
});

describe('a label', () => {
  test('says the name, the lean pair and the ingredients', async () => {
    const label = await labelOf(REQUEST);
    expect(label).toMatchObject({ name: 'Ground Beef', ingredients: { text: 'Beef.' } });
    expect(label.leanPair.text).toBe('80% lean / 20% fat');
  });

  test('names the milk in a sausage with dry milk, as JSON and as text', async () => {
    const request = { product: 'bratwurst', batchSize: { pieces: 400 } };
    expect((await labelOf(request)).allergens.allergens).toEqual(['milk']);
    const response = await post('/v1/labels', request, 'text/plain');
    expect(response.headers.get('content-type')).toBe('text/plain; charset=utf-8');
    expect(await response.text()).toContain('Contains: Milk.');
  });
});

describe('what the plant has', () => {
  test('is listed in pages that together hold every material once', async () => {
    const { total } = await get('/v1/materials?limit=1', materialsAnswer);
    const ids: string[] = [];
    for (let offset = 0; offset < total; offset += 100) {
      const page = await get(`/v1/materials?limit=100&offset=${offset}`, materialsAnswer);
      ids.push(...page.items.map(({ id }: Json) => id));
    }
    expect(ids).toHaveLength(total);
    expect(new Set(ids).size).toBe(total);
  });

  test('is found by kind, species and part of the name', async () => {
    const { items } = await get(
      '/v1/materials?kind=skeletal%20meat&species=pork&search=TRIM&limit=500',
      materialsAnswer,
    );
    expect(items.length).toBeGreaterThan(3);
    for (const item of items) {
      expect(item).toMatchObject({ kind: 'skeletal meat', species: 'pork' });
      expect(`${item.name} ${item.id}`.toLowerCase()).toContain('trim');
    }
  });

  test('is found by the id of the material as by its name, in any case', async () => {
    const { items } = await get('/v1/materials?search=BEEF-TRIM-73', materialsAnswer);
    expect(items.map(({ id }: Json) => id)).toEqual(['beef-trim-73']);
  });

  test('shows lots, and only those usable on a day when a day is given', async () => {
    const all = await get('/v1/lots?limit=500', lotsAnswer);
    const usable = await get('/v1/lots?limit=500&usableOn=2026-11-25', lotsAnswer);
    const ids = ({ items }: Json) => items.map(({ id }: Json) => id);
    expect(ids(all)).toContain('P72-1110');
    expect(ids(usable)).toEqual(ids(all).filter((id: string) => id !== 'P72-1110'));
    const ofOne = await get('/v1/lots?materialId=beef-trim-73', lotsAnswer);
    expect(ids(ofOne)).toEqual(['B73-1120', 'B73-1123']);
    expect(ofOne.items[0].onHand).toEqual({ kg: 326.5865064, lb: 720 });
  });

  test('shows the products, each of them also by its id', async () => {
    const { items, total } = await get('/v1/products', productsAnswer);
    expect(total).toBe(8);
    for (const item of items)
      expect(await get(`/v1/products/${item.id}`, productsAnswer.shape.items.element)).toEqual(item);
  });

  test('shows the limits of one class or of all, in force on a day', async () => {
    const all = await get('/v1/rules', rulesAnswer);
    const one = await get('/v1/rules?productClass=italian-sausage&date=2026-11-25', rulesAnswer);
    expect(one.standards).toEqual(
      all.standards.filter(({ productClass }: Json) => productClass === 'italian-sausage'),
    );
    expect(one.standards[0].limits.map(({ id }: Json) => id)).toContain('us-319.145a-fennel-or-anise');
    for (const { limits } of all.standards) {
      for (const { citation } of limits) expect(citation).not.toBe('');
    }
  });

  test('shows the plant and that the service answers', async () => {
    expect(await get('/v1/plant', plantAnswer)).toMatchObject({ name: 'Demo Plant', today: '2026-11-25' });
    expect((await get('/v1/health', healthAnswer)).status).toBe('ok');
  });

  test('has a page for every kind of problem the service answers with', async () => {
    const problem: Json = await (await fetch(`${service.address}/v1/nothing`)).json();
    const page = await fetch(new URL(problem.type, service.address));
    expect(page.status).toBe(200);
    expect(await page.json()).toEqual({ type: '/problems/not-found', status: 404, title: problem.title });
  });
});

test('many requests at once get the answers they would get alone', async () => {
  const requests = ['ground-beef-80-20', 'bratwurst', 'smoked-sausage', 'italian-sausage'].flatMap(
    (product) => [100, 200, 300].map((pounds) => ({ product, batchSize: { total: lb(pounds) } })),
  );
  const alone: Json[] = [];
  for (const request of requests) alone.push(await blendOf(request));
  expect(await Promise.all(requests.map(blendOf))).toEqual(alone);
});
