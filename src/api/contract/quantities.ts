import { z } from 'zod';
import { choiceField, isSensibleMass, record, remedy, shown } from '../../tables/json.ts';
import { kilograms, MASS_UNITS, type Mass } from '../../units.ts';

/** Values as they travel in JSON, beside those that files and requests share (src/tables/json.ts). */

const unit = choiceField(MASS_UNITS);
const amount = (what: string) =>
  z
    .number(remedy('must be a number'))
    .min(0, remedy(`must not be negative; ${what}`))
    .max(1e6, remedy('must be at most 1000000'));

/** The size of a batch, of a box, of a share of a lot. */
export const massSchema = record(
  {
    value: z
      .number(remedy('must be a number'))
      .gt(0, remedy('must be above 0'))
      .max(1e9, remedy('must be at most 1000000 kg')),
    unit,
  },
  'must be a mass with its unit, such as {"value": 500, "unit": "lb"}',
)
  .refine((mass) => !(mass.value > 0) || isSensibleMass(kilograms(mass)), {
    path: ['value'],
    error: ({ input }) => `${shown((input as Mass).value)}: it must be from 1 mg to 1000000 kg`,
  })
  .meta({ id: 'Mass', description: 'A mass; the unit is never implied.' });

/** A stock may be zero, a batch may not. */
export const stockSchema = record(
  { value: amount('count the stock again'), unit },
  'must be a mass with its unit, such as {"value": 500, "unit": "lb"}',
).meta({ id: 'Stock', description: 'A mass on hand, zero when used up.' });

export const priceSchema = record(
  { amount: amount('a price is 0 or more'), per: unit },
  'must be a price with its unit, such as {"amount": 3.1, "per": "lb"}',
).meta({ id: 'Price', description: "A price in the plant's currency per unit of mass." });

export const dateSchema = z.iso
  .date(remedy('must be a calendar day such as 2026-11-25'))
  .meta({ description: 'A calendar day, YYYY-MM-DD.' });

/** Identifiers are printed on sheets and typed by hand. */
export const idSchema = z
  .string(remedy('must be a text'))
  .regex(
    /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/,
    remedy('must be 1 to 64 letters, digits, dots, dashes or underscores'),
  )
  .meta({ id: 'Id' });

export const textSchema = (most: number) =>
  z
    .string(remedy('must be a text'))
    .regex(/\S/, remedy('must not be empty'))
    .max(most, remedy(`must have at most ${most} characters`));

/** A list that names its own remedy and its longest length. */
export const listSchema = <Item extends z.ZodType>(item: Item, most: number, what: string) =>
  z.array(item, remedy(`must be a list of ${what}`)).max(most, {
    error: ({ input }) => `has ${(input as unknown[]).length} entries; it must have at most ${most}`,
  });

/** Why something was done; it stands in the books. */
export const reasonSchema = z
  .string(remedy('must say why'))
  .regex(/\S.{2,}\S/, remedy('must say why in a few words'))
  .max(300, remedy('must have at most 300 characters'));
