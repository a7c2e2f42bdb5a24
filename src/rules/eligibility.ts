import type { Supply } from '../batch/lot.ts';
import type { Process } from '../batch/product.ts';
import { compare, ZERO } from '../exact.ts';
import { coefficient } from './form.ts';
import type { Limit } from './limit.ts';

/** The first limit that leaves no room for any of this supply: a maximum of nothing of what it holds. */
export function forbiddenBy(limits: readonly Limit[], supply: Supply, process: Process): Limit | undefined {
  return limits.find(
    ({ sense, bound, numerator }) =>
      sense === 'max' && bound === 0 && compare(coefficient(numerator, supply, process), ZERO) > 0,
  );
}
