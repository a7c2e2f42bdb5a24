import { z } from 'zod';
import { gtinFault, isVariableMeasure } from '../batch/gtin.ts';
import type { PackFormat } from '../batch/product.ts';
import { exact, multiply, toNumber } from '../exact.ts';
import { KILOGRAMS_PER, MASS_UNITS } from '../units.ts';
import { choiceField, idField, isSensibleMass, record, remedy, shown } from './json.ts';

/** How a product is packed for sale, in the form that its file has. */

const DECIMAL_TEXT = /^(?=.*[1-9])\d{1,7}(?:\.\d{1,6})?$/;

/** A weight whose digits stand on a label as they are written. */
const givenWeightField = record(
  {
    value: z
      .string(remedy('must be a text such as "1" or "0.25": its digits stand on the label as written'))
      .regex(DECIMAL_TEXT, remedy('must be a number above 0 such as "1" or "0.25"')),
    unit: choiceField(MASS_UNITS),
  },
  'must be a weight with its unit, such as {"value": "1", "unit": "lb"}',
).refine(
  ({ value, unit }) =>
    !DECIMAL_TEXT.test(value) || isSensibleMass(toNumber(multiply(exact(value), KILOGRAMS_PER[unit]))),
  {
    path: ['value'],
    error: ({ input }) => `${shown((input as { value: string }).value)}: it must be from 1 mg to 1000000 kg`,
  },
);

/** One pack of a product. */
export const packSchema = record(
  {
    id: idField,
    gtin: z
      .string(remedy('must be a text of 8, 12, 13 or 14 digits'))
      .superRefine((gtin, context) => {
        const fault = gtinFault(gtin);
        if (fault !== undefined) context.addIssue({ code: 'custom', message: `${shown(gtin)}: ${fault}` });
      })
      .exactOptional(),
    itemNumber: z
      .string(remedy('must be a text of five digits such as "01234"'))
      .regex(/^\d{5}$/, remedy('must have five digits such as "01234"'))
      .exactOptional(),
    netWeight: givenWeightField.exactOptional(),
    pieces: z
      .int(remedy('must be a whole number'))
      .min(1, remedy('must be at least 1'))
      .max(10_000, remedy('must be at most 10000'))
      .exactOptional(),
    tare: givenWeightField.exactOptional(),
    price: record(
      {
        amount: z
          .string(remedy('must be a text such as "4.99"'))
          .regex(/^(?=.*[1-9])\d{1,6}(?:\.\d{1,4})?$/, remedy('must be an amount above 0 such as "4.99"')),
        per: choiceField(['lb', 'kg']),
      },
      'must be a price such as {"amount": "4.99", "per": "lb"}',
    ).exactOptional(),
    labelStock: idField.exactOptional(),
  },
  'must be a pack with id, and netWeight unless each pack is weighed',
).superRefine(({ gtin, itemNumber, netWeight }, context) => {
  const refuse = (field: string, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message });
  if (netWeight && itemNumber !== undefined) {
    refuse(
      'itemNumber',
      `${shown(itemNumber)} is for packs that are priced by their weight; leave it out, or leave netWeight out`,
    );
  }
  if (gtin === undefined || gtinFault(gtin) !== undefined) return;
  if (!netWeight && !isVariableMeasure(gtin)) {
    refuse(
      'gtin',
      `${shown(gtin)}: the number of packs that differ in weight must have 14 digits and start with 9; give such a number, or netWeight`,
    );
  }
  if (netWeight && isVariableMeasure(gtin)) {
    refuse(
      'gtin',
      `${shown(gtin)} is a number of packs that differ in weight, for it starts with 9; give another number, or leave netWeight out`,
    );
  }
}) satisfies z.ZodType<PackFormat>;
