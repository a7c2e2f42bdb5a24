/** Numbers as people write and read them: with a decimal point or a decimal comma. */

export type DecimalMark = '.' | ',';

export type Parsed =
  | { readonly kind: 'empty' }
  | { readonly kind: 'wrong' }
  /** '1,234' on a device with a decimal point: a thousand, or one and a bit? */
  | { readonly kind: 'unclear'; readonly whole: string; readonly part: string }
  /** @property text digits with a point, as written: nothing of what a scale shows is lost. */
  | { readonly kind: 'number'; readonly value: number; readonly text: string };

/**
 * Reads a number that a person typed. Either mark is a decimal mark; the one that is not the device's own, before exactly
 * three digits, might also part thousands, and a guess there can be wrong by a factor of a thousand: it is asked.
 */
export function parseNumber(typed: string, mark: DecimalMark): Parsed {
  const text = typed.replaceAll(/[\s\u00a0\u202f]/g, '').replace('−', '-');
  if (text === '') return { kind: 'empty' };
  const found = /^(-?)(\d*)(?:([.,])(\d*))?$/.exec(text);
  if (!found) return { kind: 'wrong' };
  const [, sign = '', whole = '', used, part = ''] = found;
  if (whole === '' && part === '') return { kind: 'wrong' };
  if (used !== undefined && used !== mark && part.length === 3 && /^[1-9]\d{0,2}$/.test(whole)) {
    return { kind: 'unclear', whole: `${sign}${whole}${part}`, part: `${sign}${whole}${mark}${part}` };
  }
  const canonical = `${sign}${whole || '0'}${part === '' ? '' : `.${part}`}`;
  return { kind: 'number', value: Number(canonical), text: canonical };
}

/**
 * Figures within a sentence as this device writes them: those that stand before a unit, or before 'to' one that does. What
 * else holds a point (a section of the law, a day, a lot) stays as it is.
 */
export function sentenceWithMark(sentence: string, mark: DecimalMark): string {
  if (mark === '.') return sentence;
  return sentence
    .replace(/(\d)\.(\d+)(?= (?:%|ppm|percent|por ciento|points|puntos|lb|oz|kg|g)(?![\w]))/g, `$1${mark}$2`)
    .replace(/(\b(?:from|de) \d+)\.(\d+)(?= (?:to|a) \d)/g, `$1${mark}$2`);
}

/** Digits with a point as this device writes them. */
export function withMark(text: string, mark: DecimalMark): string {
  return mark === '.' ? text : text.replace('.', mark);
}
