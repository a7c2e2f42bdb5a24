import type { Market } from '../markets/market.ts';
import { type DeclaredAllergen, namedAt } from './allergen-words.ts';
import type { Entry } from './entries.ts';

/** A stretch of text that is printed in one way; those of a statement join to its text. */
export interface Run {
  readonly text: string;
  readonly emphasized: boolean;
}

/** One entry as it stands in the statement: name, amount, parts in brackets, allergens made to stand out. */
export function entryRuns(market: Market, { name, parts, allergens }: Entry, quantity?: string): Run[] {
  const shown = market.allergens.emphasized ? allergens : [];
  const told = (allergen: DeclaredAllergen) =>
    [name, ...parts].some((text) => namedAt(text, allergen).length > 0);
  const behind = shown.filter((allergen) => !told(allergen)).map((allergen) => wordOf(market, allergen));
  const list = (texts: readonly string[]) =>
    texts.flatMap((text, index) => [
      ...(index > 0 ? [plain(', ')] : []),
      ...marked(withClass(market, text), shown),
    ]);
  const extra = behind.flatMap((word, index) => [...(index > 0 ? [plain(', ')] : []), emphasized(word)]);
  const inBrackets = [
    ...list(parts),
    ...(parts.length > 0 && extra.length > 0 ? [plain('; contains ')] : []),
    ...extra,
  ];
  return [
    ...marked(withClass(market, name), shown),
    ...(quantity ? [plain(` ${quantity}`)] : []),
    ...(inBrackets.length > 0 ? [plain(' ('), ...inBrackets, plain(')')] : []),
  ];
}

/** Runs with neighbors of one kind made one, the first letter large. */
export function tidied(runs: readonly Run[]): Run[] {
  const joined: Run[] = [];
  for (const run of runs) {
    const last = joined.at(-1);
    if (run.text === '') continue;
    if (last?.emphasized === run.emphasized)
      joined[joined.length - 1] = { ...last, text: last.text + run.text };
    else joined.push(run);
  }
  const [first, ...rest] = joined;
  if (!first) return [];
  return [{ ...first, text: `${first.text.charAt(0).toUpperCase()}${first.text.slice(1)}` }, ...rest];
}

export function plain(text: string): Run {
  return { text, emphasized: false };
}

function emphasized(text: string): Run {
  return { text, emphasized: true };
}

/** A text with every word in it that names one of these allergens made to stand out. */
function marked(text: string, allergens: readonly DeclaredAllergen[]): Run[] {
  const places = allergens.flatMap((allergen) => namedAt(text, allergen)).sort((a, b) => a.from - b.from);
  const runs: Run[] = [];
  let done = 0;
  for (const { from, to } of places) {
    if (to <= done) continue;
    runs.push(
      plain(text.slice(done, Math.max(from, done))),
      emphasized(text.slice(Math.max(from, done), to)),
    );
    done = to;
  }
  return [...runs, plain(text.slice(done))];
}

/** An additive with what it does before its name, where the market wants that. */
function withClass({ statement: { additiveClasses = [] } }: Market, text: string): string {
  const found = additiveClasses.find(({ which }) => which.test(text));
  return found ? `${found.word}: ${text}` : text;
}

/** The market's own word for an allergen; a grain keeps its name where a class stands for several. */
function wordOf({ allergens: { groups, sulfites } }: Market, allergen: DeclaredAllergen): string {
  if (allergen === 'sulfites') return sulfites.word;
  return groups.find(({ of }) => of.length === 1 && of[0] === allergen)?.word ?? allergen;
}
