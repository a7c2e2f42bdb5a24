import { expect, it } from 'vitest';
import { idOf } from '../../../src/page/figures/id-of.ts';

it.each([
  ['House smoked paprika', 'house-smoked-paprika'],
  ['Chile jalapeño (rojo)', 'chile-jalapeno-rojo'],
  ['Salchicha de Jalapeño, 1/4 lb', 'salchicha-de-jalapeno-1-4-lb'],
  ['6.25 % cure', '6-25-cure'],
  ['  ', ''],
])('%s gets the id %s', (name, id) => expect(idOf(name)).toBe(id));

it('ends with no hyphen where a long name is cut off', () => {
  expect(idOf(`${'a'.repeat(59)} b`)).toBe('a'.repeat(59));
});
