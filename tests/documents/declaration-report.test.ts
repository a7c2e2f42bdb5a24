import { describe, expect, it } from 'vitest';
import { declarationReport } from '../../src/documents/declaration-report.ts';
import type { Declaration } from '../../src/labels/declaration.ts';

const OF = { plant: 'Demo Plant', establishment: '00000' };

/** As the version before nutrition, claims and origin kept it. */
const KEPT: Declaration = {
  name: 'Bratwurst',
  qualifiers: [{ text: 'In pork casing', citation: '9 CFR 317.8(b)(37)' }],
  ingredients: {
    ingredients: [
      { name: 'pork', fraction: 0.92, parts: [], inSmallGroup: false },
      { name: 'seasoning', fraction: 0.01, parts: ['salt', 'pepper'], inSmallGroup: true },
    ],
    text: 'Pork, contains 2% or less of: seasoning (salt, pepper).',
  },
  allergens: { allergens: ['milk'], text: 'Contains: Milk.' },
  storage: { text: 'Keep Refrigerated', citation: '9 CFR 317.2(k)' },
  cautions: ['Check the labels of the suppliers.'],
};

const textOf = (label: Declaration) =>
  JSON.stringify(declarationReport(label, { ...OF, batchId: '261125-001' }));

describe('the declaration as a report', () => {
  it('prints labels that were kept before there was more', () => {
    const { title, parts } = declarationReport(KEPT, { ...OF, batchId: '261125-001' });
    expect(title).toBe('Label declaration, batch 261125-001');
    expect(parts.map((part) => part.title)).toEqual([
      'What the label must say',
      'Cautions',
      'Ingredients by their share of what was put in',
    ]);
    for (const said of ['In pork casing', '9 CFR 317.8(b)(37)', 'Contains: Milk.', 'salt, pepper', '92.000'])
      expect(textOf(KEPT)).toContain(said);
  });

  it('shows claims that do not hold as such, with the reason', () => {
    const claims = [
      {
        claim: 'lean',
        says: 'Lean',
        holds: false,
        because: '12 g fat in 100 g, 10 at most',
        citation: '9 CFR 317.362(e)',
      },
    ] as unknown as NonNullable<Declaration['claims']>;
    const text = textOf({ ...KEPT, claims });
    expect(text).toContain('["NO","Lean","12 g fat in 100 g, 10 at most","9 CFR 317.362(e)"]');
  });

  it('shows nutrition with each source once, and what is not known', () => {
    const text = textOf({
      ...KEPT,
      nutrition: {
        basis: 'Raw, as sold.',
        energyKcalPer100g: 250,
        energyKjPer100g: 1046,
        per100g: {
          fat: {
            amount: 20.1234,
            unit: 'g',
            from: [{ material: 'Pork trim', amount: 20.1234, source: 'USDA SR28' }],
            notKnown: [{ material: 'Mace', fraction: 0.0004 }],
          },
          protein: {
            amount: 15,
            unit: 'g',
            from: [{ material: 'Pork trim', amount: 15, source: 'USDA SR28' }],
            notKnown: [],
          },
        },
        cautions: ['Not for a label yet.'],
      },
    });
    for (const said of [
      '1046.0 kJ / 250.0 kcal',
      '20.123 g',
      'Mace, 0.04 %',
      'Not for a label yet.',
      'Raw, as sold.',
    ])
      expect(text).toContain(said);
    expect(text.match(/USDA SR28/g)).toHaveLength(1);
  });
});
