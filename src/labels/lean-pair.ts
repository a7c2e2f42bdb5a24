import type { Product } from '../batch/product.ts';
import { compare, exact, multiply, ratio } from '../exact.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import { isBeyondSlack, shownValue } from '../rules/missed.ts';
import { leanPairCitation, type Standard } from '../rules/standard.ts';
import { fatPercentOf, fixed, fractionOfPercent } from '../units.ts';
import type { Duty } from './names/named.ts';
import type { LabelBatch } from './put-in.ts';

/** Lean and fat together, and what is to be said where the batch is fatter than they promise. */
export interface LeanPair {
  readonly pair?: Duty;
  readonly caution?: string;
}

/**
 * The lean percent with the fat percent beside it, for ground product (9 CFR 317.362(f), of poultry 381.462(f)). A plan
 * is never fatter, and a batch as weighed by no more than the slack of a figure of the house: beyond it the pair is not
 * shown, and the product is held for the same reason. It is no "lean" claim, which has a test of its own.
 */
export function leanPair({ label, process }: Product, standard: Standard, batch: LabelBatch): LeanPair {
  if (label.leanPercent === undefined || !standard.naming.leanPair) return {};
  const fatPercent = fatPercentOf(label.leanPercent);
  const citation = leanPairCitation(standard);
  const pair = { text: `${label.leanPercent}% lean / ${fatPercent}% fat`, citation };
  const coefficients = new Coefficients(
    batch.lines.map(({ supply }) => supply),
    process,
  );
  const masses = batch.lines.map(({ exactMassKg }) => exactMassKg);
  const fat = coefficients.total(FORMS.finishedFat, masses);
  const finished = coefficients.total(FORMS.finished, masses);
  if (compare(fat, multiply(exact(fractionOfPercent(fatPercent)), finished)) <= 0) return { pair };
  const found = ratio(fat, finished);
  const holds = `the batch holds ${fixed(found * 100, 4)} % fat`;
  if (isBeyondSlack(shownValue(found, 'percent'), fatPercent)) {
    return { caution: `"${pair.text}" must not be shown: ${holds} (${citation}).` };
  }
  return {
    pair,
    caution: `"${pair.text}" stands, though ${holds}: as much as weighing and testing explain.`,
  };
}
