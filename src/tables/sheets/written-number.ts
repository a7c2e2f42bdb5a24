/** Numbers as people write them in spreadsheets, as plain digits with a decimal point. */

export type ReadNumber = { readonly text: string } | { readonly fault: string };

/** 1,234 is a thousand and more to one and one and a quarter to another. */
const THREE_AFTER = { comma: /^-?[1-9]\d{0,2},\d{3}$/, point: /^-?[1-9]\d{0,2}\.\d{3}$/ };
const DECIMAL_COMMA = /^-?\d+,\d+$/;
const GROUPED_BY_COMMA = /^-?\d{1,3}(?:(?:,\d{3})+\.\d+|(?:,\d{3}){2,})$/;
const GROUPED_BY_POINT = /^-?\d{1,3}(?:(?:\.\d{3})+,\d+|(?:\.\d{3}){2,})$/;

/**
 * A number with decimal comma or point, and with groups of thousands where that can be told. What is no number stays as
 * it is, for whoever reads it next to refuse.
 * @param pointIsDecimal whether a point alone can only be the decimal sign, as where no file of that form has commas.
 */
export function readNumber(written: string, pointIsDecimal: boolean): ReadNumber {
  if (THREE_AFTER.comma.test(written) || (!pointIsDecimal && THREE_AFTER.point.test(written))) {
    const digits = written.replace(/[,.]/, '');
    const sign = written.includes(',') ? ',' : '.';
    return {
      fault: `can be read as ${digits} or as ${written.replace(',', '.')}; write ${digits} without a sign for thousands, or ${written}0 with one more decimal after the "${sign}"`,
    };
  }
  if (DECIMAL_COMMA.test(written)) return { text: written.replace(',', '.') };
  if (GROUPED_BY_COMMA.test(written)) return { text: written.replaceAll(',', '') };
  if (GROUPED_BY_POINT.test(written)) return { text: written.replaceAll('.', '').replace(',', '.') };
  return { text: written };
}

/** Plain digits with a decimal comma, so that they are read back as the same number. */
export function withDecimalComma(plain: string): string {
  const written = plain.replace('.', ',');
  return THREE_AFTER.comma.test(written) ? `${written}0` : written;
}
