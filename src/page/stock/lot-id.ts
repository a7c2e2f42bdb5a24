import type { MaterialAnswer } from './stock-types.ts';

/** Letters before the day: the id is written by hand too. */
const LONGEST = 24;

const CLOSING = /^(.+)-\d{4}(?:-\d+)?$/;

/**
 * An id for a lot that comes in: what names the trim, and the month and day of receipt, as on the lots before: B73-1126. A
 * second one of that day gets a number behind it.
 * @param before ids of earlier lots of the material, the latest first. @param taken ids that are in use.
 */
export function suggestedId(
  material: Pick<MaterialAnswer, 'id' | 'species'>,
  receivedDate: string,
  before: readonly string[],
  taken: ReadonlySet<string>,
): string {
  const prefix = before.map((id) => CLOSING.exec(id)?.[1]).find((found) => found !== undefined);
  const start = `${prefix ?? initials(material)}-${receivedDate.slice(5).replace('-', '')}`;
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? start : `${start}-${number}`;
    if (!taken.has(id)) return id;
  }
}

/** 'beef-trim-73' is B73, 'pork-jowl' PJ. */
function initials({ id, species }: Pick<MaterialAnswer, 'id' | 'species'>): string {
  const words = id.split(/[^A-Za-z0-9]+/).filter(Boolean);
  const lean = words.findLast((word) => /^\d+$/.test(word));
  const letters = species !== undefined && lean !== undefined ? words.slice(0, 1) : words;
  const named = letters.map((word) => (/^\d/.test(word) ? word : word.slice(0, 1).toUpperCase())).join('');
  return (lean !== undefined && species !== undefined ? `${named}${lean}` : named).slice(0, LONGEST);
}
