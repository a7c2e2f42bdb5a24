import { describe, expect, it } from 'vitest';
import { matching, searching } from '../../../src/page/figures/search.ts';

describe('a search', () => {
  const found = (typed: string) =>
    matching(['Black pepper', 'Jalapeño, fresh', 'Red pepper flakes', 'Pepper mash'], typed, (text) => text);

  it('takes every word anywhere, accents aside, beginnings first', () => {
    expect(found('pepper')).toEqual(['Pepper mash', 'Black pepper', 'Red pepper flakes']);
    expect(found('flakes  RED')).toEqual(['Red pepper flakes']);
    expect(found('jalapeno')).toEqual(['Jalapeño, fresh']);
    expect(found('salt')).toEqual([]);
    expect(found('  ')).toEqual([]);
  });

  it('with nothing typed leaves a list whole', () => {
    expect(['B73', 'PJ'].filter(searching(' '))).toEqual(['B73', 'PJ']);
  });
});
