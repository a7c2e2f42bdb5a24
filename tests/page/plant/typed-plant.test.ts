import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import demo from '../../../demo-data/plant.json' with { type: 'json' };
import type { PlantSettings } from '../../../src/page/plant/plant-types.ts';
import {
  differing,
  plantSettings,
  replacedSettings,
  scaleIds,
  typedPlant,
} from '../../../src/page/plant/typed-plant.ts';
import { plantSchema } from '../../../src/tables/plant.ts';

const DEMO = demo as unknown as PlantSettings;

describe('the plant in the fields of a form', () => {
  test.each(['.', ','] as const)('goes back as it came, with the decimal mark %s', (mark) => {
    expect(replacedSettings(DEMO, typedPlant(DEMO, mark), mark)).toEqual(DEMO);
  });

  test('keeps what the form does not show, and loses what was emptied', () => {
    const stands = { ...DEMO, floor: { olderFirst: true } } as PlantSettings;
    const typed = { ...typedPlant(stands, '.'), address: ' \n', labelStock: '', priceCode: 'none' as const };
    const { address: _, ...rest } = DEMO;
    expect(replacedSettings(stands, typed, '.')).toEqual({
      ...rest,
      floor: { olderFirst: true },
      printing: { paper: 'letter', language: 'en' },
    });
  });

  test('sends what is no number as it was typed, so that the service names the field', () => {
    const typed = typedPlant(DEMO, '.');
    const [floor] = typed.scales;
    if (!floor) throw new Error('the demonstration has scales');
    const wrong = {
      ...typed,
      mixer: { text: 'much', unit: 'lb' as const },
      scales: [{ ...floor, division: 'fine', capacity: '1,234' }],
    };
    const issues = plantSchema.safeParse(plantSettings(wrong, '.')).error?.issues ?? [];
    expect(issues.map(({ path }) => path.join('/')).sort()).toEqual([
      'mixerCapacity/value',
      'scales/0/capacity',
      'scales/0/division',
    ]);
  });

  test('says in which fields two states differ', () => {
    const one = typedPlant(DEMO, '.');
    expect(differing(one, { ...one, name: 'Other', scales: [] })).toEqual(['name', 'scales']);
    expect(differing(one, typedPlant(DEMO, '.'))).toEqual([]);
  });
});

test('every scale has an id of its own that the service takes, and old ones keep theirs', () => {
  const scale = fc.record({ id: fc.constantFrom('', '', 'floor', 'bench'), name: fc.string() });
  fc.assert(
    fc.property(fc.array(scale, { maxLength: 8 }), (typed) => {
      const scales = typed.filter(
        ({ id }, at) => id === '' || typed.findIndex((other) => other.id === id) === at,
      );
      const ids = scaleIds(scales);
      expect(new Set(ids).size).toBe(scales.length);
      for (const [at, { id }] of scales.entries()) {
        if (id !== '') expect(ids[at]).toBe(id);
        expect(ids[at]).toMatch(/^[a-z0-9]+(?:[.-][a-z0-9]+)*$/);
      }
    }),
  );
  expect(scaleIds([{ id: '', name: 'Báscula de piso' }])).toEqual(['bascula-de-piso']);
});
