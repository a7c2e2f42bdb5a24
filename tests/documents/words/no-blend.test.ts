import { describe, expect, it } from 'vitest';
import type { WayOut } from '../../../src/formulate/blend.ts';
import { workOut } from '../../../src/formulate/work-out.ts';
import { demoProductJson, demoRequest, pounds } from '../../helpers/demo-requests.ts';
import { expectSpanish } from './known.ts';

/** Few lots, so that every way out is soon tried. */
const LOTS = (
  [
    ['LEAN', 'beef-trim-90', 400, 0.1],
    ['FAT', 'beef-trim-73', 300, 0.27],
  ] as const
).map(([id, materialId, mass, fatFraction]) => ({
  id,
  materialId,
  onHand: pounds(mass),
  cost: { amount: 2, per: 'lb' },
  box: pounds(60),
  measuredFat: { fatFraction, method: 'NIR' },
}));

const beefWith = (targets: object[]) => ({
  ...demoProductJson('ground-beef-80-20'),
  targets,
  label: { storage: 'keep refrigerated' },
});
const fat = (ends: object) => ({ measure: 'fat', ...ends });
const batch = (product: unknown, mass: number, more: object = {}) => ({
  product,
  batchSize: { total: pounds(mass) },
  lots: LOTS,
  ...more,
});

const cured = demoProductJson('smoked-sausage');
for (const line of cured.seasoning) if (line.materialId === 'curing-salt-6.25') line.fraction = 0.0026;

const REQUESTS: [string, object][] = [
  ['a target that no lot reaches', batch(beefWith([fat({ max: 0.03 })]), 100)],
  ['two targets out of reach', batch(beefWith([fat({ max: 0.03 }), { measure: 'protein', min: 0.4 }]), 100)],
  ['more than there is', batch('ground-beef-80-20', 900)],
  ['a rate of cure above the law', { product: cured, batchSize: { total: pounds(300) } }],
  ['whole boxes', batch('ground-beef-80-20', 100, { floor: { wholeBoxes: 'all' } })],
  ['one lot', batch('ground-beef-80-20', 100, { floor: { mostLots: 1 } })],
  [
    'more confidence than tests give',
    batch(beefWith([fat({ min: 0.18, max: 0.2 })]), 100, {
      certainty: [
        { limitId: 'house-fat-max', confidence: 0.99 },
        { limitId: 'house-fat-min', confidence: 0.99 },
      ],
    }),
  ],
  [
    'a least amount that is too fat',
    batch('ground-beef-80-20', 100, { use: [{ lotId: 'FAT', min: pounds(95) }] }),
  ],
];

describe('No blend, in Spanish', () => {
  const wayOuts: WayOut[] = [];

  it.each(REQUESTS)('says why, what fights and what helps: %s', (_, body) => {
    const found = workOut(demoRequest(body));
    if (found.outcome !== 'no blend' || !found.wayOut) throw new Error(found.outcome);
    wayOuts.push(found.wayOut);
    expectSpanish([
      ...found.because.map(({ message }) => message),
      ...found.wayOut.conflict.map(({ says }) => says),
      ...found.wayOut.repairs.map(({ says }) => says),
    ]);
    expectSpanish([
      `Any one of these leads to a blend: ${found.wayOut.repairs.map(({ says }) => says).join(' Or: ')}`,
    ]);
  });

  it('has met every kind of conflict and of way out', () => {
    expect([...new Set(wayOuts.flatMap(({ conflict }) => conflict.map(({ kind }) => kind)))].sort()).toEqual([
      'demand',
      'house',
      'law',
      'line',
      'size',
      'stock',
    ]);
    expect([...new Set(wayOuts.flatMap(({ repairs }) => repairs.map(({ kind }) => kind)))].sort()).toEqual([
      'buy',
      'confidence',
      'demand',
      'rate',
      'smaller batch',
      'target',
      'targets together',
      'wish',
    ]);
  });
});
