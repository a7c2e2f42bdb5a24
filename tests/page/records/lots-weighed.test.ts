import { describe, expect, it } from 'vitest';
import { lotsWeighed } from '../../../src/page/records/lots-weighed.ts';

type Line = Parameters<typeof lotsWeighed>[0];
type Load = Line['loads'][number];

const line = (
  ...weighings: readonly (readonly [lotId: string, value: string, unit: 'kg' | 'g'])[]
): Line => ({
  lotId: 'A',
  loads: weighings.map(
    ([lotId, value, unit]) => ({ weighings: [{ lotId, weight: { value, unit } }] }) as unknown as Load,
  ),
});

describe('the lots of a line', () => {
  it('are those that were weighed, the planned one first', () => {
    expect(lotsWeighed(line(['B', '1.5', 'kg'], ['A', '500', 'g'], ['B', '0.5', 'kg']))).toEqual([
      { lotId: 'A', kg: 0.5 },
      { lotId: 'B', kg: 2 },
    ]);
  });

  it('leave the planned one out where nothing of it went in', () => {
    expect(lotsWeighed(line(['B', '2', 'kg']))).toEqual([{ lotId: 'B', kg: 2 }]);
  });

  it('are the planned one with nothing where nothing was weighed', () => {
    expect(lotsWeighed(line())).toEqual([{ lotId: 'A', kg: 0 }]);
  });
});
