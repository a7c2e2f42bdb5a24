import type { PackFormat, Product } from '../../batch/product.ts';
import { compare, type Exact, exact, multiply, toNumber, toText } from '../../exact.ts';
import type { ReferenceAmount } from '../../rules/standard.ts';
import { KILOGRAMS_PER } from '../../units.ts';
import { quotient } from './quotient.ts';
import { bands, nearest, rounded } from './rounding.ts';

/** A serving as a panel states it. */
export interface Serving {
  readonly size: string;
  readonly grams: Exact;
  /** Absent where it depends on a pack that the product does not name. */
  readonly count?: string;
}

const GRAMS_PER_KG = exact(1000);
/** For nutrition labels an ounce is 28 g (9 CFR 317.309(b)(7)(vii)). */
const GRAMS_PER_OUNCE = exact(28);
const HALF_OUNCE = exact('0.5');
/** 9 CFR 317.309(b)(9)(ii). */
const GRAMS = [bands.below('2', '0.1'), bands.below('5', '0.5'), bands.above('1')];
/** 9 CFR 317.309(b)(10)(i): between 2 and 5 servings to the nearest half, others to the nearest whole. */
const SERVINGS = [bands.below('2', '1'), bands.upTo('5', '0.5'), bands.above('1')];
const ONE_STEP = exact(1);
const times = (amount: Exact, factor: string) => multiply(amount, exact(factor));

const PLURALS = { link: 'links', patty: 'patties' } as const;

/**
 * The serving of the United States: a whole pack that holds less than two reference amounts, so many pieces, or
 * ounces of bulk product (9 CFR 317.309(b)(4), (6), (8)).
 */
export function servingOf(product: Product, { grams }: ReferenceAmount): Serving {
  const reference = exact(grams);
  const [pack] = product.label.packs ?? [];
  const net = pack && netGrams(pack);
  if (net && isOneServing(net, reference, pack)) {
    const whole = rounded(net, GRAMS).value;
    return { size: `1 package (${toText(whole)}g)`, grams: whole, count: '1 serving per container' };
  }
  // Packs that differ in weight may say "varied" only where the serving is in ounces: (b)(10)(iii).
  const isRandom = pack !== undefined && !net;
  const piece = isRandom ? undefined : pieceGrams(product, pack);
  const pieces = piece && piecesIn(piece, reference);
  const { shape } = product.form;
  if (piece && pieces && (shape === 'link' || shape === 'patty')) {
    const whole = rounded(multiply(piece, exact(pieces)), GRAMS).value;
    const size = `${pieces} ${pieces === 1 ? shape : PLURALS[shape]} (${toText(whole)}g)`;
    const perPack = pack?.pieces === undefined ? undefined : quotient(exact(pack.pieces), exact(pieces));
    const count = perPack ?? (net && quotient(net, whole));
    return { size, grams: whole, ...(count && { count: countText(count) }) };
  }
  return { ...inOunces(reference), ...(pack && { count: packCount(net, inOunces(reference).grams) }) };
}

/** Ounces in halves that come nearest to the reference amount: (b)(7)(iii). */
function inOunces(reference: Exact): Serving {
  const ounces = nearest(quotient(reference, GRAMS_PER_OUNCE), HALF_OUNCE);
  const grams = multiply(ounces, GRAMS_PER_OUNCE);
  return { size: `${toText(ounces)} oz (${toText(grams)}g)`, grams };
}

function packCount(net: Exact | undefined, serving: Exact): string {
  return net ? countText(quotient(net, serving)) : 'Varied servings per container';
}

/** 'About 3.5 servings per container'; 'about' only where it was rounded. */
export function countText(servings: Exact): string {
  const { value } = rounded(servings, SERVINGS);
  const number = `${toText(value)} serving${compare(value, ONE_STEP) === 0 ? '' : 's'} per container`;
  return compare(value, servings) === 0 ? number : `About ${number}`;
}

/** Less than two reference amounts; where it may be one or two servings, a pack of several pieces is two. */
function isOneServing(net: Exact, reference: Exact, { pieces = 1 }: PackFormat): boolean {
  const mayBeTwo =
    compare(reference, exact(100)) >= 0 && compare(net, times(reference, '1.5')) > 0 && pieces > 1;
  return compare(net, times(reference, '2')) < 0 && !mayBeTwo;
}

/**
 * Whole pieces that make a serving: (b)(4)(i) to (iv). Between a half and two thirds of the reference amount one or two
 * may be; two come nearer. Undefined for a piece of two reference amounts or more, which is no serving by itself.
 */
export function piecesIn(piece: Exact, reference: Exact): number | undefined {
  if (compare(piece, times(reference, '0.5')) <= 0) {
    return toNumber(nearest(quotient(reference, piece), ONE_STEP));
  }
  if (compare(piece, times(reference, '0.67')) < 0) return 2;
  return compare(piece, times(reference, '2')) < 0 ? 1 : undefined;
}

/** Net weight that a pack declares. */
export function netGrams({ netWeight }: PackFormat): Exact | undefined {
  if (!netWeight) return undefined;
  return multiply(multiply(exact(netWeight.value), KILOGRAMS_PER[netWeight.unit]), GRAMS_PER_KG);
}

/** What one piece weighs as it is sold: its part of the pack, or what is left of the raw piece. */
export function pieceGrams({ form, process }: Product, pack: PackFormat | undefined): Exact | undefined {
  const net = pack && netGrams(pack);
  if (net && pack.pieces) return quotient(net, exact(pack.pieces));
  if (form.pieceKg === undefined) return undefined;
  return multiply(multiply(exact(form.pieceKg), exact(process.yieldFraction)), GRAMS_PER_KG);
}
