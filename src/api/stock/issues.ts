import type { FieldIssue } from '../../tables/json.ts';
import { fieldErrors, Problem } from '../problem.ts';

/** Refuses what is well formed and cannot be so. @throws Problem 'cannot-be-used' when there is any issue. */
export function refuseIssues(issues: readonly FieldIssue[]): void {
  if (issues.length === 0) return;
  const detail =
    issues.length === 1 ? 'One thing stands in the way.' : `${issues.length} things stand in the way.`;
  throw new Problem('cannot-be-used', detail, { errors: fieldErrors(issues) });
}
