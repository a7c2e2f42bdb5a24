import { z } from 'zod';
import { MASS_UNITS } from '../../units.ts';

/** Values as they travel in JSON. Every message says what to write instead. */

const finite = (remedy: string) => z.number({ error: ({ input }) => unfit(input, remedy) });

function unfit(input: unknown, remedy: string): string {
  return input === undefined ? `is missing; ${remedy}` : `${JSON.stringify(input)} does not fit; ${remedy}`;
}

export const massSchema = z
  .strictObject(
    {
      value: finite('write a number')
        .positive({ error: ({ input }) => `${input} must be above 0` })
        .max(1e6, {
          error: ({ input }) => `${input} is beyond what a plant handles; at most 1000000`,
        }),
      unit: z.enum(MASS_UNITS, {
        error: ({ input }) => unfit(input, `the units are ${MASS_UNITS.join(', ')}`),
      }),
    },
    {
      error: (issue) => unknownOr(issue, 'write a mass with its unit, such as {"value": 500, "unit": "lb"}'),
    },
  )
  .meta({ id: 'Mass', description: 'A mass; the unit is never implied.' });

/** A stock may be zero, a batch may not. */
export const stockSchema = massSchema
  .extend({
    value: finite('write a number')
      .min(0, { error: ({ input }) => `${input} is negative; count the stock again` })
      .max(1e6),
  })
  .meta({ id: 'Stock', description: 'A mass on hand, zero when used up.' });

export const fractionSchema = finite('write a fraction such as 0.2 for 20 %')
  .min(0, { error: ({ input }) => `${input} is negative; a fraction is between 0 and 1` })
  .max(1, {
    error: ({ input }) =>
      `${input} is above 1; write a fraction, such as ${Number(input) / 100} for ${input} %`,
  });

export const priceSchema = z
  .strictObject(
    {
      amount: finite('write a price')
        .min(0, { error: ({ input }) => `${input} is negative; a price is 0 or more` })
        .max(1e6),
      per: z.enum(MASS_UNITS, {
        error: ({ input }) => unfit(input, `the units are ${MASS_UNITS.join(', ')}`),
      }),
    },
    {
      error: (issue) => unknownOr(issue, 'write a price with its unit, such as {"amount": 3.1, "per": "lb"}'),
    },
  )
  .meta({ id: 'Price', description: "A price in the plant's currency per unit of mass." });

export const dateSchema = z.iso
  .date({ error: ({ input }) => unfit(input, 'write a calendar day such as 2026-11-25') })
  .meta({ description: 'A calendar day, YYYY-MM-DD.' });

/** Identifiers are printed on sheets and typed by hand. */
export const idSchema = z
  .string({ error: ({ input }) => unfit(input, 'write a text') })
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, {
    error: ({ input }) => unfit(input, 'write 1 to 64 letters, digits, dots, dashes or underscores'),
  })
  .meta({ id: 'Id' });

export const textSchema = (most: number) =>
  z
    .string({ error: ({ input }) => unfit(input, 'write a text') })
    .min(1, 'is empty; write a text')
    .max(most, `is too long; at most ${most} characters`);

/** The message of an object: unknown fields are named elsewhere, everything else says what to write. */
export function unknownOr(issue: { code?: string; input?: unknown }, remedy: string): string | undefined {
  return issue.code === 'unrecognized_keys' ? undefined : unfit(issue.input, remedy);
}

export function choiceSchema<const Choice extends string>(choices: readonly Choice[]) {
  return z.enum(choices, { error: ({ input }) => unfit(input, `write one of: ${choices.join(', ')}`) });
}
