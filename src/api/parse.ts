import type { z } from 'zod';
import { type FieldError, jsonPointer, Problem } from './problem.ts';

/**
 * Parses a value that came from outside.
 * @throws Problem 'invalid-request' with a pointer and a remedy for every fault.
 */
export function parseOrProblem<Output>(schema: z.ZodType<Output>, value: unknown): Output {
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const errors = parsed.error.issues.flatMap((issue) => errorsOf(issue, value));
  throw new Problem(
    'invalid-request',
    errors.length === 1 ? 'One field is wrong.' : `${errors.length} fields are wrong.`,
    {
      errors,
    },
  );
}

function errorsOf(issue: z.core.$ZodIssue, value: unknown): FieldError[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      pointer: jsonPointer([...issue.path, key]),
      message: `unknown field "${key}"; check its spelling or take it out`,
    }));
  }
  if (issue.code === 'invalid_union') return unionErrors(issue, value);
  return [{ pointer: jsonPointer(issue.path), message: issue.message }];
}

/** Of the forms a field may have, the one that the value is nearest to speaks. */
function unionErrors(
  issue: Extract<z.core.$ZodIssue, { code: 'invalid_union' }>,
  value: unknown,
): FieldError[] {
  const given = issue.path.reduce<unknown>(
    (at, step) => (at as Record<PropertyKey, unknown> | undefined)?.[step],
    value,
  );
  const sameKind = issue.errors.filter(
    (branch) => !branch.some((one) => one.path.length === 0 && isKindMismatch(one, given)),
  );
  const [nearest] = sameKind;
  if (!nearest || issue.errors.length === 0)
    return [{ pointer: jsonPointer(issue.path), message: issue.message }];
  return nearest.flatMap((one) => errorsOf({ ...one, path: [...issue.path, ...one.path] }, value));
}

function isKindMismatch(issue: z.core.$ZodIssue, given: unknown): boolean {
  if (issue.code === 'invalid_value') return typeof given !== 'string';
  return issue.code === 'invalid_type' && issue.input === given;
}
