import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, good, verifiedStop } from '../stock/client.ts';
import { type Floor, finishedBatch, floorOf, weighedBatch } from './made.ts';

/**
 * A morning with one grinder: ground beef, cleaned, lean ground beef, sausage and ground beef again without a cleaning.
 * The plant's clock is six hours behind UTC then.
 */

let service: Service;
let floor: Floor;
let ask: Ask;
const ids: string[] = [];

const clean = (at: string) =>
  good(
    ask('POST /cleanings', {
      body: { equipment: ['Grinder'], what: 'cleaned and sanitized', at: `2026-11-25T${at}` },
    }),
  );
const ALL = (weighed: number) => ({ output: { weight: { value: String(weighed), unit: 'lb' } } });

beforeAll(async () => {
  service = await startDemo();
  floor = await floorOf(service, '2026-11-25T12:00:00.000Z');
  ask = floor.ask;
  await clean('05:00');
  const steps: [string, () => Promise<string>][] = [
    ['12:10', () => finishedBatch(floor, batch('ground-beef-80-20', 100), ALL(100))],
    ['14:10', () => finishedBatch(floor, batch('ground-beef-90-10', 60), ALL(60))],
    ['15:10', () => weighedBatch(floor, batch('smoked-sausage', 60))],
    ['16:10', () => finishedBatch(floor, batch('ground-beef-80-20', 50), ALL(50))],
  ];
  for (const [clock, make] of steps) {
    floor.at(`2026-11-25T${clock}:00.000Z`);
    ids.push(await make());
    floor.at('2026-11-25T13:40:00.000Z');
    if (ids.length === 1) await clean('07:30');
  }
}, 60_000);
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

const batch = (product: string, pounds: number) => ({ product, batchSize: { total: lb(pounds) } });

describe('what was ground between the same two cleanings', () => {
  test('stands beside a trace both ways, in no share, until a cleaning ends it', async () => {
    const [first, lean, sausage, last] = ids;
    for (const direction of ['forward', 'back']) {
      const { body } = await good(ask(`GET /trace?batchId=${lean}&direction=${direction}`));
      expect(body.sameGrinder).toEqual([
        { batchId: sausage, product: 'Smoked sausage', date: '2026-11-25', beside: [lean] },
        { batchId: last, product: 'Ground beef 80/20', date: '2026-11-25', beside: [lean] },
      ]);
      expect(JSON.stringify(body.levels)).not.toContain(last);
    }
    expect((await good(ask(`GET /trace?batchId=${first}`))).body.sameGrinder).toEqual([]);
    const { text } = await floor.text(`/trace?batchId=${lean}`, 'text/plain');
    expect(text).toContain('THE GRINDER NOT CLEANED BETWEEN');
    expect(text).toContain(`Batch ${last}, Ground beef 80/20 of 2026-11-25, beside ${lean}`);
  });

  test('is carry-over in the grinding log, sausage too, from what was ground before', async () => {
    const [first, lean, sausage, last] = ids;
    const { body } = await good(ask('GET /logs/grinding'));
    const rows = body.items.map(({ batches, groundBefore }: Json) => [
      batches.map(({ batchId }: Json) => batchId),
      groundBefore.map(({ batchId }: Json) => batchId),
    ]);
    expect(rows).toEqual([
      [[first], []],
      [[lean], []],
      [[last], [lean, sausage]],
    ]);
    const page = await floor.text('/logs/grinding', 'text/html');
    expect(page.text).toContain(
      `not cleaned between: ${lean} (Ground beef 90/10); ${sausage} (Smoked sausage)</p>`,
    );
  });

  test('stands in a recall drill and on its page, in no figure', async () => {
    const [, lean, sausage] = ids;
    const { body, location } = await good(
      ask('POST /recall-drills', { body: { batchId: lean, reason: 'a call' } }),
    );
    expect(body.sameGrinder.map(({ batchId }: Json) => batchId)).toContain(sausage);
    const { body: made } = await good(ask(`GET /batches/${lean}`));
    expect(body.whereabouts.affected.lb).toBeCloseTo(made.weighed.lb, 6);
    const { text } = await floor.text(location, 'text/html');
    expect(text).toContain(`<td><span class="whole">${sausage}</span></td><td>Smoked sausage</td>`);
    expect(text).toContain('ACCOUNTED FOR IN THE BOOKS, 100.0 %');
  });
});
