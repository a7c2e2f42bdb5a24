import type { ReferenceAmount, Standard } from '../../rules/standard.ts';

/** Table of reference amounts for food (incorporated document), all from memory, verify. */
const KINDS: readonly {
  readonly says: string;
  readonly raw?: number;
  readonly cooked?: number;
  readonly classes: RegExp;
}[] = [
  { says: 'bacon', raw: 54, cooked: 15, classes: /bacon/ },
  { says: 'sausages', raw: 75, cooked: 55, classes: /^(?!liver|dry).*sausage/ },
  { says: 'luncheon meats, dry sausage, spreads', cooked: 55, classes: /^(dry|liver)-sausage$/ },
  { says: 'meat without sauce', raw: 125, cooked: 100, classes: /ground|patty|burger|meat-balls|cut/ },
];

/** The standard with its reference amounts, where one is known. */
export function withReferenceAmounts(standard: Standard): Standard {
  const kind = KINDS.find(({ classes }) => classes.test(standard.productClass));
  if (!kind) return standard;
  const amounts = standard.cooking.flatMap((cooking): [Standard['cooking'][number], ReferenceAmount][] => {
    const grams = cooking === 'raw' ? kind.raw : kind.cooked;
    if (grams === undefined) return [];
    const says = `${cooking === 'raw' ? 'raw' : 'ready to eat'}: ${kind.says}`;
    return [[cooking, { grams, says, citation: 'Table of Reference Amounts for Food', read: 'from memory' }]];
  });
  return { ...standard, referenceAmounts: Object.fromEntries(amounts) };
}
