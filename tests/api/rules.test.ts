import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { batchSheetAnswerSchema, blendAnswerSchema } from '../../src/api/contract/blend-answer.ts';
import { labelAnswerSchema } from '../../src/api/contract/label.ts';
import { rulesAnswer } from '../../src/api/contract/resources.ts';
import type { Service } from '../../src/api/service.ts';
import { demoProduct, type Json, lb, send, startDemo, strictly } from './running.ts';

let service: Service;
beforeAll(async () => {
  service = await startDemo();
});
afterAll(() => service.stop());

async function get(path: string) {
  return send(service.address, { method: 'GET', path });
}
async function rules(query: string): Promise<z.output<typeof rulesAnswer>> {
  const { status, text } = await get(`/v1/rules?${query}`);
  expect(status, text).toBe(200);
  return strictly(rulesAnswer).parse(JSON.parse(text)) as z.output<typeof rulesAnswer>;
}
const post = (path: string, body: Json) => send(service.address, { path, body });

/** A product of another market with nothing in it but what the test gives. */
const productOf = (jurisdiction: string, productClass: string, given: Json): Json => ({
  ...demoProduct('fresh-pork-sausage'),
  id: 'tested',
  name: 'Tested product',
  standard: { jurisdiction, productClass },
  targets: [],
  seasoning: [],
  form: { shape: 'bulk' },
  ...given,
});
const meatOfOurOwn = (id: string, species: string, collagenFraction?: number): Json => ({
  id,
  name: id,
  declaredName: species,
  kind: 'skeletal meat',
  species,
  composition: {
    waterFraction: 0.62,
    fatFraction: 0.2,
    proteinFraction: 0.17,
    ...(collagenFraction !== undefined && { collagenFraction }),
  },
});
const lotOf = (materialId: string): Json => ({
  id: `lot-${materialId}`,
  materialId,
  onHand: { value: 500, unit: 'kg' },
  cost: { amount: 4, per: 'kg' },
  receivedDate: '2026-11-20',
});
const BEEF = { meatBlock: [{ name: 'beef', species: ['beef'] }] };
const KG_100 = { total: { value: 100, unit: 'kg' } };

describe('rules of a market on a day', () => {
  it.each(['us', 'eu', 'gb', 'ca', 'codex', 'anz'])('are listed with their sources: %s', async (place) => {
    const { jurisdiction, standards, edition } = await rules(`jurisdiction=${place}`);
    expect(jurisdiction).toBe(place);
    expect(edition).toMatch(/\d{4}/);
    expect(standards.length).toBeGreaterThan(3);
    for (const { limits } of standards) {
      for (const { citation, read } of limits) {
        expect(citation).not.toBe('');
        expect(['official', 'secondary', 'from memory']).toContain(read);
      }
    }
  });

  it('are those of the plant when no market is named', async () => {
    expect((await rules('productClass=frankfurter')).jurisdiction).toBe('us');
  });

  it('change with the day where the law changed', async () => {
    const nitrite = async (date: string) => {
      const { standards } = await rules(`jurisdiction=eu&productClass=cooked-sausage&date=${date}`);
      return standards[0]?.limits.filter(({ numerator, bound }) => /nitrite/.test(numerator) && bound > 0);
    };
    const [before, after] = [await nitrite('2025-10-08'), await nitrite('2025-10-09')];
    expect(before?.map(({ bound, unit }) => `${bound} ${unit}`)).toEqual(['150 ppm']);
    expect(after?.map(({ bound, unit }) => `${bound} ${unit}`)).toEqual(['80 ppm']);
    expect(after?.[0]?.numerator).toContain('ion');
  });

  it('are asked for by product or by class, not by both', async () => {
    const { status, text } = await get('/v1/rules?product=bratwurst&productClass=frankfurter');
    expect(status).toBe(400);
    expect(JSON.parse(text).errors[0]).toMatchObject({ pointer: '/productClass' });
  });

  it('refuse a day before they are known', async () => {
    const { status, text } = await get('/v1/rules?jurisdiction=eu&date=1990-01-01');
    expect(status).toBe(404);
    expect(JSON.parse(text).detail).toMatch(/1990-01-01 lies before \d{4}-\d{2}-\d{2}.*European Union/);
  });

  it('show what only a laboratory can tell apart from the limits', async () => {
    const { standards } = await rules('jurisdiction=eu&productClass=cooked-sausage&date=2026-11-25');
    expect(standards[0]?.laboratory.map(({ says }) => says).join()).toMatch(/residual/i);
    expect(standards[0]?.limits.map(({ says }) => says).join()).not.toMatch(/residual/i);
  });

  it('of a product are those of its class with the limits of the house', async () => {
    const { standards, product } = await rules('product=smoked-sausage');
    expect(product).toBe('smoked-sausage');
    expect(standards).toHaveLength(1);
    const authorities = new Set(standards[0]?.limits.map(({ authority }) => authority));
    expect([...authorities].sort()).toEqual(['house', 'law']);
  });
});

describe('the page of rules', () => {
  it('shows a market, a class and a day with figures, sources and marks', async () => {
    const { status, headers, text } = await get(
      '/rules?jurisdiction=us&productClass=frankfurter&date=2026-11-25',
    );
    expect(status).toBe(200);
    expect(headers['content-type']).toMatch(/^text\/html/);
    expect(headers['content-security-policy']).toContain("default-src 'none'");
    expect(text).toContain('at most 30 %');
    expect(text).toContain('9 CFR 319.180(a)');
    expect(text).toContain('read in the official text');
    expect((await get('/rules/page.css')).headers['content-type']).toMatch(/^text\/css/);
  });

  it('keeps the market when the class is of another one', async () => {
    const { status, text } = await get(
      '/rules?jurisdiction=eu&productClass=whole-hog-sausage&date=2026-11-25',
    );
    expect(status).toBe(200);
    expect(text).toContain('European Union');
  });

  it('takes an empty field of the form as no choice', async () => {
    expect((await get('/rules?jurisdiction=us&productClass=&date=')).status).toBe(200);
  });
});

describe('a product for another market', () => {
  const blendOf = async (body: Json) => {
    const { status, text } = await post('/v1/blends', body);
    expect(status, text).toBe(200);
    return blendAnswerSchema.parse(JSON.parse(text));
  };

  it('is refused by name when the market has no such class', async () => {
    const { status, text } = await post('/v1/blends', {
      product: productOf('eu', 'hamburger', BEEF),
      batchSize: KG_100,
    });
    expect(status).toBe(422);
    expect(JSON.parse(text).errors[0]).toMatchObject({ pointer: '/product/standard/productClass' });
    expect(text).toContain('is no product class of European Union');
    expect(text).toContain('minced-pure-beef');
  });

  it('is refused on a day that has no rules', async () => {
    const { status, text } = await post('/v1/blends', {
      product: productOf('eu', 'minced-pure-beef', BEEF),
      batchSize: KG_100,
      date: '1999-05-01',
    });
    expect(status).toBe(422);
    expect(JSON.parse(text).errors[0].pointer).toBe('/date');
  });

  it('is refused for want of collagen with what to supply, for every lot at once', async () => {
    const { status, text } = await post('/v1/blends', {
      product: productOf('eu', 'minced-pure-beef', BEEF),
      batchSize: KG_100,
      materials: [meatOfOurOwn('untested-a', 'beef'), meatOfOurOwn('untested-b', 'beef')],
      lots: ['untested-a', 'untested-b'].map(lotOf),
    });
    expect(status).toBe(422);
    const messages = JSON.parse(text).errors.map(({ message }: Json) => message);
    expect(messages).toHaveLength(2);
    expect(messages[0]).toMatch(/The collagen of untested-a is not known.*Add the figure to its table/);
    expect(messages[1]).toContain('untested-b');
  });

  it('is blended and proven once the collagen is known', async () => {
    const body = (collagen: number) => ({
      product: productOf('eu', 'minced-pure-beef', BEEF),
      batchSize: KG_100,
      materials: [meatOfOurOwn('tested', 'beef', collagen)],
      lots: [lotOf('tested')],
    });
    // 15 % of the protein of 17 % is 2.55 %.
    const lawful = await blendOf(body(0.0255));
    expect(lawful.outcome).toBe('blend');
    const over = await blendOf(body(0.026));
    expect(over.outcome).toBe('no blend');
    expect(JSON.stringify(over)).toMatch(/collagen/);
  });

  it('carries what needs a laboratory into the blend and onto the sheet', async () => {
    const request = {
      product: productOf('eu', 'cooked-sausage', {
        meatBlock: [{ name: 'pork', species: ['pork'] }],
        seasoning: [{ materialId: 'curing-salt-0.6', basis: 'batch', fraction: 0.0195 }],
        process: { ...demoProduct('smoked-sausage').process, yieldFraction: 1, fatLossFraction: 0 },
      }),
      batchSize: KG_100,
      materials: [meatOfOurOwn('pork-tested', 'pork', 0.02)],
      lots: [lotOf('pork-tested')],
      prices: [{ materialId: 'curing-salt-0.6', cost: { amount: 1, per: 'kg' } }],
    };
    const answer = await blendOf(request);
    if (answer.outcome !== 'blend') throw new Error(JSON.stringify(answer));
    const nitrite = answer.checks.find(({ limit }) => /nitrite/.test(limit.numerator) && limit.bound > 0);
    // 19.5 g of 0.6 % salt in a kilogram, rounded down to the scale: 78 ppm at most.
    expect(nitrite?.value).toBeLessThanOrEqual(0.0195 * 0.006 * 0.66679 * 1e6);
    expect(nitrite?.value).toBeGreaterThan(77);
    expect(answer.laboratory.length).toBeGreaterThan(0);
    const sheet = await post('/v1/batch-sheets', request);
    expect(batchSheetAnswerSchema.parse(JSON.parse(sheet.text)).laboratory.length).toBe(
      answer.laboratory.length,
    );
    const label = labelAnswerSchema.parse(JSON.parse((await post('/v1/labels', request)).text));
    expect(label.meatContent?.text).toMatch(/pork \d+\.\d %/i);
    expect(label.inspection?.text).toMatch(/^Identification mark/);
    expect(label.cautions.join()).toMatch(/hold name, ingredients and allergens against the act/);
  });
});

describe('rules of the house in a request', () => {
  const request = (houseRules: Json, product = 'smoked-sausage'): Json => ({
    product,
    batchSize: { total: lb(200) },
    houseRules,
  });

  it('hold a tighter limit and print it', async () => {
    const { status, text } = await post(
      '/v1/batch-sheets',
      request({ tighter: [{ limitId: 'us-424.21c-phosphate', bound: 0.4, reason: 'taste' }] }),
    );
    expect(status, text).toBe(200);
    const { proof } = batchSheetAnswerSchema.parse(JSON.parse(text));
    expect(proof.find(({ limitId }) => limitId === 'house-us-424.21c-phosphate')).toMatchObject({
      bound: 0.4,
      authority: 'house',
      holds: true,
    });
  });

  it('switch a limit off with a reason that stands on the sheet, beside what was found', async () => {
    const reason = 'the recipe is sold under its own common name';
    const product = demoProduct('smoked-sausage');
    const wet = {
      ...product,
      seasoning: product.seasoning.map((line: Json) =>
        line.materialId === 'sodium-tripolyphosphate' ? { ...line, fraction: 0.007 } : line,
      ),
    };
    const refused = await post('/v1/blends', { product: wet, batchSize: { total: lb(200) } });
    expect(JSON.parse(refused.text).outcome).toBe('no blend');
    const { status, text } = await send(service.address, {
      path: '/v1/batch-sheets',
      headers: { 'content-type': 'application/json', accept: 'text/plain' },
      body: {
        product: wet,
        batchSize: { total: lb(200) },
        houseRules: { switchedOff: [{ limitId: 'us-424.21c-phosphate', reason }] },
      },
    });
    expect(status, text).toBe(200);
    expect(text).toContain('SWITCHED OFF BY THE HOUSE');
    expect(text).toMatch(new RegExp(`Reason: ${reason} Found: phosphates 0\\.\\d+ percent .*NOT MET`));
    expect(text).toMatch(/! Switched off by the house:.*The law still holds: ask the inspector/);
  });

  it.each([
    [
      'no reason',
      { switchedOff: [{ limitId: 'us-424.21c-phosphate' }] },
      400,
      '/houseRules/switchedOff/0/reason',
    ],
    [
      'a limit of nitrite',
      { switchedOff: [{ limitId: 'us-424.21c-nitrite-comminuted', reason: 'because we always did' }] },
      422,
      '/houseRules/switchedOff/0/limitId',
    ],
    [
      'a looser bound',
      { tighter: [{ limitId: 'us-424.21c-phosphate', bound: 1 }] },
      422,
      '/houseRules/tighter/0/bound',
    ],
    [
      'two tighter bounds of one limit',
      {
        tighter: [
          { limitId: 'us-424.21c-phosphate', bound: 0.4 },
          { limitId: 'us-424.21c-phosphate', bound: 0.3 },
        ],
      },
      400,
      '/houseRules/tighter/1/limitId',
    ],
    ['an unknown id', { tighter: [{ limitId: 'us-0', bound: 1 }] }, 422, '/houseRules/tighter/0/limitId'],
  ])('are refused for %s', async (_, houseRules, status, pointer) => {
    const received = await post('/v1/blends', request(houseRules));
    expect(received.status, received.text).toBe(status);
    expect(JSON.parse(received.text).errors[0].pointer).toBe(pointer);
  });
});
