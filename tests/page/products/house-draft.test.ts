import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { floorDraftOf, floorOf } from '../../../src/page/products/floor-draft.ts';
import { type HouseRules, houseDraftOf, houseRulesOf } from '../../../src/page/products/house-draft.ts';

const RULES: HouseRules = {
  tighter: [
    { limitId: 'a', bound: 0.45, reason: 'room for the scale' },
    { limitId: 'b', bound: 120 },
  ],
  own: [
    {
      id: 'salt',
      says: 'Salt is at most 2.2 %.',
      numerator: 'saltPutIn',
      basis: 'finished',
      sense: 'max',
      bound: 2.2,
      unit: 'percent',
      products: ['bratwurst'],
    },
  ],
  switchedOff: [{ limitId: 'c', reason: 'an exemption of the plant', products: ['bratwurst'] }],
  certainty: [{ limitId: 'house-fat-max', confidence: 0.975 }],
};

describe('the rules of the house in the form', () => {
  it.each(['.', ','] as const)('are given back as they were, with the mark %s', (mark) => {
    expect(houseRulesOf(houseDraftOf(RULES, mark), mark)).toEqual(RULES);
  });

  it('are not sent while a figure is missing or cannot be read', () => {
    const draft = houseDraftOf(RULES, '.');
    const [first, ...rest] = draft.tighter;
    if (!first) throw new Error('no rule');
    for (const bound of ['', '4x']) {
      expect(houseRulesOf({ ...draft, tighter: [{ ...first, bound }, ...rest] }, '.')).toBeUndefined();
    }
  });
});

it('the habits of the floor are given back as they were', () => {
  const share = fc.integer({ min: 0, max: 500 }).map((thousandths) => thousandths / 1000);
  const floor = fc.record(
    {
      wholeBoxes: fc.constantFrom('all', 'frozen', ['B50-0306']),
      mostLots: fc.integer({ min: 1, max: 100 }),
      simplestWithin: share,
      olderFirstWithin: share,
      sizeWithin: share,
    },
    { requiredKeys: [] },
  );
  fc.assert(
    fc.property(floor, (any) => {
      const before = any as Parameters<typeof floorOf>[1];
      expect(floorOf(floorDraftOf(before, ','), before, ',')).toEqual(before);
    }),
  );
  expect(floorOf({ ...floorDraftOf({}, '.'), older: 'x' }, {}, '.')).toBeUndefined();
});
