import type { Scale } from '../batch/plant.ts';
import { capacityKg, divisionKg } from '../batch/scale.ts';
import { toNumber } from '../exact.ts';

/** A line should be at least this many divisions of its scale: half a division is then 0.25 % of it. */
const COMFORTABLE_DIVISIONS = 200;

/**
 * Recommended least load of a class III scale, in divisions (NIST Handbook 44, UR.3.1, table 8; read in a
 * secondary text). Below it the sheet warns.
 */
export const LEAST_DIVISIONS = 20;

/**
 * The coarsest scale that can carry the weight and still weighs it finely enough; failing that the finest
 * that can carry it; a weight above every scale is weighed in several drafts on the largest.
 * @param scales at least one.
 */
export function chooseScale(massKg: number, scales: readonly Scale[]): Scale {
  const byDivision = [...scales].sort((a, b) => toNumber(divisionKg(b)) - toNumber(divisionKg(a)));
  const fits = byDivision.filter((scale) => capacityKg(scale) >= massKg);
  const comfortable = fits.find((scale) => massKg >= COMFORTABLE_DIVISIONS * toNumber(divisionKg(scale)));
  const largest = scales.reduce((best, scale) => (capacityKg(scale) > capacityKg(best) ? scale : best));
  return comfortable ?? fits.at(-1) ?? largest;
}
