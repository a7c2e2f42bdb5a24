import { isMeat, type Material, POULTRY } from '../../batch/material.ts';
import type { Product } from '../../batch/product.ts';
import { add, compare, type Exact, exact, multiply, ratio, sum } from '../../exact.ts';
import { isPoultryProduct, type Standard } from '../../rules/standard.ts';
import { cite, type Interchange, type LastGroup, type Market } from '../markets/market.ts';
import { isEdible } from '../names/casing.ts';
import { type LabelBatch, putIn } from '../put-in.ts';
import type { DeclaredAllergen } from './allergen-words.ts';
import { casingEntry, type Entry, entriesOf, wholeOf } from './entries.ts';
import { type DeclaredMeatContent, meatContent } from './meat-content.ts';
import { meatSharesOf, quantitiesOf } from './quantities.ts';
import { entryRuns, plain, type Run, tidied } from './runs.ts';

/** One entry of an ingredient statement. */
export interface DeclaredIngredient {
  readonly name: string;
  /** Share of everything put in, water included; where water is ordered by what is left of it, of the finished product. */
  readonly fraction: number;
  /** Parts of a multi-part ingredient, as declared in brackets. */
  readonly parts: readonly string[];
  /** Whether it stands in the last group, whose order says nothing. */
  readonly inSmallGroup: boolean;
  /** Its amount as it is printed behind the name, where the market asks for it. */
  readonly quantity?: string;
  readonly allergens?: readonly DeclaredAllergen[];
  /** Joined to the next by "and": the two may change places. */
  readonly mayChangePlaces?: true;
}

export interface IngredientStatement {
  readonly ingredients: readonly DeclaredIngredient[];
  readonly text: string;
  /** The same for print: joined they are the text. Absent from statements kept before there were any. */
  readonly runs?: readonly Run[];
  readonly citation?: string;
}

/** What quantities and meat on the statement follow from; without it they are not given. */
export interface Characterized {
  readonly product: Product;
  readonly standard: Standard;
  /** Name of the product on the label. */
  readonly name: string;
  /** The meat content of the same batch, where it was worked out before. */
  readonly content?: DeclaredMeatContent | undefined;
  readonly casing?: Material | undefined;
}

/**
 * The ingredient statement by the rules of a market: common names in descending order of weight as put in (added
 * water, where the law says so, by what is left of it), rework by its own ingredients, class names, parts in brackets, and
 * last what may stand there in any order.
 */
export function ingredientStatement(
  market: Market,
  batch: LabelBatch,
  characterized?: Characterized,
): IngredientStatement {
  const rules = market.statement;
  const asked = rules.quantities && characterized;
  const entries = [
    ...entriesOf(market, batch, asked ? meatsOf(asked, batch) : []),
    ...(asked ? casingOf(market, asked) : []),
  ];
  const whole = wholeOf(rules, batch);
  const last = lastGroup(rules.lastGroup, entries, whole);
  const quantities = asked ? quantitiesOf(asked.product, asked.name, entries, batch.finishedKg) : undefined;
  const ordered = [
    ...entries.filter((entry) => !last.has(entry)),
    ...entries.filter((entry) => last.has(entry)),
  ];
  const written = (of: readonly Run[]) => (rules.isCapitalized ? tidied(of) : of);
  const joined =
    rules.interchange &&
    interchanging(
      rules.interchange,
      ordered.filter((entry) => !last.has(entry)),
      entries,
    );
  const runs = statementRuns(
    ordered.map((entry) => ({
      runs: written(entryRuns(market, entry, quantities?.get(entry))),
      isLast: last.has(entry),
      isJoined: entry === joined,
    })),
    rules.lastGroup.words,
  );
  return {
    ingredients: ordered.map((entry) => {
      const { name, parts, massKg, allergens } = entry;
      const quantity = quantities?.get(entry);
      return {
        name,
        parts,
        fraction: ratio(massKg, whole),
        inSmallGroup: last.has(entry),
        ...(quantity !== undefined && { quantity }),
        ...(allergens.length > 0 && { allergens }),
        ...(entry === joined && { mayChangePlaces: true }),
      };
    }),
    text: runs.map(({ text }) => text).join(''),
    runs,
    citation: cite(rules, characterized && isPoultryProduct(characterized.standard)),
  };
}

/** Where quantities are asked for, a casing that is eaten is an ingredient like others. */
function casingOf(market: Market, { casing }: Characterized): Entry[] {
  return casing && isEdible(casing) ? [casingEntry(market, casing)] : [];
}

function meatsOf({ product, standard, content }: Characterized, batch: LabelBatch) {
  return meatSharesOf(
    standard,
    content ?? meatContent(product, standard, batch),
    batch.finishedKg,
    putIn(batch.lines).map(({ material }) => material),
  );
}

const SEASONINGS: readonly Material['kind'][] = ['spice', 'flavoring'];

function lastGroup({ bound, isOpen, kinds }: LastGroup, entries: readonly Entry[], whole: Exact): Set<Entry> {
  const most = multiply(exact(bound), whole);
  const keeps = (massKg: Exact) => (isOpen ? compare(massKg, most) < 0 : compare(massKg, most) <= 0);
  if (!kinds) return new Set(entries.filter(({ massKg }) => keeps(massKg)));
  const only = (entry: Entry, which: readonly Material['kind'][]) =>
    entry.materials.length > 0 && entry.materials.every(({ kind }) => which.includes(kind));
  // Seasonings go last together or not at all.
  const seasonings = entries.filter((entry) => only(entry, SEASONINGS));
  const additives = entries.filter((entry) => only(entry, kinds) && !seasonings.includes(entry));
  return new Set([
    ...(keeps(sum(seasonings.map(({ massKg }) => massKg))) ? seasonings : []),
    ...additives.filter(({ massKg }) => keeps(massKg)),
  ]);
}

/** Meat by the law: muscle, heart and tongue of livestock (9 CFR 301.2), so neither poultry nor other byproducts. */
const MEAT: readonly Material['kind'][] = [
  'skeletal meat',
  'cheek meat',
  'head meat',
  'heart meat',
  'tongue meat',
];

/** The first of two meats next to each other, before the last group, that may change places; undefined where there are none. */
function interchanging(
  { together, each }: Interchange,
  ordered: readonly Entry[],
  all: readonly Entry[],
): Entry | undefined {
  const block = sum(all.filter(({ materials }) => materials.every(isMeat)).map(({ putInKg }) => putInKg));
  const atLeast = (massKg: Exact, share: number) => compare(massKg, multiply(exact(share), block)) >= 0;
  return ordered.find((first, index) => {
    const second = ordered[index + 1];
    return (
      second &&
      [first, second].every((entry) => isLivestockMeat(entry) && atLeast(entry.massKg, each)) &&
      atLeast(add(first.massKg, second.massKg), together)
    );
  });
}

function isLivestockMeat({ materials }: Entry): boolean {
  return materials.every(({ kind, species }) => MEAT.includes(kind) && species && !POULTRY.includes(species));
}

interface Written {
  readonly runs: readonly Run[];
  readonly isLast: boolean;
  readonly isJoined: boolean;
}

function statementRuns(entries: readonly Written[], words: string | undefined): Run[] {
  const runs = entries.flatMap((entry, index) => {
    const before = entries[index - 1];
    const startsGroup = words !== undefined && entry.isLast && !before?.isLast;
    return [
      ...(before ? [plain(before.isJoined ? ' and ' : ', ')] : []),
      ...(startsGroup ? [plain(`${words}: `)] : []),
      ...entry.runs,
    ];
  });
  return tidied([...runs, plain('.')]);
}
