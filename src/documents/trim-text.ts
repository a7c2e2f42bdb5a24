import { fixed } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

interface Known {
  readonly materialId: string;
  readonly supplierEstablishment: string;
  readonly tests: number;
  readonly lots: number;
  readonly classMeanFraction: number;
  readonly testedMeanFraction: number;
  readonly meanFraction: number;
  readonly shrinkage: number;
  readonly sdFraction: number;
  readonly latestDate: string;
}

/** What past fat tests say of each supplier's trim, as a table. */
export function trimText({ items }: { readonly items: readonly Known[] }): string {
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
