import { LABEL_STOCKS } from '../../documents/pdf/label/label-stock.ts';
import { type FieldIssue, shown } from '../../tables/json.ts';
import { fieldErrors, Problem } from '../problem.ts';

/** Refuses what is well formed and cannot be so. @throws Problem 'cannot-be-used' when there is any issue. */
export function refuseIssues(issues: readonly FieldIssue[]): void {
  if (issues.length === 0) return;
  const detail =
    issues.length === 1 ? 'One thing stands in the way.' : `${issues.length} things stand in the way.`;
  throw new Problem('cannot-be-used', detail, { errors: fieldErrors(issues) });
}

/** A label stock that is not there. */
export function stockIssues(id: string | undefined, path: FieldIssue['path']): FieldIssue[] {
  if (id === undefined || LABEL_STOCKS.some((stock) => stock.id === id)) return [];
  const known = LABEL_STOCKS.map((stock) => stock.id).join(', ');
  return [{ path, message: `${shown(id)} is no label stock; the stocks are ${known}` }];
}
