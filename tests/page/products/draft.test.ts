import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ProductInput } from '../../../src/api/contract/line-limits.ts';
import { draftOf, type LineDraft, newDraft, newLine } from '../../../src/page/products/draft.ts';
import { forTrial, productOf } from '../../../src/page/products/to-product.ts';
import { parseProduct } from '../../../src/tables/products.ts';

const FOLDER = join(import.meta.dirname, '../../../demo-data/products');
const DEMO: readonly ProductInput[] = readdirSync(FOLDER).map((file) =>
  JSON.parse(readFileSync(join(FOLDER, file), 'utf8')),
);
const mark = fc.constantFrom('.', ',' as const);

const fraction = fc.integer({ min: 0, max: 100_000 }).map((parts) => parts / 100_000);
const range = fc
  .tuple(fraction, fraction)
  .map(([one, other]) => ({ minFraction: Math.min(one, other), maxFraction: Math.max(one, other) }));
const name = fc.stringMatching(/^[a-z][a-z ]{0,12}[a-z]$/);
const given = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined });
const weight = fc.record({
  value: fc.constantFrom('1', '0.250', '12.80'),
  unit: fc.constantFrom('lb', 'oz', 'kg', 'g' as const),
});

/** Products that use every field of the form. */
const product = fc
  .record({
    base: fc.constantFrom(...DEMO),
    seasoning: fc.uniqueArray(
      fc.tuple(
        name,
        fc.constantFrom('green weight', 'batch', 'finished weight' as const),
        fc.oneof(
          fraction.map((of) => ({ fraction: of })),
          range,
        ),
      ),
      { selector: ([material]) => material },
    ),
    part: fc.record({ name, ends: range }),
    rework: given(fc.record({ productIds: fc.constant(['bratwurst']), maxFraction: fraction })),
    targets: fc.uniqueArray(
      fc.record({
        measure: fc.constantFrom('fat', 'protein', 'water', 'salt', 'cost per kg' as const),
        min: fraction,
      }),
      { selector: ({ measure }) => measure },
    ),
    yieldFraction: fraction,
    lines: fc.array(name),
    pieceMass: given(
      fc.record({ value: fc.double({ min: 0.1, max: 900, noNaN: true }), unit: fc.constant('g' as const) }),
    ),
    packs: given(
      fc.array(fc.record({ id: name, netWeight: weight, tare: weight, pieces: fc.nat(50) }), {
        minLength: 1,
        maxLength: 3,
      }),
    ),
    leanPercent: given(fc.constantFrom(80, 92.7)),
    nutritionExemption: given(name),
  })
  .map(({ base, seasoning, part, rework, targets, yieldFraction, lines, pieceMass, ...label }) =>
    clean({
      ...base,
      meatBlock: [...base.meatBlock, { name: part.name, species: ['pork'], ...part.ends }],
      seasoning: seasoning.map(([materialId, basis, rate]) => ({ materialId, basis, ...rate })),
      rework,
      targets,
      process: { ...base.process, yieldFraction, grindPlates: lines, mixing: lines },
      form: { ...base.form, pieceMass },
      label: { storage: base.label.storage, ...label, claims: ['lean', 'product of usa'] },
    }),
  );

/** As it comes out of JSON: without what is undefined. */
const clean = (value: object): ProductInput => JSON.parse(JSON.stringify(value));

describe('a product in the form', () => {
  it.each(DEMO.map((demo) => [demo.id, demo] as const))('gives %s back as it was', (_id, demo) => {
    for (const of of ['.', ','] as const) {
      expect(productOf(draftOf(demo, of, 'lb'), of)).toEqual({ product: demo, unreadable: [] });
    }
  });

  it('gives any product back as it was', () => {
    fc.assert(
      fc.property(product, mark, (any, of) => {
        const typed = productOf(draftOf(any, of as '.' | ',', 'kg'), of as '.' | ',');
        expect(typed.unreadable).toEqual([]);
        expect(clean(typed.product)).toEqual(any);
      }),
    );
  });

  it('keeps what cannot be read out of the product, and says where it is', () => {
    const line: LineDraft = { ...newLine('salt'), rate: '1.8x' };
    const draft = { ...newDraft('us', 'lb', 'meat'), seasoning: [line], leanPercent: '1,234' };
    const { product: typed, unreadable } = productOf(draft, '.');
    expect(unreadable).toEqual(['/seasoning/0/fraction', '/label/leanPercent']);
    expect(typed.seasoning).toEqual([{ materialId: 'salt', basis: 'green weight' }]);
  });

  it('can be tried before it has names and rates', () => {
    const draft = {
      ...newDraft('us', 'lb', ''),
      productClass: 'uncooked-sausage',
      seasoning: [newLine('salt'), { ...newLine('ice'), isRange: true, min: '2' }],
    };
    expect(parseProduct(productOf(draft, '.').product).ok).toBe(false);
    const trial = forTrial(productOf(draft, '.').product);
    expect(parseProduct(trial)).toMatchObject({ ok: true });
    expect(trial.seasoning).toEqual([
      { materialId: 'salt', basis: 'green weight', fraction: 0 },
      { materialId: 'ice', basis: 'green weight', minFraction: 0.02, maxFraction: 0.02 },
    ]);
  });
});
