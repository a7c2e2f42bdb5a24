import { FORMS } from '../../../src/rules/forms.ts';
import type { BasisName, FormName, Mark, PrintedRow } from '../row.ts';

/** The figure of a limit as its source prints it. */
export type Printed = readonly [
  id: string,
  limitId: string,
  published: number,
  numerator: FormName,
  basis: BasisName,
  source: string,
  mark: Mark,
];

/** Rows that hold the figure, the numerator and the basis of limits against what their sources print. */
export function printedRows(unit: PrintedRow['unit'], entries: readonly Printed[]): PrintedRow[] {
  return entries.map(([id, limitId, published, numerator, basis, source, mark]) => ({
    kind: 'printed',
    id,
    says: `${limitId} is ${published} ${unit} of ${FORMS[basis].says}.`,
    source,
    mark,
    limitId,
    published,
    unit,
    numerator: FORMS[numerator],
    basis: FORMS[basis],
  }));
}
