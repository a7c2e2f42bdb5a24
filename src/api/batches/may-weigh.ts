import type { Supply } from '../../batch/lot.ts';
import { isMeat, isRework, type Material } from '../../batch/material.ts';
import { hasPlace } from '../../formulate/choose-supplies.ts';
import { rulesOn } from '../../formulate/prepare.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { drawnUg, freeUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import type { PlannedLine, ScaleWeight } from '../../making/batch.ts';
import { weightUg } from '../../making/standing.ts';
import { linesOf, type Place, placesOf, slipOf } from '../../making/weighing.ts';
import { forbiddenBy, missingFigures } from '../../rules/eligibility.ts';
import { sourceOf } from '../../rules/limit.ts';
import { lotOrRefuse, reservedFor } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { massText } from '../../units.ts';
import { supplyNow } from '../blend-task.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { refuseUnfitForUse } from '../stock/take.ts';
import { floorOf, type OpenedBatch } from './opened.ts';

/** What may be weighed into a load and what not: asked before a weighing is booked, and when it is. */

function needsReason(message: string): Refused {
  return new Refused('needs a reason', `${message}. If it is right, say why in reason.`, ['reason']);
}

/** @throws Refused 'needs a reason' for another lot than the planned one. */
export function refuseUnexplained(
  { number, supplyId }: PlannedLine,
  taken: string | undefined,
  reason: string | undefined,
): void {
  if (reason !== undefined) return;
  throw needsReason(`Line ${number} is planned from ${supplyId}; ${taken} is another lot`);
}

/** A weight for a line, as far as it may be a slip. */
export interface Wanted {
  readonly load: number;
  readonly wantedUg: number;
  readonly isOther: boolean;
  readonly reason: string | undefined;
  readonly meant: boolean;
}

/** A slip of the pen must not take a lot. @throws Refused 'needs a reason'. */
export function refuseSlip(
  batch: OpenedBatch,
  line: PlannedLine,
  { load, wantedUg, isOther, reason, meant }: Wanted,
): void {
  // A reason for another lot is none for its weight.
  if (meant || (!isOther && reason !== undefined)) return;
  const slip = slipOf(placeOf(batch, line, load), wantedUg);
  if (!slip) return;
  const check = `${slip}. Check the weight, its unit and the line`;
  if (!isOther) throw needsReason(check);
  throw new Refused('needs a reason', `${check}. If it is right, send "meant": true and say in reason why.`, [
    'meant',
  ]);
}

/** One line in one load, with what is there. */
export function placeOf(batch: OpenedBatch, line: PlannedLine, load: number): Place {
  const place = placesOf(batch.steps, floorOf(batch)).find(
    (one) => one.line.number === line.number && one.load === load,
  );
  if (!place) throw new Error(`line ${line.number} has no place in load ${load}`);
  return place;
}

/** @throws Refused 'unfit' where there is no such line, or it does not go into that load. */
export function lineOf(batch: OpenedBatch, number: number, load: number): PlannedLine {
  const lines = linesOf(batch.steps);
  const line = lines.find((one) => one.number === number);
  if (!line) {
    throw new Refused('unfit', `There is no line ${number}; the lines are 1 to ${lines.length}`, ['line']);
  }
  if (line.loads.includes(load)) return line;
  throw new Refused('unfit', `Line ${number} goes into load ${line.loads.join(', ')}, not ${load}`, ['load']);
}

/** A lot in place of the planned one, with what is known of it. @throws Refused when it may not go in there. */
export function otherSupply(
  { basis, supplies }: OpenedBatch,
  plant: PlantBooks,
  line: PlannedLine,
  lotId: string,
): Supply {
  const supply = supplies.get(lotId) ?? supplyNow(plant, lotId, basis.date);
  const refuse = (why: string) =>
    new Refused('unfit', `${lotId} cannot go in: ${why}. Take another lot.`, ['lotId']);
  if (!supply) throw refuse('no such lot is on hand');
  const { product } = basis;
  const planned = supplies.get(line.supplyId)?.material;
  if (!planned || !standsIn(supply.material, planned)) {
    throw refuse(`line ${line.number} is ${line.material}, the lot is ${supply.material.name}`);
  }
  if (!hasPlace(supply, product)) throw refuse(`${product.name} has no place for ${supply.material.name}`);
  const { limits } = rulesOn(basis);
  const [missing] = missingFigures(limits, [supply], product.process);
  if (missing) throw refuse(`the ${missing.missing.constituent} of it is not known`);
  const limit = forbiddenBy(limits, supply, product.process);
  if (limit) throw refuse(`${limit.says} (${sourceOf(limit)})`);
  return supply;
}

/** Fresh meat stands in for meat of its species, everything else for nothing but itself. */
function standsIn(taken: Material, planned: Material): boolean {
  if (taken.id === planned.id) return true;
  const isFresh = (material: Material) => isMeat(material) && !isRework(material);
  return isFresh(taken) && isFresh(planned) && taken.species === planned.species;
}

/**
 * How much of a lot a weighing takes, and what of the lot was promised to this batch.
 * @throws Refused 'not usable' or 'short'.
 */
export async function drawable(
  db: Db,
  { row, basis }: OpenedBatch,
  lotId: string,
  weight: ScaleWeight,
  today: string,
): Promise<{ readonly massUg: number; readonly promisedUg: number }> {
  const lot = await lotOrRefuse(db, lotId);
  // Usable on the day of the batch, and still usable today.
  for (const day of [row.day, today]) refuseUnfitForUse(lot, day, ['lotId']);
  const promisedUg = (await reservedFor(db, row.id)).get(lotId) ?? 0;
  const thereUg = promisedUg + freeUg(lot);
  const massUg = drawnUg(drawnUg(weightUg(weight), promisedUg), thereUg);
  if (massUg > thereUg) throw short(lot, thereUg, weight, basis);
  return { massUg, promisedUg };
}

/** Scales differ: the last of a lot often weighs a little more than the books say. */
function short(
  { id, onHandUg }: LotRow,
  thereUg: number,
  { value, unit }: ScaleWeight,
  { plant }: OpenedBatch['basis'],
): Refused {
  const text = (ug: number) => massText(kilogramsOfMicrograms(ug), plant.units);
  const promised = onHandUg > thereUg ? `, and ${text(onHandUg - thereUg)} promised to others` : '';
  const remedy =
    promised === ''
      ? `If all of it is on the scale and the scale is right, adjust the lot to ${value} ${unit} first; otherwise take the rest from another lot.`
      : 'Take out what is too much, weigh the rest from another lot, or count this one and adjust it.';
  return new Refused(
    'short',
    `Lot ${id} has ${text(thereUg)} for this batch${promised}; ${value} ${unit} is asked. ${remedy}`,
    ['weight'],
  );
}
