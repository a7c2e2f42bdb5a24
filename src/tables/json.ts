import { z } from 'zod';
import { fractionOfPercent, kilograms, MASS_UNITS, type Mass } from '../units.ts';
import { TableError } from './csv.ts';

/** One thing wrong in a JSON value: the way to the field, and what to do about it. */
export interface FieldIssue {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

export type Parsed<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly issues: readonly FieldIssue[] };

/** The error of a field: a text that shows the value it is about; an absent value is called missing. */
export function remedy(text: string) {
  return {
    error: ({ input }: { readonly input?: unknown }) =>
      input === undefined ? `is missing; it ${text}` : `${shown(input)}: it ${text}`,
  };
}

/** A value as a message shows it: never long, never deep, whatever was sent. */
export function shown(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? '[]' : 'a list';
  if (typeof value === 'object' && value !== null)
    return Object.keys(value).length === 0 ? '{}' : 'an object';
  if (typeof value !== 'string') return String(value);
  return JSON.stringify(value.length > LONGEST_SHOWN ? `${value.slice(0, LONGEST_SHOWN)}…` : value);
}

const LONGEST_SHOWN = 60;

/** An object that holds the fields of the shape and no others: a misspelt field must not go unseen. */
export function record<Shape extends z.ZodRawShape>(shape: Shape, missing: string) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `unknown field; the fields here are ${Object.keys(shape).join(', ')}`
        : remedy(missing).error(issue),
  });
}

export const nameField = z.string(remedy('must be a text')).regex(/\S/, remedy('must not be empty'));

export const idField = z
  .string(remedy('must be a text'))
  .regex(/^[a-z0-9]+(?:[.-][a-z0-9]+)*$/, remedy('must be small letters and digits joined by -'));

export function choiceField<const Choice extends string>(choices: readonly Choice[]) {
  return z.enum(choices, remedy(`must be one of: ${choices.join(', ')}`));
}

/** Below this a mass is a slip of the pen, above it no plant can hold it; both would break the arithmetic. */
const LEAST_MASS_KG = 1e-6;
const MOST_MASS_KG = 1e6;

/** A mass as people write it, with its unit, read as kilograms. */
export const massField = record(
  {
    value: z
      .number(remedy('must be a number'))
      .gt(0, remedy('must be above 0'))
      .max(1e9, remedy('must be at most 1000000 kg')),
    unit: choiceField(MASS_UNITS),
  },
  'must be a mass with its unit, such as {"value": 400, "unit": "lb"}',
)
  .refine((mass) => !(mass.value > 0) || isSensibleMass(kilograms(mass)), {
    path: ['value'],
    error: ({ input }) => `${shown((input as Mass).value)}: it must be from 1 mg to 1000000 kg`,
  })
  .transform(kilograms);

export function isSensibleMass(massKg: number): boolean {
  return massKg >= LEAST_MASS_KG && massKg <= MOST_MASS_KG;
}

/** A share of 1: nothing, or enough to be more than noise of the arithmetic. */
export const fractionField = z
  .number(remedy('must be a fraction such as 0.0175 for 1.75 %'))
  .min(0, remedy('must not be negative'))
  .max(1, { error: ({ input }) => aboveOne(Number(input)) })
  .refine((fraction) => fraction === 0 || fraction >= 1e-7, remedy('must be 0, or at least 0.0000001'));

export function aboveOne(value: number): string {
  const example = value <= 100 ? value : 1.75;
  return `${value} is above 1; write a fraction such as ${fractionOfPercent(example)} for ${example} %`;
}

/** Refuses the second of two entries with the same key, where it stands. */
export function refuseRepeats<Entry>(key: keyof Entry & string, remedyText: string) {
  return (entries: readonly Entry[], context: z.RefinementCtx): void => {
    const seen = new Set<unknown>();
    entries.forEach((entry, index) => {
      if (seen.has(entry[key])) {
        context.addIssue({
          code: 'custom',
          path: [index, key],
          message: `${shown(entry[key])} stands twice; ${remedyText}`,
        });
      }
      seen.add(entry[key]);
    });
  };
}

/** Parses a JSON value with a schema whose messages are written with the helpers above. */
export function parseFields<Output>(schema: z.ZodType<Output>, value: unknown): Parsed<Output> {
  const result = schema.safeParse(value);
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, issues: result.error.issues.flatMap(issuesOf) };
}

/**
 * Reads a JSON file with a parser of its value.
 * @throws TableError naming the file and the field of every fault.
 */
export function readJson<Value>(file: string, text: string, parse: (value: unknown) => Parsed<Value>): Value {
  const parsed = parse(jsonValue(file, text));
  if (parsed.ok) return parsed.value;
  throw new TableError(
    parsed.issues.map(({ path, message }) => ({
      file,
      ...(path.length > 0 && { column: pathText(path) }),
      message,
    })),
  );
}

function issuesOf(issue: z.core.$ZodIssue): FieldIssue[] {
  const path = issue.path.map((step) => (typeof step === 'number' ? step : String(step)));
  if (issue.code !== 'unrecognized_keys') return [{ path, message: issue.message }];
  return issue.keys.map((key) => ({ path: [...path, key], message: issue.message }));
}

function jsonValue(file: string, text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const { message } = error as SyntaxError;
    throw new TableError([
      { file, message: `is not valid JSON (${message}); look for a missing or surplus comma or quote` },
    ]);
  }
}

/** ['seasoning', 0, 'fraction'] as 'seasoning[0].fraction'. */
function pathText(path: readonly (string | number)[]): string {
  return path
    .map((step, index) => (typeof step === 'number' ? `[${step}]` : index === 0 ? step : `.${step}`))
    .join('');
}
