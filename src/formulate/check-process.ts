import type { Product } from '../batch/product.ts';
import type { Standard } from '../rules/standard.ts';
import type { Issue } from './request.ts';

/** Whether the process of a product is one that its standard knows; the limits are written for that one. */
export function checkProcess({ process }: Product, standard: Standard): Issue[] {
  const issues: Issue[] = [];
  const refuse = (field: keyof typeof process, message: string) =>
    issues.push({ code: 'against-the-standard', path: ['product', 'process', field], message });
  if (!standard.cooking.includes(process.cooking)) {
    refuse(
      'cooking',
      `"${process.cooking}": ${standard.says} is sold ${standard.cooking.join(' or ')}. Choose the class that fits, or correct the process.`,
    );
  }
  if (process.cooking !== 'cooked' && process.fatLossFraction > 0) {
    refuse(
      'fatLossFraction',
      `${process.fatLossFraction}: a ${process.cooking} product loses no fat. Write 0.`,
    );
  }
  if (process.cooking === 'raw' && !process.smoked && process.yieldFraction !== 1) {
    refuse(
      'yieldFraction',
      `${process.yieldFraction}: a raw product that is not smoked loses no weight. Write 1.`,
    );
  }
  return issues;
}
