import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RULE_SETS } from '../../src/standards/all.ts';

/** Lists say what runs; a folder that no list names would be dead without anyone noticing. */
describe('the lists beside their folders', () => {
  it('name every jurisdiction that has a folder, and no other', () => {
    const folders = readdirSync('src/standards', { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    expect(RULE_SETS.map(({ jurisdiction }) => jurisdiction).sort()).toEqual(
      folders.map(({ name }) => name).sort(),
    );
  });
});
