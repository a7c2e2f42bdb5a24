import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import { type Json, lb, SETTINGS, send, startDemo } from './running.ts';

/** What an answer says beyond the weights, over HTTP: proof, certainty, worth, floor wishes, curves, plans. */

let service: Service;
beforeAll(async () => {
  service = await startDemo();
});
afterAll(() => service.stop());

async function post(path: string, body: Json): Promise<{ status: number; json: Json }> {
  const { status, text } = await send(service.address, { path, body });
  return { status, json: JSON.parse(text) };
}

const BEEF = { product: 'ground-beef-80-20', batchSize: { total: lb(500) } };

async function blend(extra: Json = {}): Promise<Json> {
  const { status, json } = await post('/v1/blends', { ...BEEF, ...extra });
  expect(status).toBe(200);
  return json;
}

describe('a blend', () => {
  test('comes with a proof of its cost', async () => {
    const { cost, proof } = await blend();
    expect(proof.leastCost).toBeLessThanOrEqual(cost);
    expect(proof.aboveLeast).toBeCloseTo(cost - proof.leastCost, 8);
    expect(proof.withinFraction).toBeCloseTo(proof.aboveLeast / proof.leastCost, 10);
    expect(proof.withinFraction).toBeLessThan(0.001);
    expect(proof.says).toMatch(/^Proven within 0\.\d+ %: no blend of this weight/);
  });

  test('says what limits and lots are worth', async () => {
    const { worth, lines } = await blend();
    expect(worth.limits[0]).toMatchObject({ step: 1, unit: 'percent', savesPerKg: expect.any(Number) });
    expect(worth.used.map(({ supplyId }: Json) => supplyId).sort()).toEqual(
      lines.map(({ supplyId }: Json) => supplyId).sort(),
    );
    for (const lot of worth.used) {
      expect(lot.bestFromPerKg).toBeLessThanOrEqual(lot.costPerKg + 1e-9);
      expect(lot.bestToPerKg ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(lot.costPerKg - 1e-9);
    }
    for (const { wouldEnterBelowPerKg, costPerKg } of worth.notUsed) {
      if (wouldEnterBelowPerKg !== undefined) expect(wouldEnterBelowPerKg).toBeLessThanOrEqual(costPerKg);
    }
  });

  test('leaves out what they are worth where it is not asked for, and is the same blend', async () => {
    const { worth, ...rest } = await blend();
    expect(worth).toBeDefined();
    expect(await blend({ worth: 'none' })).toEqual(rest);
    const { status } = await post('/v1/blends', { ...BEEF, worth: 'some' });
    expect(status).toBe(400);
  });

  test('tells how the fat of each lot is known, and how sure its limits are', async () => {
    const { lines, certainty } = await blend();
    for (const { fat } of lines) {
      expect(fat).toMatchObject({ meanFraction: expect.any(Number), says: expect.stringMatching(/\S/) });
      expect(fat.sdFraction).toBeGreaterThan(0);
    }
    const label = certainty.find(({ limitId }: Json) => limitId === 'house-label-lean-max');
    expect(label.probability).toBeGreaterThan(0.45);
    expect(label.probability).toBeLessThan(0.6);
    expect(label.confidence).toBeUndefined();
  });

  test('holds a limit with the confidence asked, at a price that it tells', async () => {
    const asked = { certainty: [{ limitId: 'house-label-lean-max', confidence: 0.95 }] };
    const plain = await blend();
    const sure = await blend(asked);
    const label = sure.certainty.find(({ limitId }: Json) => limitId === 'house-label-lean-max');
    expect(label.confidence).toBe(0.95);
    expect(label.probability).toBeGreaterThanOrEqual(0.95);
    expect(sure.costOfCertainty).toBeGreaterThan(0);
    expect(sure.unroundedCost - plain.unroundedCost).toBeCloseTo(sure.costOfCertainty, 4);
  });

  test('opens no box when it is asked not to', async () => {
    const answer = await blend({ floor: { wholeBoxes: 'all', sizeWithin: 0.05 } });
    const meat = answer.lines.filter(({ boxes }: Json) => boxes !== undefined);
    expect(meat.length).toBe(answer.lines.length);
    expect(meat.reduce((sum: number, { boxes }: Json) => sum + 60 * boxes, 0)).toBeCloseTo(
      answer.batch.lb,
      6,
    );
    expect(Math.abs(answer.batch.lb - 500)).toBeLessThanOrEqual(25);
    expect(answer.choice.reportedLeastCost).toBeLessThanOrEqual(answer.choice.cost + 1e-6);
  });

  test('takes at most so many lots, or the fewest that cost little more', async () => {
    const two = await blend({ floor: { mostLots: 2 } });
    expect(two.lines).toHaveLength(2);
    const simple = await blend({
      floor: { simplestWithin: 0.2 },
      certainty: [{ limitId: 'house-label-lean-max', confidence: 0.95 }],
    });
    expect(simple.lines.length).toBeLessThanOrEqual(2);
  });

  test('uses a lot well or not at all', async () => {
    const use = [{ lotId: 'B73-1120', leastIfUsed: lb(300) }];
    const { lines } = await blend({ use });
    const kg = lines.find(({ supplyId }: Json) => supplyId === 'B73-1120')?.mass.lb ?? 0;
    expect(kg === 0 || kg >= 300 - 1e-6).toBe(true);
  });

  test('uses more of the older lots within the share allowed', async () => {
    const plain = await blend();
    const older = await blend({ floor: { olderFirstWithin: 0.03 } });
    // B50-1118 (use by 2 December) is the fresh beef trim to be used first.
    const used = (answer: Json) =>
      answer.lines.find(({ supplyId }: Json) => supplyId === 'B50-1118')?.mass.lb ?? 0;
    expect(used(older)).toBeGreaterThan(used(plain));
    expect(older.unroundedCost).toBeLessThanOrEqual(plain.unroundedCost * 1.03 + 1e-6);
  });

  test('uses more of the older lots beside other wishes too, and says what it costs', async () => {
    const used = (answer: Json) =>
      answer.lines.find(({ supplyId }: Json) => supplyId === 'B50-1118')?.mass.lb ?? 0;
    for (const floor of [{ mostLots: 3 }, { simplestWithin: 0.02 }, { wholeBoxes: 'frozen' }]) {
      const plain = await blend({ floor });
      const older = await blend({ floor: { ...floor, olderFirstWithin: 0.03 } });
      expect([JSON.stringify(floor), used(older) > used(plain)]).toEqual([JSON.stringify(floor), true]);
      expect(older.unroundedCost - older.costOfOlderFirst).toBeCloseTo(plain.unroundedCost, 3);
      expect(older.costOfOlderFirst).toBeLessThanOrEqual(0.03 * plain.unroundedCost + 1e-6);
    }
  });

  test('keeps its size where nothing is gained by leaving it', async () => {
    const { batch, costPerKg } = await blend({ floor: { sizeWithin: 0.3 } });
    const plain = await blend();
    expect(batch.lb).toBeCloseTo(500, 1);
    expect(costPerKg).toBeCloseTo(plain.costPerKg, 2);
  });

  test('lists the next best ones', async () => {
    const { nearBest, unroundedCost } = await blend({ nearBest: { count: 3, within: 0.05 } });
    expect(nearBest).toHaveLength(3);
    for (const { without, cost, lines } of nearBest) {
      expect(without.length).toBeGreaterThan(0);
      expect(cost).toBeGreaterThan(unroundedCost * 0.99);
      expect(lines.length).toBeGreaterThan(0);
    }
  });
});

describe('no blend', () => {
  test('comes with what fights and with ways out that were worked out', async () => {
    const { product } = { product: await demoBeef() };
    const { status, json } = await post('/v1/blends', {
      product: { ...product, targets: [{ measure: 'fat', max: 0.03 }] },
      batchSize: { total: lb(500) },
    });
    expect(status).toBe(200);
    expect(json).toMatchObject({ outcome: 'no blend', proven: true });
    expect(json.wayOut.conflict.map(({ limitId }: Json) => limitId)).toEqual(['house-fat-max']);
    expect(json.wayOut.repairs[0]).toMatchObject({ kind: 'target', costPerKg: expect.any(Number) });
  });

  async function demoBeef(): Promise<Json> {
    const product: Json = await (await fetch(`${service.address}/v1/products/ground-beef-80-20`)).json();
    return { ...product, label: { storage: 'keep refrigerated' } };
  }
});

describe('a sheet', () => {
  test('carries proof, certainty and whole boxes', async () => {
    const body = {
      ...BEEF,
      floor: { wholeBoxes: 'all', sizeWithin: 0.05 },
      certainty: [{ limitId: 'house-label-lean-max', confidence: 0.9 }],
    };
    const { status, text } = await send(service.address, {
      path: '/v1/batch-sheets',
      body,
      headers: { accept: 'text/plain', 'content-type': 'application/json' },
    });
    expect(status).toBe(200);
    expect(text).toMatch(/Proven within [\d.]+ %: no blend of this weight/);
    expect(text).toMatch(/HOW SURE/);
    expect(text).toMatch(/90 % was asked/);
    expect(text).toMatch(/the engine reports that no such choice costs less/);
    // A lot of which whole boxes are emptied shows no part of a box.
    expect(text).not.toMatch(/\d \+ \d+\.\d+ lb/);
  });
});

describe('a cost curve', () => {
  test('has its corners in the unit of the limit', async () => {
    const { status, json } = await post('/v1/curves', {
      blend: BEEF,
      along: { limitId: 'house-fat-max', from: 18, to: 22 },
    });
    expect(status).toBe(200);
    expect(json).toMatchObject({ outcome: 'curve', corners: true, today: 20, along: { unit: 'percent' } });
    expect(json.points[0].at).toBeGreaterThanOrEqual(18);
    expect(json.points.at(-1).at).toBe(22);
    expect(json.points[0].cost).toBeGreaterThan(json.points.at(-1).cost);
  });

  test('reads the lean point as lean', async () => {
    const { json } = await post('/v1/curves', { blend: BEEF, along: { leanFrom: 75, leanTo: 90 } });
    expect(json).toMatchObject({
      outcome: 'curve',
      corners: true,
      today: 80,
      along: { unit: 'percent lean' },
    });
    expect(json.points[0].at).toBeCloseTo(75, 9);
    expect(json.points.at(-1).at).toBeCloseTo(90, 9);
    expect(json.points.at(-1).cost).toBeGreaterThan(json.points[0].cost);
  });

  test('follows a price in the unit it was asked in', async () => {
    const { json } = await post('/v1/curves', {
      blend: BEEF,
      along: { supplyId: 'B85-1119', from: 2.5, to: 3.5, per: 'lb' },
    });
    expect(json.today).toBeCloseTo(3.06, 9);
    expect(json.points[0].at).toBeCloseTo(2.5, 9);
    expect(json.points.at(-1).at).toBeCloseTo(3.5, 9);
  });

  test('names the field of a limit that the product lacks', async () => {
    const { status, json } = await post('/v1/curves', {
      blend: BEEF,
      along: { limitId: 'house-nothing', from: 1, to: 2 },
    });
    expect(status).toBe(422);
    expect(json.errors[0].pointer).toBe('/along/limitId');
  });

  test('takes no wishes of the floor', async () => {
    const { status, json } = await post('/v1/curves', {
      blend: { ...BEEF, floor: { mostLots: 2 } },
      along: { limitId: 'house-fat-max', from: 18, to: 22 },
    });
    expect(status).toBe(422);
    expect(json.errors[0].pointer).toBe('/blend/floor');
  });

  test('names the field inside the blend', async () => {
    const { status, json } = await post('/v1/curves', {
      blend: { ...BEEF, product: 'no-such' },
      along: { limitId: 'house-fat-max', from: 1, to: 2 },
    });
    expect(status).toBe(422);
    expect(json.errors[0].pointer).toBe('/blend/product');
  });
});

describe('a use plan', () => {
  test('says how much of each product to make of the lots', async () => {
    const { status, json } = await post('/v1/use-plans', {
      products: [
        { product: 'ground-beef-80-20', price: { amount: 4.2, per: 'lb' }, most: lb(300) },
        { product: 'fresh-pork-sausage', price: { amount: 2.9, per: 'lb' }, most: lb(300) },
      ],
    });
    expect(status).toBe(200);
    expect(json.outcome).toBe('plan');
    expect(json.products.length).toBeGreaterThan(0);
  });
});

describe('what is known of trim', () => {
  test('is listed by supplier with its shrinkage', async () => {
    const json: Json = await (await fetch(`${service.address}/v1/trim`)).json();
    expect(json.items.length).toBeGreaterThan(3);
    for (const { shrinkage, meanFraction, classMeanFraction, testedMeanFraction } of json.items) {
      expect(shrinkage).toBeGreaterThan(0);
      expect(shrinkage).toBeLessThan(1);
      const [low, high] = [classMeanFraction, testedMeanFraction].sort((a, b) => a - b);
      expect(meanFraction).toBeGreaterThanOrEqual(low - 1e-12);
      expect(meanFraction).toBeLessThanOrEqual(high + 1e-12);
    }
  });
});

describe('an engine that cannot count', () => {
  test.each([
    ['whole boxes', { floor: { wholeBoxes: 'all' } }, '/floor'],
    ['few lots', { floor: { mostLots: 2 } }, '/floor'],
    ['other blends', { nearBest: { count: 2, within: 0.1 } }, '/nearBest'],
  ])('is named, and which one can, when asked for %s', async (_, extra, pointer) => {
    const alone = await startDemo({ engine: 'javascript-lp-solver' });
    try {
      const { status, text } = await send(alone.address, { body: { ...BEEF, ...extra } });
      expect(status).toBe(422);
      const [error] = JSON.parse(text).errors;
      expect(error.pointer).toBe(pointer);
      expect(error.message).toMatch(/javascript-lp-solver does not.*choose highs/);
    } finally {
      await alone.stop();
    }
  });
});

describe('what the plant has settled for itself', () => {
  const habits = mkdtempSync(join(tmpdir(), 'meatblock-habits-'));
  afterAll(() => rmSync(habits, { recursive: true }));

  test('counts where a request says nothing: older lots first, a confidence, a test of a lot on file', async () => {
    cpSync(SETTINGS.plantFolder, habits, { recursive: true });
    const edit = (file: string, change: (json: Json) => Json) => {
      const path = join(habits, file);
      writeFileSync(path, JSON.stringify(change(JSON.parse(readFileSync(path, 'utf8')))));
    };
    edit('plant.json', (plant) => ({ ...plant, floor: { olderFirstWithin: 0.03 } }));
    edit('house-rules.json', (rules) => ({
      ...rules,
      certainty: [{ limitId: 'house-label-lean-max', confidence: 0.9 }],
    }));
    appendFileSync(join(habits, 'fat-tests.csv'), '2026-11-24,00001,beef-trim-65,B65-1120,31.0,NIR,\n');
    const own = await startDemo({ plantFolder: habits });
    try {
      const ask = async (extra: Json) =>
        JSON.parse((await send(own.address, { body: { ...BEEF, ...extra } })).text);
      const answer = await ask({});
      expect(answer.lines.map(({ supplyId }: Json) => supplyId)).toContain('B50-1118');
      expect(answer.certainty.find(({ limitId }: Json) => limitId === 'house-label-lean-max')).toMatchObject({
        confidence: 0.9,
      });
      // A request's own wishes take the place of the habit.
      const plain = await ask({ floor: {} });
      expect(plain.lines.map(({ supplyId }: Json) => supplyId)).not.toContain('B50-1118');
      const lot = plain.lines.find(({ supplyId }: Json) => supplyId === 'B65-1120');
      expect(lot?.fat).toMatchObject({ meanFraction: 0.31, says: expect.stringContaining('NIR') });
    } finally {
      await own.stop();
    }
  });
});

describe('one engine alone', () => {
  test.each(['highs', 'javascript-lp-solver'] as const)('%s gives the same blend', async (engine) => {
    const alone = await startDemo({ engine });
    try {
      const { text } = await send(alone.address, { body: BEEF });
      const answer: Json = JSON.parse(text);
      const both = await blend();
      expect(answer.cost).toBeCloseTo(both.cost, 6);
      expect(answer.proof.withinFraction).toBeLessThan(0.001);
    } finally {
      await alone.stop();
    }
  });
});

describe('a wrong wish is named with its field and the way to write it', () => {
  test.each<{ name: string; body: Json; pointer: string; says: RegExp }>([
    {
      name: 'a confidence of a half',
      body: { certainty: [{ limitId: 'house-fat-max', confidence: 0.5 }] },
      pointer: '/certainty/0/confidence',
      says: /above 0\.5/,
    },
    {
      name: 'a confidence of one',
      body: { certainty: [{ limitId: 'house-fat-max', confidence: 1 }] },
      pointer: '/certainty/0/confidence',
      says: /at most 0\.9999/,
    },
    {
      name: 'a limit that the product lacks',
      body: { certainty: [{ limitId: 'house-protein-min', confidence: 0.9 }] },
      pointer: '/certainty/0/limitId',
      says: /is no limit of this product/,
    },
    {
      name: 'one limit twice',
      body: {
        certainty: [
          { limitId: 'house-fat-max', confidence: 0.9 },
          { limitId: 'house-fat-max', confidence: 0.8 },
        ],
      },
      pointer: '/certainty/1/limitId',
      says: /keep one confidence/,
    },
    {
      name: 'no lots at all',
      body: { floor: { mostLots: 0 } },
      pointer: '/floor/mostLots',
      says: /at least 1/,
    },
    {
      name: 'half a lot',
      body: { floor: { mostLots: 1.5 } },
      pointer: '/floor/mostLots',
      says: /whole number/,
    },
    {
      name: 'boxes of a lot that is not there',
      body: { floor: { wholeBoxes: ['X-1'] } },
      pointer: '/floor/wholeBoxes/0',
      says: /no lot on hand/,
    },
    {
      name: 'boxes of a word unknown',
      body: { floor: { wholeBoxes: 'some' } },
      pointer: '/floor/wholeBoxes',
      says: /"all", "frozen" or a list/,
    },
    {
      name: 'a share above all',
      body: { floor: { olderFirstWithin: 3 } },
      pointer: '/floor/olderFirstWithin',
      says: /at most 1/,
    },
    {
      name: 'an unknown wish',
      body: { floor: { fewestBoxes: 3 } },
      pointer: '/floor/fewestBoxes',
      says: /./,
    },
    {
      name: 'no other blends at all',
      body: { nearBest: { count: 0, within: 0.1 } },
      pointer: '/nearBest/count',
      says: /at least 1/,
    },
    {
      name: 'more of a lot, if used, than there is',
      body: { use: [{ lotId: 'B73-1120', leastIfUsed: lb(5000) }] },
      pointer: '/use/0/leastIfUsed',
      says: /more than can be used/,
    },
    {
      name: 'a standard deviation of nothing',
      body: {
        lots: [
          {
            id: 'L1',
            materialId: 'beef-trim-85',
            onHand: lb(900),
            cost: { amount: 3, per: 'lb' },
            measuredFat: { fatFraction: 0.15, method: 'NIR', sdFraction: 0 },
          },
        ],
      },
      pointer: '/lots/0/measuredFat/sdFraction',
      says: /above 0/,
    },
  ])('$name', async ({ body, pointer, says }) => {
    const { status, json } = await post('/v1/blends', { ...BEEF, ...body });
    expect([400, 422]).toContain(status);
    expect(json.errors.map((error: Json) => error.pointer)).toContain(pointer);
    const { message } = json.errors.find((error: Json) => error.pointer === pointer);
    expect(message).toMatch(says);
  });
});
