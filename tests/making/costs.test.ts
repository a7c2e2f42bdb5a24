import { describe, expect, test } from 'vitest';
import type { Step } from '../../src/making/batch.ts';
import { batchCosts } from '../../src/making/costs.ts';
import type { Basis } from '../../src/making/standing.ts';
import type { Supplies } from '../../src/making/weighing.ts';

/** A cooked sausage of 60 kg lean and 40 kg fat meat, worked out by hand. Prices by the kilogram. */

const meat = (id: string, fatFraction: number, costPerKg: number) => ({
  id,
  material: { id: `${id}-trim`, name: id, kind: 'skeletal meat', species: 'pork' },
  composition: { fatFraction },
  costPerKg,
});
const SUPPLIES = new Map(
  [meat('LEAN', 0.1, 6), meat('FAT', 0.5, 2)].map((supply) => [supply.id, supply]),
) as unknown as Supplies;
const BASIS = {
  product: {
    targets: [{ measure: 'fat', max: 0.32 }],
    label: {},
    process: { cooking: 'cooked', smoked: true, yieldFraction: 0.9 },
  },
} as unknown as Basis;

const kg = (massKg: number) => massKg * 1e9;
const step = (number: number, kind: string, body: object) => ({
  number,
  kind,
  body,
  at: '',
  day: '',
  person: '',
});
const weighing = (number: number, lotId: string, massKg: number) =>
  step(number, 'weighing', { load: 1, line: number, materialId: `${lotId}-trim`, lotId, massUg: kg(massKg) });
const weighed = (fatFraction: number) => step(5, 'weighed', { makeup: { fatFraction } });

const PLANNED = step(1, 'planned', { loads: 1, batchUg: kg(100), cost: 430, currency: 'USD', lines: [] });
const IN = [PLANNED, weighing(2, 'LEAN', 60), weighing(3, 'FAT', 40)];

function costs(steps: readonly object[], setAside: readonly object[] = []) {
  return batchCosts(steps as readonly Step[], { basis: BASIS, supplies: SUPPLIES }, setAside as never);
}

describe('the costs of a batch', () => {
  test('are those of the weights on the scales, beside the plan', () => {
    expect(costs(IN)).toEqual({
      currency: 'USD',
      planned: { massKg: 100, cost: 430 },
      weighed: { massKg: 100, cost: 440 },
      materials: [
        { materialId: 'LEAN-trim', name: 'LEAN', massKg: 60, cost: 360 },
        { materialId: 'FAT-trim', name: 'FAT', massKg: 40, cost: 80 },
      ],
    });
  });

  test('leave out what was taken back, and a batch with nothing in it', () => {
    const back = step(4, 'taken back', { step: 3, reason: 'wrong lot' });
    expect(costs([...IN, back])?.weighed).toEqual({ massKg: 60, cost: 360 });
    expect(costs([PLANNED])).toBeUndefined();
  });

  test('of lean given away: two points on 90 kg finished, at 4 a kilogram between meats 40 points apart', () => {
    const away = costs([...IN, weighed(0.3)])?.givenAway;
    expect(away?.points).toBeCloseTo(2, 9);
    // 90 kg × 0.02 = 1.8 kg of fat; (6 - 2) / (0.5 - 0.1) = 10 for each.
    expect(away?.cost).toBeCloseTo(18, 9);
  });

  test('of lean follow the fat test of the whole batch, and are nothing when it is fatter than it may be', () => {
    const tested = step(6, 'tested', { fatFraction: 0.33, makeup: { fatFraction: 0.36 } });
    expect(costs([...IN, weighed(0.3), tested])?.givenAway).toMatchObject({ fatFraction: 0.36, cost: 0 });
  });

  test('cannot tell what lean is worth by one meat alone', () => {
    expect(costs([PLANNED, weighing(2, 'LEAN', 60), weighed(0.1)])?.givenAway).not.toHaveProperty('cost');
  });

  test('of what was lost and kept: 80 kg product, 3 kg raw rework, 2 kg thrown away after cooking', () => {
    const mass = (massKg: number) => ({ massUg: kg(massKg) });
    const finished = step(7, 'finished', {
      output: mass(80),
      rework: [{ stage: 'raw', ...mass(3) }],
      discarded: [{ stage: 'finished', ...mass(2) }],
      lossUg: kg(15),
      yieldFraction: 82 / 97,
      // (440 - 3 × 4.40) / 80
      costPerKg: 5.335,
      makeup: { fatFraction: 0.3 },
    });
    const found = costs([...IN, weighed(0.3), finished])?.finished;
    expect(found?.output.cost).toBeCloseTo(426.8, 9);
    expect(found?.rework).toEqual({ massKg: 3, cost: 3 * 4.4 });
    // 2 kg cooked were 2 / 0.9 kg raw at 4.40.
    expect(found?.discarded.cost).toBeCloseTo((2 / 0.9) * 4.4, 9);
    // 97 kg went in to be cooked; a tenth of it is the declared loss.
    expect(found?.lossBeyondYield.massKg).toBeCloseTo(15 - 9.7, 9);
    expect(found?.lossBeyondYield.cost).toBeCloseTo((5.3 / 0.9) * 4.4, 9);
    const later = step(8, 'set aside', { rework: { stage: 'finished', ...mass(10) }, reason: 'broken' });
    const kept = costs([...IN, weighed(0.3), finished], [later])?.finished;
    expect(kept?.output.massKg).toBeCloseTo(70, 9);
    expect(kept?.rework.cost).toBeCloseTo(3 * 4.4 + 10 * 5.335, 9);
  });
});
