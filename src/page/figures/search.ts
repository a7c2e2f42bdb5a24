const plain = (text: string) => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** Whether a text holds every word that is typed, accents and capitals aside; with nothing typed every text does. */
export function searching(typed: string): (text: string) => boolean {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  return (text) => {
    if (wanted.length === 0) return true;
    const held = plain(text);
    return wanted.every((word) => held.includes(word));
  };
}

/** Items in whose text every word that is typed stands; those whose text begins with it come first. Nothing for nothing. */
export function matching<Item>(
  items: readonly Item[],
  typed: string,
  textOf: (item: Item) => string,
): readonly Item[] {
  const wanted = plain(typed).trim();
  if (wanted === '') return [];
  const isFirst = (item: Item) => (plain(textOf(item)).startsWith(wanted) ? 0 : 1);
  const holds = searching(typed);
  return items.filter((item) => holds(textOf(item))).toSorted((one, other) => isFirst(one) - isFirst(other));
}
