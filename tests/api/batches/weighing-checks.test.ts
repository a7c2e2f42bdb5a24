import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { weighingCheckAnswer } from '../../../src/api/batches/contract.ts';
import type { Service } from '../../../src/api/service.ts';
import { type Json, startDemo, strictly } from '../running.ts';
import { lb, type Mixer, mixerAt, NITRITE } from './mixer.ts';

/** What a weighing would do, asked before it is booked. */

let service: Service;
let mixer: Mixer;
let batch: Json;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
  batch = await mixer.plan('smoked-sausage', 200);
});
afterAll(() => service.stop());

const lotLine = ({ lines }: Json, id: string): Json => lines.find(({ lotId }: Json) => lotId === id);
const grams = (value: string) => ({ value, unit: 'g' });
const check = async (body: object): Promise<Json> => {
  const { status, body: answer } = await mixer.post(`/batches/${batch.id}/weighing-checks`, body);
  expect(status).toBe(200);
  strictly(weighingCheckAnswer).parse(answer);
  return answer;
};

describe('a weighing that is only asked about', () => {
  test('at its target fits and misses no limit', async () => {
    const line = lotLine(batch, 'P72-1121');
    const { fit, refusals, limits, there, planned } = await check({
      line: line.number,
      weight: line.perLoad,
    });
    expect({ fit, refusals }).toEqual({ fit: 'within', refusals: [] });
    expect(there).toEqual(planned);
    expect(limits.filter(({ isMissed }: Json) => isMissed)).toEqual([]);
    expect(limits.length).toBe(batch.limits.length);
  });

  test('is short of its target without being refused', async () => {
    const line = lotLine(batch, 'P72-1121');
    expect(await check({ line: line.number, weight: lb('10') })).toMatchObject({
      fit: 'short',
      refusals: [],
    });
  });

  test('tells the limit that too much cure would break, as booking it then does', async () => {
    const line = lotLine(batch, 'CURE-0812');
    const weight = grams(String(Number(line.perLoad.value) + 40));
    const { fit, refusals, limits } = await check({ line: line.number, weight });
    const nitrite = limits.find(({ limitId }: Json) => limitId === NITRITE);
    expect(fit).toBe('above');
    expect(refusals).toMatchObject([{ kind: 'needs-a-reason', pointer: '/reason' }]);
    expect(nitrite).toMatchObject({ isMissed: true, wasMissed: false, holds: false });
    const reason = 'only to see';
    const after = await mixer.done(`/batches/${batch.id}/weighings`, { line: line.number, weight, reason });
    const { isMissed: _, wasMissed: __, ...told } = nitrite;
    expect(after.limits.find(({ limitId }: Json) => limitId === NITRITE)).toEqual(told);
    expect((await check({ line: line.number, weight: grams('1') })).limits).toContainEqual(
      expect.objectContaining({ limitId: NITRITE, isMissed: true, wasMissed: true }),
    );
    const step = lotLine(after, 'CURE-0812').loads[0].weighings[0].step;
    batch = await mixer.done(`/batches/${batch.id}/weighings/${step}/reversal`, { reason });
  });

  test('names everything that it would be refused for at once', async () => {
    const line = lotLine(batch, 'P72-1121');
    const { refusals, limits } = await check({ line: line.number, weight: lb('4000'), lotId: 'P80-1121' });
    expect(refusals.map(({ pointer }: Json) => pointer)).toEqual(['/reason', '/meant', '/weight']);
    expect(limits.length).toBeGreaterThan(0);
    const meant = { lotId: 'P80-1121', reason: 'the box was gone', meant: true };
    const { refusals: fewer } = await check({ line: line.number, weight: lb('1'), ...meant });
    expect(fewer).toEqual([]);
  });

  test('from a lot that may not go in has no limits', async () => {
    const line = lotLine(batch, 'CURE-0812');
    const answer = await check({
      line: line.number,
      weight: grams('1'),
      lotId: 'P80-1121',
      reason: 'it was there',
    });
    expect(answer.limits).toBeUndefined();
    expect(answer.refusals[0]).toMatchObject({ kind: 'cannot-be-used', pointer: '/lotId' });
  });

  test('books nothing', async () => {
    const before = await mixer.get(`/batches/${batch.id}`);
    await check({ line: 1, weight: lb('1') });
    expect(await mixer.get(`/batches/${batch.id}`)).toEqual(before);
  });
});

describe('what whoever weighs needs to know of a line', () => {
  test('its scale, how near, where it lies, how many boxes, and whether it is a cure', async () => {
    const { weigh, pick } = await mixer.get(`/batches/${batch.id}/sheet`);
    for (const line of batch.lines) {
      const sheet = weigh.find(({ number }: Json) => number === line.number);
      const lot = pick.find(({ lotId }: Json) => lotId === line.lotId);
      expect(line.cure).toBe(sheet.cure ?? false);
      expect(line.drafts).toBe(sheet.drafts);
      expect(line.location).toBe(lot?.location);
      expect(line.boxes?.full).toBe(lot?.boxes?.full);
      expect(line.division.unit).toBe(line.perLoad.unit);
      const { tolerance } = line.loads[0];
      expect(tolerance.over.kg === 0).toBe(line.cure);
      expect(tolerance.under.kg).toBeGreaterThan(0);
    }
  });
});

describe('the list of batches', () => {
  test('has open and past ones apart, and how far one is weighed', async () => {
    const other = await mixer.plan('ground-beef-80-20', 100);
    await mixer.done(`/batches/${other.id}/cancellation`, { reason: 'only to ask' });
    const { number, perLoad } = lotLine(batch, 'P72-1121');
    await mixer.done(`/batches/${batch.id}/weighings`, { line: number, weight: perLoad });
    const ids = ({ items }: Json) => items.map(({ id }: Json) => id);
    const open = await mixer.get('/batches?open=true');
    expect(ids(open)).toEqual([batch.id]);
    expect(open.items[0]).toMatchObject({
      product: 'Smoked sausage',
      state: 'weighing',
      lines: { begun: 1, all: batch.lines.length },
    });
    expect(ids(await mixer.get('/batches?open=false'))).toEqual([other.id]);
    expect(ids(await mixer.get('/batches?open=true&state=cancelled'))).toEqual([]);
  });
});
