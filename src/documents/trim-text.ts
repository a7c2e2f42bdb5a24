import type { TrimKnowledge } from '../batch/trim-learning.ts';
import { fixed } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** What past fat tests say of each supplier's trim, as a table. */
export function trimText({ items }: { readonly items: readonly TrimKnowledge[] }): string {
  if (items.length === 0) return 'No fat tests of lots are on file.';
  const percent = (fraction: number) => fixed(fraction * 100, 2);
  const table = textTable(
    [
      left('Est.'),
      left('Trim'),
      right('tests'),
      right('lots'),
      right('class %'),
      right('tested %'),
      right('expected %'),
      right('sd'),
      right('class weighs'),
      left('latest'),
    ],
    items.map((known) => [
      known.supplierEstablishment,
      known.materialId,
      String(known.tests),
      String(known.lots),
      percent(known.classMeanFraction),
      percent(known.testedMeanFraction),
      percent(known.meanFraction),
      percent(known.sdFraction),
      `${fixed(known.shrinkage * 100, 0)} %`,
      known.latestDate,
    ]),
  );
  return ["FAT EXPECTED OF THE NEXT LOT, by supplier's trim", ...table].join('\n');
}
