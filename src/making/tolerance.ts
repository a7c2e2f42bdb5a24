import { CURING_AGENTS, carries, RESTRICTED } from '../batch/carries.ts';
import { isMeat, type Material } from '../batch/material.ts';

/** How near a line has to come to its weight. Own judgement all of it, on the safe side of what the floor can do. */

/** Share of a line that no one cuts a piece of meat for. */
const SHARE = 0.01;
/** From here on a weight looks like a slip: of the pen, of the unit, of the line. */
const SLIP_SHARE = 0.1;
const SLIP_DIVISIONS = 2;

/** Micrograms by which a line may miss its weight without a reason. */
export interface Tolerance {
  readonly underUg: number;
  readonly overUg: number;
  /** Above the plan by more than this a reason is asked for at once. */
  readonly slipUg: number;
}

/**
 * A cure never goes above its weight, not by a division, and its lack shows after one: too much is against the law, too
 * little leaves the product unprotected. What else the law counts may be a division off; meat, water and plain
 * seasoning a hundredth. Rework counts as meat: what it brings along is a small part of it, and the limits count it.
 */
export function toleranceOf(material: Material, plannedUg: number, divisionUg: number): Tolerance {
  const isFree = isMeat(material) || material.kind === 'water';
  if (!isFree && carries(material, CURING_AGENTS)) return { underUg: divisionUg, overUg: 0, slipUg: 0 };
  const slipUg = Math.max(plannedUg * SLIP_SHARE, divisionUg * SLIP_DIVISIONS);
  const isCounted = !isFree && carries(material, RESTRICTED);
  const offUg = isCounted ? divisionUg : Math.max(divisionUg, Math.round(plannedUg * SHARE));
  return { underUg: offUg, overUg: offUg, slipUg };
}
