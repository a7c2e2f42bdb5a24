import type { z } from 'zod';
import { shown } from '../tables/json.ts';
import { type FieldError, jsonPointer, Problem } from './problem.ts';

/** Most faults named in one answer; more would not be read. */
const MOST_ERRORS = 100;
/** Longest name of a field that is repeated in a pointer. */
const LONGEST_NAME = 80;

/**
 * Parses a value that came from outside.
 * @throws Problem 'invalid-request' with a pointer and a remedy for every fault.
 */
export function parseOrProblem<Output>(schema: z.ZodType<Output>, value: unknown): Output {
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const errors = parsed.error.issues.flatMap((issue) => errorsOf(issue, value));
  const rest = errors.length > MOST_ERRORS ? ` The first ${MOST_ERRORS} are named.` : '';
  const detail = errors.length === 1 ? 'One field is wrong.' : `${errors.length} fields are wrong.${rest}`;
  throw new Problem('invalid-request', detail, { errors: errors.slice(0, MOST_ERRORS) });
}

function errorsOf(issue: z.core.$ZodIssue, value: unknown): FieldError[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      pointer: jsonPointer([...issue.path, key.slice(0, LONGEST_NAME)]),
      message: `${shown(key)}: ${issue.message}`,
    }));
  }
  if (issue.code === 'invalid_union') return unionErrors(issue, value);
  return [{ pointer: jsonPointer(issue.path), message: issue.message }];
}

/**
 * Of the forms that a field may have, the one that was meant speaks for itself: the only one of the kind of
 * value that was given, with the fields it must have. When none or several were meant the union speaks.
 */
function unionErrors(
  issue: Extract<z.core.$ZodIssue, { code: 'invalid_union' }>,
  value: unknown,
): FieldError[] {
  const given = issue.path.reduce<unknown>((at, step) => (at as Record<PropertyKey, unknown>)?.[step], value);
  const meant = issue.errors.filter((branch) => branch.every((one) => !isOfAnotherForm(one, given)));
  const ofKind = issue.errors.filter((branch) => branch.every((one) => !isOfAnotherKind(one)));
  const [only] = meant.length === 1 ? meant : ofKind.length === 1 ? ofKind : [];
  if (!only || given === undefined) return [{ pointer: jsonPointer(issue.path), message: issue.message }];
  return only.flatMap((one) => errorsOf({ ...one, path: [...issue.path, ...one.path] }, value));
}

function isOfAnotherKind({ code, path }: z.core.$ZodIssue): boolean {
  return path.length === 0 && (code === 'invalid_type' || code === 'invalid_value');
}

function isOfAnotherForm(issue: z.core.$ZodIssue, given: unknown): boolean {
  if (isOfAnotherKind(issue)) return true;
  if (issue.path.length === 0) return issue.code === 'unrecognized_keys';
  const [field] = issue.path;
  return (
    issue.path.length === 1 &&
    (given as Record<PropertyKey, unknown> | null)?.[field as PropertyKey] === undefined
  );
}
