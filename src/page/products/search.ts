const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase();

/**
 * Items in whose text every word that is typed begins a word or stands within one, accents aside; those whose text begins
 * with what is typed come first. Nothing is found for nothing.
 */
export function matching<Item>(
  items: readonly Item[],
  typed: string,
  textOf: (item: Item) => string,
): readonly Item[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [];
  const found = items
    .map((item) => ({ item, text: plain(textOf(item)) }))
    .filter(({ text }) => wanted.every((word) => text.includes(word)));
  const isFirst = ({ text }: { text: string }) => (text.startsWith(wanted.join(' ')) ? 0 : 1);
  return found.sort((one, other) => isFirst(one) - isFirst(other)).map(({ item }) => item);
}
