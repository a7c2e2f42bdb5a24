import type { Supply } from '../batch/lot.ts';
import { isMeat, isRework } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import { compare, ZERO } from '../exact.ts';
import { forbiddenBy } from '../rules/eligibility.ts';
import { coefficient, formsOf, selects } from '../rules/form.ts';
import { type Limit, sourceOf } from '../rules/limit.ts';
import { percentOfFraction } from '../units.ts';
import type { LeftOut } from './blend.ts';
import type { Issue } from './request.ts';

export interface Choice {
  readonly usable: readonly Supply[];
  readonly leftOut: readonly LeftOut[];
  readonly issues: readonly Issue[];
}

/**
 * Which supplies may go into a batch of this product on this day, why the others may not, and what the
 * product needs that nothing supplies.
 */
export function chooseSupplies(
  supplies: readonly Supply[],
  product: Product,
  limits: readonly Limit[],
  date: string,
): Choice {
  const usable: Supply[] = [];
  const leftOut: LeftOut[] = [];
  for (const supply of supplies.filter((candidate) => hasPlace(candidate, product))) {
    const because = whyNot(supply, date) ?? againstTheStandard(supply, product, limits);
    if (because) leftOut.push({ supply, because });
    else usable.push(supply);
  }
  const issues = [
    ...unusableDemands(supplies, usable, leftOut),
    ...findGaps(usable, leftOut, product, limits),
  ];
  return { usable, leftOut, issues };
}

/** Whether the product has a part or a line for the material at all, or takes rework of the product it was. */
export function hasPlace(supply: Supply, { meatBlock, seasoning, rework }: Product): boolean {
  const { material } = supply;
  if (isRework(material)) {
    return material.reworkOf !== undefined && rework?.productIds.includes(material.reworkOf) === true;
  }
  return isMeat(supply.material)
    ? meatBlock.some((part) => selects(part, supply))
    : seasoning.some(({ materialId }) => materialId === supply.material.id);
}

function whyNot({ lot, onHandKg }: Supply, date: string): string | undefined {
  if (lot?.held !== undefined) return `on hold: ${lot.held}`;
  if (lot?.useByDate && lot.useByDate < date) return `past its use-by date ${lot.useByDate}`;
  if (lot && lot.receivedDate > date) return `received only on ${lot.receivedDate}`;
  return onHandKg > 0 ? undefined : 'nothing on hand';
}

function againstTheStandard(supply: Supply, product: Product, limits: readonly Limit[]): string | undefined {
  const limit = forbiddenBy(limits, supply, product.process);
  return limit && `${limit.says} (${sourceOf(limit)})`;
}

/** A least use of something that cannot go in at all must not be forgotten in silence. */
function unusableDemands(
  supplies: readonly Supply[],
  usable: readonly Supply[],
  leftOut: readonly LeftOut[],
): Issue[] {
  return supplies
    .filter((supply) => (supply.leastKg ?? 0) > 0 && !usable.includes(supply))
    .map((supply) => {
      const because =
        leftOut.find((entry) => entry.supply === supply)?.because ?? 'the product has no place for it';
      return {
        code: 'unusable-demand',
        path: ['use'],
        message: `At least some of ${supply.id} is asked for, but it cannot go in: ${because}. Take the demand out.`,
      };
    });
}

function findGaps(
  usable: readonly Supply[],
  leftOut: readonly LeftOut[],
  product: Product,
  limits: readonly Limit[],
): Issue[] {
  const { meatBlock, seasoning } = product;
  const issues: Issue[] = [];
  // Rework goes into a batch; it does not make one.
  const meat = usable.filter(({ material }) => isMeat(material) && !isRework(material));
  const rejected = (supplies: readonly LeftOut[]) =>
    supplies.map(({ supply, because }) => `${supply.id} is left out: ${because}`).join('; ');

  if (meat.length === 0) {
    const reasons = rejected(leftOut.filter(({ supply }) => isMeat(supply.material)));
    issues.push({
      code: 'no-meat',
      path: ['lots'],
      message: `No lot on hand can go into the meat block${reasons ? ` (${reasons})` : ''}. Receive a lot that fits it.`,
    });
  }
  meatBlock.forEach((part, index) => {
    if (meat.length === 0 || !part.minFraction || meat.some((supply) => selects(part, supply))) return;
    issues.push({
      code: 'no-supply',
      path: ['product', 'meatBlock', index],
      message: `No usable lot for "${part.name}", of which the product asks at least ${percentOfFraction(part.minFraction)} %. Receive a lot of it or ask for less of it.`,
    });
  });
  seasoning.forEach(({ materialId, minFraction }, index) => {
    if (usable.some(({ material }) => material.id === materialId)) return;
    const path = ['product', 'seasoning', index, 'materialId'];
    const out = leftOut.filter(({ supply }) => supply.material.id === materialId);
    if (out.some(({ supply }) => againstTheStandard(supply, product, limits))) {
      issues.push({
        code: 'against-the-standard',
        path,
        message: `${materialId} cannot be used: ${rejected(out)}. Take the line out of the product.`,
      });
    } else if (minFraction > 0) {
      const reasons = out.length > 0 ? ` (${rejected(out)})` : '';
      issues.push({
        code: 'no-supply',
        path,
        message: `${materialId} has neither a usable lot nor a price${reasons}. Receive a lot of it or give its price.`,
      });
    }
  });
  for (const limit of limits) {
    if (limit.sense !== 'present' || usable.some((supply) => isSureToCarry(limit, supply, product))) continue;
    issues.push({
      code: 'against-the-standard',
      path: ['product', 'seasoning'],
      message: `${limit.says} (${sourceOf(limit)}) Add a seasoning line for ${limit.numerator.says}, with more than 0 as its least rate.`,
    });
  }
  return issues;
}

/** A line that may be left at nothing does not make sure that the batch holds what it must. */
function isSureToCarry({ numerator }: Limit, supply: Supply, { seasoning, process }: Product): boolean {
  return (
    seasoning.some(({ materialId, minFraction }) => materialId === supply.material.id && minFraction > 0) &&
    formsOf(numerator).some((form) => compare(coefficient(form, supply, process), ZERO) > 0)
  );
}
