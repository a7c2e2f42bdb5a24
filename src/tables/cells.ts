import { z } from 'zod';
import { isCountry, NO_COUNTRY } from '../batch/country.ts';
import type { Material } from '../batch/material.ts';
import { fractionOfPercent } from '../units.ts';
import { wordsOf } from './words.ts';

/** Readers of single cells: text in, the value in canonical units out, or a message that says the remedy. */

const DECIMAL = /^\d+(\.\d+)?$/;

export const textCell = z.string().min(1, 'is empty; fill it in');

export const optionalTextCell = z
  .string()
  .optional()
  .transform((text) => text || undefined);

export const decimalCell = z
  .string()
  .regex(DECIMAL, 'is not a plain number; write digits with a decimal point, such as 12.5')
  .transform(Number);

export const percentCell = z
  .string()
  .regex(DECIMAL, 'is not a plain number; write percent such as 27.5')
  .refine(
    (percent) => !(Number(percent) > 100),
    'is above 100; percent is expected, such as 28 for trim that is 72 % lean',
  )
  .transform(fractionOfPercent);

/** An empty cell means not determined, never zero. */
export const optionalDecimalCell = optional(decimalCell);
export const optionalPercentCell = optional(percentCell);

export const dateCell = z.iso.date('is not a calendar day; write it as 2026-11-25');
export const optionalDateCell = optional(dateCell);

export const optionalCountryCell = optional(z.string().refine(isCountry, NO_COUNTRY));

export function choiceCell<const Choice extends string>(choices: readonly Choice[]) {
  return z.enum(choices, { error: `is none of: ${choices.join(', ')}` });
}

/** 'milk; wheat' as a list of known words; an empty cell is an empty list. */
export function listCell<const Choice extends string>(choices: readonly Choice[]) {
  return wordsCell.pipe(z.array(choiceCell(choices)));
}

/** Free words separated by semicolons. */
export const wordsCell = z
  .string()
  .optional()
  .transform((text) => wordsOf(text ?? ''));

/** 'salt 93.75; nitrite 6.25' as fractions by name. */
export function percentsCell<const Name extends string>(names: readonly Name[]) {
  return wordsCell.transform((entries, context): Partial<Record<Name, number>> => {
    const fractions: Partial<Record<Name, number>> = {};
    for (const entry of entries) {
      const [, name, percent] = /^(.+?)\s+(\d+(?:\.\d+)?)$/.exec(entry) ?? [];
      const known = names.find((candidate) => candidate === name);
      if (!known || Number(percent) > 100) {
        context.addIssue({
          code: 'custom',
          message: `has "${entry}"; write a name and its percent, such as "${names[0]} 6.25"; the names are ${names.join(', ')}`,
        });
        return z.NEVER;
      }
      fractions[known] = fractionOfPercent(percent ?? '0');
    }
    return fractions;
  });
}

function optional<Output>(cell: z.ZodType<Output, string>) {
  return z
    .string()
    .optional()
    .transform((text) => text || undefined)
    .pipe(cell.optional());
}

/** A material id that the materials tables hold. */
export function knownMaterialCell(materials: ReadonlyMap<string, Material>) {
  return textCell.refine((id) => id === '' || materials.has(id), {
    error: ({ input }) =>
      `no such material${nearest(String(input), materials)}; correct the id or add the material to the materials tables`,
  });
}

/** A text that stands once in its column; build one for each reading, since it remembers what it has seen. */
export function uniqueCell(remedy: string) {
  const seen = new Set<string>();
  return textCell.refine((id) => id === '' || (!seen.has(id) && seen.add(id)), `stands twice; ${remedy}`);
}

/** A decimal that says so when it is negative. */
export function unsignedCell(remedy: string) {
  return z
    .string()
    .refine((text) => !text.startsWith('-'), `is negative; ${remedy}`)
    .pipe(decimalCell);
}

/** Names the known ids that share the first word, so that a slip can be seen at once. */
function nearest(id: string, materials: ReadonlyMap<string, Material>): string {
  const [firstWord = ''] = id.split('-');
  const similar = [...materials.keys()].filter((known) => known.split('-')[0] === firstWord);
  return similar.length > 0 ? ` (similar ids: ${similar.slice(0, 8).join(', ')})` : '';
}
