import { CURING_AGENTS, carries } from '../batch/carries.ts';
import { isMeat, type Material } from '../batch/material.ts';
import { inUnitOf, type Place, type Supplies } from './weighing.ts';

/** Too little cure leaves a product unprotected, and where the law has no least of it no limit shows it. */

/** Share of its cure that a load may lack before what comes out is put on hold. Own judgement. */
const MOST_LACKING = 0.1;

/** Whether it is a cure by itself: meat that was cured is none. */
export function isCure(material: Material): boolean {
  return !isMeat(material) && carries(material, CURING_AGENTS);
}

/** Cures of which a load that was made has less than planned. */
export function shortOfCure(places: readonly Place[], supplies: Supplies): Place[] {
  const made = new Set(places.filter(({ weighings }) => weighings.length > 0).map(({ load }) => load));
  return places.filter(({ line, load, plannedUg, weighedUg, tolerance }) => {
    const material = supplies.get(line.supplyId)?.material;
    return (
      material !== undefined &&
      isCure(material) &&
      made.has(load) &&
      plannedUg - weighedUg > tolerance.underUg
    );
  });
}

/** Whether so much is missing that someone who plans has to decide what becomes of the product. */
export function isFarShort({ plannedUg, weighedUg }: Place): boolean {
  return plannedUg - weighedUg > plannedUg * MOST_LACKING;
}

/** 'Curing salt in load 2: 0 g of 265 g'. */
export function lackText({ line, load, weighedUg }: Place): string {
  return `${line.material} in load ${load}: ${inUnitOf(line, weighedUg)} of ${line.perLoad.value} ${line.perLoad.unit}`;
}
