import { add, compare, type Exact, exact, multiply, ratio, ZERO } from '../../exact.ts';
import type { SulfiteRule } from '../markets/market.ts';
import { type LabelBatch, putIn } from '../put-in.ts';

export interface Sulfites {
  /** Sulfur dioxide put in, over the weight of the finished product: what is lost on standing is not taken off. */
  readonly mgPerKg: number;
  /** Whether it has to be declared; compared exactly. */
  readonly isDeclared: boolean;
}

/** Sulfites of the finished product; undefined where none went in. */
export function sulfitesOf({ lines, finishedKg }: LabelBatch, rule: SulfiteRule): Sulfites | undefined {
  let dioxideKg: Exact = ZERO;
  for (const { material, massKg } of putIn(lines)) {
    const share = material.substances['sulfur dioxide'] ?? 0;
    if (share > 0) dioxideKg = add(dioxideKg, multiply(massKg, exact(share)));
  }
  if (dioxideKg === ZERO) return undefined;
  const finished = exact(finishedKg);
  const beyond = compare(dioxideKg, multiply(finished, exact(`${rule.mgPerKg}e-6`)));
  return {
    mgPerKg: ratio(dioxideKg, finished) * 1e6,
    isDeclared: rule.isOpen ? beyond > 0 : beyond >= 0,
  };
}
