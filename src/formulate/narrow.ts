import type { Supply } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import { divisionKg } from '../batch/scale.ts';
import { exact, multiply, toNumber } from '../exact.ts';
import { type ChosenLots, NONE_KG } from './choose-lots.ts';
import { loadsOf } from './load-size.ts';
import type { FloorWishes } from './request.ts';
import { divisionsWithin } from './round.ts';
import { chooseScale } from './scales.ts';

/**
 * The supplies as a choice of lots leaves them: boxes fixed at their count, lots that were not chosen taken out
 * where every lot counts, least amounts asked of those that were. The rest of the work is a blend like any other.
 */
export function narrowSupplies(
  supplies: readonly Supply[],
  { massesKg, boxes }: ChosenLots,
  { mostLots, simplestWithin }: FloorWishes,
  plant: Plant,
): Supply[] {
  const loads = loadsOf(massesKg, plant);
  const everyLotCounts = mostLots !== undefined || simplestWithin !== undefined;
  return supplies.flatMap((supply, column) => {
    const massKg = massesKg[column] ?? 0;
    const count = boxes.get(column);
    const boxKg = supply.lot?.boxKg;
    if (count !== undefined && boxKg !== undefined) {
      return count === 0 ? [] : [inBoxes(supply, count, boxKg, loads, plant)];
    }
    const isChosen = massKg > NONE_KG;
    const { leastIfUsedKg } = supply;
    if (leastIfUsedKg !== undefined) {
      return isChosen ? [{ ...supply, leastKg: Math.max(supply.leastKg ?? 0, leastIfUsedKg) }] : [];
    }
    return isChosen || !everyLotCounts || !isMeat(supply.material) ? [supply] : [];
  });
}

/** Whole boxes as nearly as equal loads can be weighed out of them: less than a division a load stays behind. */
function inBoxes(supply: Supply, count: number, boxKg: number, loads: number, plant: Plant): Supply {
  const massKg = count * boxKg;
  const step = multiply(divisionKg(chooseScale(massKg / loads, plant.scales)), exact(loads));
  // A box may hold a hair less than a whole division by the arithmetic of its unit alone.
  const weighedKg = toNumber(multiply(exact(divisionsWithin(massKg + 1e-9, step)), step));
  return { ...supply, leastKg: weighedKg, mostKg: weighedKg, boxes: count };
}
