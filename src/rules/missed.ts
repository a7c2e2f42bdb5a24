import { compare, type Exact, exact, multiply, subtract, ZERO } from '../exact.ts';
import { inShownUnit, type Unit } from './limit.ts';

/**
 * Share of its bound by which a figure of the house may be missed: as much as weights within their tolerance move it,
 * since the cheapest blend lies at its bounds. The law is not missed by anything. Own judgement.
 *
 * The lean and fat on a label are such a figure. Packs may be printed from the plan, so a label must not change for a
 * gram of fat; but a promise that is untrue must not go out. One bound decides both: up to it the pair stays on the
 * label, beyond it the pair is dropped and the product is held. An analysis may find a fifth more fat than is declared
 * (9 CFR 317.309(h)(5)); this is a twentieth of that.
 */
const HOUSE_SLACK = exact('0.01');

/** A fraction in the unit people read, to the twelve digits that are kept of it; 0 where there is nothing to measure. */
export function shownValue(value: number, unit: Unit): number {
  return Number.isNaN(value) ? 0 : Number(inShownUnit(value, unit).toPrecision(12));
}

/** Whether a figure of the house lies further from its bound than its slack, both as shown. */
export function isBeyondSlack(value: number, bound: number): boolean {
  const apart = magnitude(subtract(exact(value), exact(bound)));
  return compare(apart, multiply(magnitude(exact(bound)), HOUSE_SLACK)) > 0;
}

function magnitude(value: Exact): Exact {
  return value.digits < 0n ? subtract(ZERO, value) : value;
}
