/**
 * 'milk; wheat' as a list. White space around a word does not count. A backslash takes its meaning from the sign after
 * it, so that a word may hold a semicolon: 'salt\; iodized; water' are two.
 */
export function wordsOf(text: string): string[] {
  const signs = text.match(/\\[\s\S]|[\s\S]/g) ?? [];
  const words: string[][] = [[]];
  for (const sign of signs) {
    if (sign === ';') words.push([]);
    else words.at(-1)?.push(sign);
  }
  return words.flatMap(
    (word) =>
      trimmed(word)
        .map((sign) => (sign.length > 1 ? sign.slice(1) : sign))
        .join('') || [],
  );
}

/** A list as wordsOf reads it. */
export function textOfWords(words: readonly string[]): string {
  return words.map((word) => word.replaceAll(/[\\;]|^\s|\s$/g, '\\$&')).join('; ');
}

/** Signs that are white space and have no backslash, away from both ends. */
function trimmed(signs: readonly string[]): readonly string[] {
  const first = signs.findIndex((sign) => !/^\s$/.test(sign));
  const last = signs.findLastIndex((sign) => !/^\s$/.test(sign));
  return first < 0 ? [] : signs.slice(first, last + 1);
}
