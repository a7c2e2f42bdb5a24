import { expect, it } from 'vitest';
import { ticks } from '../../../src/page/pictures/scale.ts';

it('marks round figures, and not too many', () => {
  expect(ticks([22, 38], 8)).toEqual([22, 24, 26, 28, 30, 32, 34, 36, 38]);
  expect(ticks([0.93, 1.27], 5)).toEqual([1, 1.1, 1.2]);
});
