import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { reportOnPaper } from '../../src/api/paper.ts';
import type { Service } from '../../src/api/service.ts';
import { stepsOf } from '../../src/making/batch.ts';
import { stepsOfBatch } from '../../src/store/batches.ts';
import { drawnTextOfPdf, MISSING_READERS, pagesOfPdf } from '../documents/pdf/reading.ts';
import { type Floor, finishedBatch, floorOf, GROUND_BEEF, weighedBatch } from './records/made.ts';
import { type Json, lb, send, startDemo } from './running.ts';
import { type Ask, good, verifiedStop } from './stock/client.ts';

/** Everything that comes on paper, over HTTP: a day of the demo plant with ground beef and a cured sausage. */

let service: Service;
let floor: Floor;
let ask: Ask;
let beef: string;
let sausage: string;

const SAUSAGE = { product: 'smoked-sausage', batchSize: { total: lb(300) } };
const unread = MISSING_READERS.filter((name) => name.startsWith('pdf'));

beforeAll(async () => {
  service = await startDemo();
  floor = await floorOf(service, '2026-11-25T12:00:00.000Z');
  ask = floor.ask;
  const clean = { equipment: ['grinder', 'mixer'], what: 'cleaned and sanitized' };
  await good(ask('POST /cleanings', { body: { ...clean, at: '2026-11-25T05:30' } }));
  beef = await finishedBatch(floor, GROUND_BEEF, {
    output: { weight: { value: '180', unit: 'lb' } },
    rework: [{ weight: { value: '15', unit: 'lb' } }],
    discarded: [{ weight: { value: '2', unit: 'lb' }, reason: 'fell on the floor' }],
    reasons: [{ about: 'yield', reason: 'left in the grinder' }],
  });
  sausage = await weighedBatch(floor, SAUSAGE);
  await good(ask(`POST /batches/${sausage}/tests`, { body: { fatFraction: 0.26, method: 'NIR' } }));
}, 60_000);
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

/** A PDF of an answer. */
async function paper(path: string): Promise<Buffer> {
  const { status, headers, bytes, text } = await floor.text(path, 'application/pdf');
  expect(status, text.slice(0, 300)).toBe(200);
  expect(headers['content-type']).toBe('application/pdf');
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  return look(path, bytes);
}

/** LOOK=FOLDER keeps every PDF there, to be looked at. */
function look(name: string, bytes: Buffer): Buffer {
  if (process.env.LOOK) writeFileSync(`${process.env.LOOK}/${name.replace(/[^\w-]+/g, '_')}.pdf`, bytes);
  return bytes;
}

describe.skipIf(unread.length > 0)(`on paper (needs ${unread.join(', ') || 'nothing more'})`, () => {
  test('the sheet of a batch has its number, every weight, the cure caution and the hash of the record', async () => {
    const { body: sheet } = await good(ask(`GET /batches/${sausage}/sheet`));
    const text = await drawnTextOfPdf(await paper(`/batches/${sausage}/sheet`));
    const steps = await service.books.store.read((db) => stepsOfBatch(db, sausage));
    expect(text).toContain(`SHA-256 of the document: ${stepsOf(steps, 'planned')[0]?.body.sheetHash}`);
    expect(text).toContain(sausage);
    for (const { weight, unit } of sheet.weigh) expect(text).toContain(`${weight} ${unit}`);
    expect(text).toContain('Nitrite is poisonous in excess');
    expect(text).not.toMatch(/USD|COST/);
  });

  test('shows prices when asked, and Spanish on A4', async () => {
    const pdf = await paper(`/batches/${sausage}/sheet?cost=true&language=es&paper=a4`);
    const text = await drawnTextOfPdf(pdf);
    expect(text).toContain('USD');
    expect(text).toContain('El nitrito en exceso es venenoso');
    expect((await pagesOfPdf(pdf))[0]?.heightMm).toBeCloseTo(297, 0);
    const { text: plain } = await floor.text(`/batches/${sausage}/sheet?language=es`, 'text/plain');
    expect(plain).toContain('LOTES POR SURTIR');
  });

  test('a sheet that is worked out without a batch has the hash of its own JSON', async () => {
    const { body: sheet } = await good(ask('POST /batch-sheets', { body: GROUND_BEEF }));
    const { status, bytes } = await send(service.address, {
      path: '/v1/batch-sheets?paper=a4',
      headers: { accept: 'application/pdf', 'content-type': 'application/json' },
      body: GROUND_BEEF,
    });
    expect(status).toBe(200);
    const hash = createHash('sha256').update(JSON.stringify(sheet)).digest('hex');
    expect(await drawnTextOfPdf(bytes)).toContain(hash);
  });

  test('the label of a batch and of a blend says all that the declaration says, with its rules', async () => {
    for (const id of [beef, sausage]) {
      const { body: label } = await good(ask(`GET /batches/${id}/label`));
      const text = await drawnTextOfPdf(await paper(`/batches/${id}/label`));
      for (const said of [label.name, label.ingredients.text, label.storage.text, label.storage.citation])
        expect(text.toLowerCase()).toContain(said.toLowerCase());
      for (const caution of label.cautions) expect(text).toContain(caution);
    }
    const { status, bytes } = await send(service.address, {
      path: '/v1/labels',
      headers: { accept: 'application/pdf', 'content-type': 'application/json' },
      body: SAUSAGE,
    });
    expect(status).toBe(200);
    expect(await drawnTextOfPdf(bytes)).toContain('Label declaration');
  });

  test.each([
    ['grinding', 'Grinding log, raw ground beef'],
    ['fat-tests', 'NIR'],
    ['restricted-ingredients', 'Curing salt 6.25 % nitrite'],
    ['cleanings', 'cleaned and sanitized'],
  ])('the log of %s stands on its side and says what its table says', async (name, word) => {
    const pdf = await paper(`/logs/${name}`);
    const [page] = await pagesOfPdf(pdf);
    expect(page?.widthMm).toBeCloseTo(279.4, 0);
    const text = await drawnTextOfPdf(pdf);
    expect(text).toContain(word);
    const { text: csv } = await floor.text(`/logs/${name}`, 'text/csv');
    const ids = csv.match(/[A-Z]\d\d-\d{4}|261125-\d{3}/g) ?? [];
    for (const id of ids) expect(text.replaceAll(' ', '')).toContain(id);
  });

  test('a recall drill lists what to count', async () => {
    const { body: drill, location } = await good(
      ask('POST /recall-drills', { body: { lotId: beef, reason: 'yearly drill' } }),
    );
    const text = await drawnTextOfPdf(await paper(location));
    for (const word of [`Recall drill ${drill.id}`, 'yearly drill', 'On hand', 'Reviewed by'])
      expect(text).toContain(word);
    for (const { lotId } of drill.lots) expect(text).toContain(lotId);
  });

  test('a paper that no printer has is refused', async () => {
    const { status, text } = await floor.text(`/batches/${beef}/sheet?paper=a3`, 'application/pdf');
    expect([status, JSON.parse(text).errors[0].pointer]).toEqual([400, '/paper']);
  });
});

test('a report of more rows than the service can draw while it answers others is refused', async () => {
  const rows = Array.from({ length: 3001 }, () => ['']);
  const report = { title: 'Log', plant: 'Demo Plant', establishment: '00000', lines: [], notes: [] };
  const parts = [{ table: { titles: ['Row'], rows, none: 'Nothing.' } }];
  await expect(
    reportOnPaper(service.books, { ...report, parts }, {}, { isLandscape: true, day: '2026-11-25' }),
  ).rejects.toThrow(/3001 rows are too many for paper; ask for fewer days/);
});

describe('the cost report', () => {
  let report: Json;
  beforeAll(async () => {
    report = (await good(ask('GET /reports/costs?fromDay=2026-11-25&toDay=2026-11-25'))).body;
  });
  const of = (id: string) => report.batches.find(({ batchId }: Json) => batchId === id);

  test('says what was planned and weighed, as the batches themselves say', async () => {
    for (const id of [beef, sausage]) {
      const { body: batch } = await good(ask(`GET /batches/${id}`));
      expect(of(id).planned.cost).toBeCloseTo(batch.cost, 9);
      expect(of(id).weighed.mass.kg).toBeCloseTo(batch.weighed.kg, 6);
      // Weighed as planned.
      expect(of(id).weighed.cost).toBeCloseTo(batch.cost, 6);
    }
  });

  test('says what came out, and what became of the rest', () => {
    const { weighed, finished } = of(beef);
    const perLb = weighed.cost / weighed.mass.lb;
    expect(finished.rework.mass.lb).toBeCloseTo(15, 6);
    expect(finished.discarded.mass.lb).toBeCloseTo(2, 6);
    expect(finished.discarded.cost).toBeCloseTo(2 * perLb, 2);
    // 200 lb in; 180, 15 and 2 came out, and the declared yield of ground beef is 1.
    expect(finished.lossBeyondYield.mass.lb).toBeCloseTo(weighed.mass.lb - 197, 6);
    expect(finished.lossBeyondYield.cost).toBeCloseTo((weighed.mass.lb - 197) * perLb, 6);
    // All that was put in is paid for by the product and its rework.
    expect(finished.output.cost + finished.rework.cost).toBeCloseTo(weighed.cost, 6);
    expect(of(sausage).finished).toBeUndefined();
  });

  test('says how much lean was given away', async () => {
    const { body: batch } = await good(ask(`GET /batches/${beef}`));
    const { mostFatFraction, fatFraction, points, cost } = of(beef).givenAway;
    expect(mostFatFraction).toBe(0.2);
    expect(fatFraction).toBe(batch.makeup.fatFraction);
    expect(points).toBeCloseTo((0.2 - fatFraction) * 100, 9);
    expect(cost).toBeGreaterThanOrEqual(0);
  });

  test('adds up by product and by material', () => {
    const total = (items: Json[], of: (item: Json) => number) =>
      items.reduce((sum, item) => sum + of(item), 0);
    const weighed = total(report.batches, ({ weighed: { cost } }) => cost);
    expect(total(report.products, ({ weighedCost }) => weighedCost)).toBeCloseTo(weighed, 6);
    expect(total(report.materials, ({ cost }) => cost)).toBeCloseTo(weighed, 6);
  });

  test('comes as a table, a page and on paper', async () => {
    const { text: csv } = await floor.text('/reports/costs', 'text/csv');
    const [head = '', ...rows] = csv.trim().split('\r\n');
    expect(rows).toHaveLength(2);
    for (const row of rows) expect(row.split(',')).toHaveLength(head.split(',').length);
    expect(head).toContain('Weighed per lb');
    const page = await floor.text('/reports/costs', 'text/html');
    expect(page.text).toContain('<h1>Cost report</h1>');
    const pdf = await paper('/reports/costs');
    if (unread.length === 0) {
      const text = await drawnTextOfPdf(pdf);
      for (const id of [beef, sausage]) expect(text).toContain(id);
      expect(text).toContain(of(beef).weighed.cost.toFixed(2));
    }
  });

  test('has nothing before the plant made anything', async () => {
    const { body } = await good(ask('GET /reports/costs?fromDay=2026-01-01&toDay=2026-01-31'));
    expect([body.batches, body.products, body.materials]).toEqual([[], [], []]);
  });
});
