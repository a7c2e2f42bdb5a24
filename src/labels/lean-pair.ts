import type { Product } from '../batch/product.ts';
import { compare, exact, multiply, ratio } from '../exact.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import type { Standard } from '../rules/standard.ts';
import { fatPercentOf, fixed, fractionOfPercent } from '../units.ts';
import type { Duty } from './names/named.ts';
import type { LabelBatch } from './put-in.ts';

/** Lean and fat together, and why they may not be shown where the batch is too fat for them. */
export interface LeanPair {
  readonly pair?: Duty;
  readonly caution?: string;
}

/**
 * The lean percent with the fat percent beside it, for ground product (9 CFR 317.362(f)). It is shown only where the
 * fat of the batch, unrounded, is no more than the label says. It is no "lean" claim, which has a test of its own.
 */
export function leanPair({ label, process }: Product, { naming }: Standard, batch: LabelBatch): LeanPair {
  if (label.leanPercent === undefined || !naming.leanPair) return {};
  const fatPercent = fatPercentOf(label.leanPercent);
  const text = `${label.leanPercent}% lean / ${fatPercent}% fat`;
  const coefficients = new Coefficients(
    batch.lines.map(({ supply }) => supply),
    process,
  );
  const masses = batch.lines.map(({ exactMassKg }) => exactMassKg);
  const fat = coefficients.total(FORMS.finishedFat, masses);
  const finished = coefficients.total(FORMS.finished, masses);
  if (compare(fat, multiply(exact(fractionOfPercent(fatPercent)), finished)) <= 0) {
    return { pair: { text, citation: '9 CFR 317.362(f)' } };
  }
  const found = fixed(ratio(fat, finished) * 100, 4);
  return {
    caution: `"${text}" must not be shown: the batch holds ${found} % fat (9 CFR 317.362(f)).`,
  };
}
