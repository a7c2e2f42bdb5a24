import fc from 'fast-check';
import { expect, it } from 'vitest';
import { placeOf, to } from '../../../src/page/shell/place.ts';

it('finds every place again that an address was made of', () => {
  const part = fc.string({ minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(part, fc.array(part, { maxLength: 3 }), (section, parts) => {
      expect(placeOf(to(section, ...parts))).toMatchObject({ section, parts });
    }),
  );
});

it('reads what stands behind the question mark, and an address that nobody made', () => {
  expect(placeOf('#/stock/receive?material=beef-trim-95').query.get('material')).toBe('beef-trim-95');
  expect(placeOf('')).toMatchObject({ section: '', parts: [] });
  expect(placeOf('#/stock/%E0%A4%A')).toMatchObject({ section: 'stock', parts: ['%E0%A4%A'] });
});
