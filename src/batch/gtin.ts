/**
 * Check digits of GS1 keys (GS1 General Specifications 7.9, from memory, verify; the same digit as in ISO/IEC 15420).
 */

/** Digits of the numbers that a pack of ours may carry: GTIN-8, GTIN-12, GTIN-13, GTIN-14. */
const GTIN_LENGTHS: readonly number[] = [8, 12, 13, 14];

/** The digit that makes the weighted sum a multiple of ten: from the right, weights are 3, 1, 3, 1, … */
export function gs1CheckDigit(body: string): string {
  const weighted = [...body].reverse().map((digit, index) => Number(digit) * (index % 2 === 0 ? 3 : 1));
  return String((10 - (weighted.reduce((total, one) => total + one, 0) % 10)) % 10);
}

/** What is wrong with a trade item number, in words that follow its value; undefined when it is right. */
export function gtinFault(gtin: string): string | undefined {
  if (!/^\d+$/.test(gtin) || !GTIN_LENGTHS.includes(gtin.length)) {
    return 'it must have 8, 12, 13 or 14 digits, its check digit the last';
  }
  const digit = gs1CheckDigit(gtin.slice(0, -1));
  if (digit === gtin.at(-1)) return undefined;
  return `its last digit must be ${digit}, the check digit of the others; look for a mistyped digit`;
}

/**
 * A number of 14 digits that starts with 9 names goods whose measure differs from pack to pack, and no other does
 * (GS1 General Specifications 2.1, from memory, verify).
 */
export function isVariableMeasure(gtin: string): boolean {
  return gtin.length === 14 && gtin.startsWith('9');
}
