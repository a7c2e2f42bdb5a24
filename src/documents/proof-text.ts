import type { CostProof } from '../formulate/blend.ts';
import { fixed } from '../units.ts';

/** The proof of a cost in one sentence; the word "proven" stands nowhere else. */
export function proofText(
  { among, leastCost, aboveLeast, withinFraction }: CostProof,
  currency: string,
): string {
  // Rounded down: a bound rounded up would not be one.
  const money = (amount: number) => `${fixed(Math.floor(amount * 100 + 1e-9) / 100, 2)} ${currency}`;
  if (withinFraction === undefined) {
    return `Proven: no blend ${among} costs less than ${money(leastCost)}, and this one ${money(aboveLeast)} more.`;
  }
  return `Proven within ${percentUp(withinFraction)} %: no blend ${among}, within these limits and lots, costs less than ${money(leastCost)}.`;
}

/** Rounded up, so that the sentence stays true: 0.0093 % for 0.00926 %. */
function percentUp(fraction: number): string {
  const percent = fraction * 100;
  if (percent === 0) return '0';
  const digits = percent >= 1 ? 2 : Math.min(9, 1 - Math.floor(Math.log10(percent)));
  return fixed(Math.ceil(percent * 10 ** digits - 1e-9) / 10 ** digits, digits);
}
