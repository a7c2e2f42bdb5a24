import type { DecimalMark } from '../../figures/number.ts';

/** What the keys of our own pad do to the figure that stands there. */

export const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', 'mark', '0', 'back'] as const;
export type Key = (typeof KEYS)[number];

/** No scale shows more. */
const MOST_DIGITS = 9;

export function pressed(text: string, key: Key, mark: DecimalMark): string {
  if (key === 'back') return text.slice(0, -1);
  if (key === 'mark') {
    if (/[.,]/.test(text)) return text;
    return `${text === '' ? '0' : text}${mark}`;
  }
  if (text.replace(/\D/g, '').length >= MOST_DIGITS) return text;
  return text === '0' ? key : text + key;
}
