import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inSpanish } from '../../src/documents/words/desk/in-spanish.ts';
import { expectSpanish } from '../documents/words/known.ts';
import { PASSWORD, QUICK, tryLogin } from './access/people.ts';
import { lineOf, type Mixer, mixerAt, times } from './batches/mixer.ts';
import { type Json, lb, startDemo } from './running.ts';

/** What the service says over HTTP to the desk and at the mixer has its Spanish. */

type Running = Awaited<ReturnType<typeof startDemo>>;
let service: Running;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo(QUICK);
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

/** All that a problem says to a person. */
const wordsOf = ({ title, detail, errors = [] }: Json): string[] => [
  title,
  detail,
  ...errors.map(({ message }: Json) => message),
];

/** Each of these calls is refused, and all that is said of it has its Spanish. */
async function expectRefusals(calls: readonly (readonly [line: string, body?: unknown])[]) {
  for (const [line, body] of calls) {
    const [method = '', path = ''] = line.split(' ');
    const { status, body: problem } = await mixer.call(method, path, body);
    expect(status, line).toBeGreaterThanOrEqual(400);
    expect(problem.detail, line).not.toMatch(/^There is nothing at/);
    expectSpanish(wordsOf(problem));
  }
}

const cost = { amount: 2, per: 'lb' };
const receipt = (id: string, more: object = {}) => ({
  id,
  materialId: 'beef-trim-73',
  mass: lb(100),
  cost,
  ...more,
});

test('stock: receiving, holding, moving, testing, materials, prices and products', async () => {
  await mixer.done('/lots', receipt('M-1'));
  await mixer.done('/lots', receipt('M-2'));
  await mixer.done('/lots', receipt('SALT', { materialId: 'salt' }));
  await mixer.done('/lots/M-1/hold', { reason: 'torn bag' });
  await expectRefusals([
    ['POST /lots', receipt('M-1')],
    ['POST /lots', receipt('NEW', { materialId: 'moon-dust' })],
    ['POST /lots', receipt('beef-trim-73')],
    ['POST /lots', receipt('NEW', { receivedDate: '2099-01-01' })],
    ['POST /lots', receipt('NEW', { packedDate: '2026-11-24', useByDate: '2026-11-20' })],
    ['POST /lots', {}],
    ['POST /lots', { ...receipt('no good id!'), cost: { amount: -1, per: 'lb' }, state: 'warm', colour: 1 }],
    ['POST /lots', receipt('NEW', { mass: { value: 0, unit: 'stone' }, useByDate: '2026-02-31' })],
    ['GET /lots/NONE'],
    ['POST /lots/M-1/hold', { reason: 'again' }],
    ['POST /lots/M-2/release', { reason: 'why not' }],
    ['POST /lots/M-1/movements', { kind: 'sold', mass: lb(1) }],
    ['POST /lots/M-2/movements', { kind: 'sold', mass: lb(101) }],
    ['POST /lots/M-2/movements', { kind: 'weighed', mass: lb(1) }],
    ['POST /lots/SALT/tests', { fatFraction: 0.2, method: 'NIR' }],
    ['POST /lots/M-2/tests', { fatFraction: 0.2, method: 'NIR', date: '2020-01-01' }],
    ['GET /materials/none'],
    ['GET /products/none'],
    ['DELETE /prices/none'],
    ['POST /shipments', { to: 'Corner grocery', document: 'D-1', lines: [{ lotId: 'NONE', mass: lb(1) }] }],
  ]);
});

test('a blend: what is asked wrongly, and what stands in its way', async () => {
  const size = { batchSize: { total: lb(100) } };
  await expectRefusals([
    ['POST /blends', { product: 'ground-beef-80-20' }],
    ['POST /blends', { product: 'unicorn', ...size }],
    ['POST /blends', { product: 'ground-beef-80-20', ...size, excludeLots: ['NONE'] }],
    ['POST /blends', { product: 'ground-beef-80-20', ...size, use: [{ lotId: 'B73-1120', min: lb(9999) }] }],
    ['POST /blends', { product: 'ground-beef-80-20', ...size, lots: [] }],
    [
      'POST /blends',
      { product: 'ground-beef-80-20', ...size, certainty: [{ limitId: 'x', confidence: 0.9 }] },
    ],
    ['GET /rules?jurisdiction=moon'],
  ]);
  const { cautions, cost, howSure } = await mixer.done('/batch-sheets', {
    product: 'smoked-sausage',
    ...size,
  });
  expectSpanish([...cautions, ...cost.notes, ...howSure]);
});

describe('a batch', () => {
  let batch: Json;

  test('is refused what is out of turn, wrong or too much', async () => {
    batch = await mixer.plan('smoked-sausage', 100);
    const at = `/batches/${batch.id}`;
    const cure = lineOf(batch, 'curing-salt-6.25');
    const weigh = (line: Json, by: number) => ({
      line: line.number,
      load: 1,
      weight: times(line.perLoad, by),
    });
    await expectRefusals([
      ['GET /batches/990101-001'],
      [`POST ${at}/weighed`, {}],
      [`POST ${at}/finish`, { output: { weight: lb(90) } }],
      [`POST ${at}/closing`, {}],
      [`POST ${at}/weighings`, { ...weigh(cure, 1), line: 99 }],
      [`POST ${at}/weighings`, { ...weigh(cure, 1), load: 7 }],
      [`POST ${at}/weighings`, weigh(cure, 30)],
      [`POST ${at}/weighings`, weigh(cure, 1.2)],
      [`POST ${at}/weighings`, { ...weigh(cure, 1), lotId: 'NONE' }],
      [`POST ${at}/weighings`, { ...weigh(cure, 1), lotId: 'P72-1121' }],
      [`POST ${at}/weighings`, { line: 'x', weight: { value: 'ten', unit: 'lb' } }],
      ['POST /batches', { product: 'smoked-sausage', batchSize: { total: lb(10) }, date: '2020-01-01' }],
    ]);
  });

  test('has its cautions and its reasons in Spanish', async () => {
    const at = `/batches/${batch.id}`;
    const cure = lineOf(batch, 'curing-salt-6.25');
    const reason = 'only to see';
    for (const { number, perLoad } of batch.lines) {
      const weight = number === cure.number ? times(perLoad, 1.2) : perLoad;
      await mixer.done(`${at}/weighings`, { line: number, load: 1, weight, reason });
    }
    const heavy = await mixer.get(at);
    expect(heavy.cautions.join()).toContain('NOT LAWFUL');
    expectSpanish(heavy.cautions);
    expectSpanish([heavy.limitsAre, ...heavy.limits.flatMap(({ says, basis }: Json) => [says, basis])]);
    const first = heavy.lines[0].loads[0].weighings[0].step;
    await mixer.done(`${at}/weighings/${first}/reversal`, { reason });
    await expectRefusals([
      [`POST ${at}/weighed`, {}],
      [`POST ${at}/weighings/${first}/reversal`, { reason }],
      [`POST ${at}/cancellation`, { reason }],
    ]);
    expectSpanish((await mixer.get(at)).cautions);
  });
});

test('who may come in', async () => {
  const person = { name: 'Ana', role: 'admin', password: `${PASSWORD} Ana` };
  await expectRefusals([
    ['POST /people', { ...person, role: 'floor' }],
    ['POST /people', { ...person, password: 'short' }],
    ['POST /people', { ...person, role: 'owner' }],
  ]);
  await mixer.done('/people', person);
  const wrong = await tryLogin(service, 'Ana', 'not this one');
  expectSpanish(wordsOf(wrong.json));
  expect(inSpanish(wrong.json.title)).toBe('Primero inicie sesión');
  await expectRefusals([['GET /lots']]);
});
