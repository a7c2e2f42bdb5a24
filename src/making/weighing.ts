import type { Supply } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import type { MixLine } from '../correct/tested-mix.ts';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';
import { massText } from '../units.ts';
import { type PlannedLine, type Step, type StepOf, stepsOf } from './batch.ts';
import { exactKg, mixOf } from './standing.ts';

/** What is in the mixer, what is still to be weighed, and where the two depart from the plan. */

/** How far a line of meat may be from its weight without a reason. Own judgement: a piece of meat is not cut for less. */
export const MEAT_TOLERANCE = 0.01;

/** Supplies that a batch draws on, by their ids. */
export type Supplies = ReadonlyMap<string, Supply>;

/** Weighings that stand: those that were not taken back. */
export function standingWeighings(steps: readonly Step[]): StepOf<'weighing'>[] {
  const takenBack = new Set(stepsOf(steps, 'taken back').map(({ body }) => body.step));
  return stepsOf(steps, 'weighing').filter(({ number }) => !takenBack.has(number));
}

/** Lines of the plan and of every correction since. */
export function linesOf(steps: readonly Step[]): PlannedLine[] {
  return steps.flatMap((step): readonly PlannedLine[] => {
    if (step.kind === 'planned' || step.kind === 'corrected') return step.body.lines;
    return [];
  });
}

/** One line in one load: what is asked and what is there. */
export interface Place {
  readonly line: PlannedLine;
  readonly load: number;
  readonly plannedUg: number;
  readonly weighedUg: number;
  readonly weighings: readonly StepOf<'weighing'>[];
}

/** Every line in every load, in the order of the sheet. */
export function placesOf(steps: readonly Step[]): Place[] {
  const weighings = standingWeighings(steps);
  return linesOf(steps).flatMap((line) =>
    line.loads.map((load) => {
      const here = weighings.filter(({ body }) => body.line === line.number && body.load === load);
      return {
        line,
        load,
        plannedUg: line.perLoadUg,
        weighedUg: here.reduce((total, { body }) => total + body.massUg, 0),
        weighings: here,
      };
    }),
  );
}

/** What was weighed in, exactly as the scales showed it. @param load of one load only; of all when absent. */
export function weighedMix(steps: readonly Step[], supplies: Supplies, load?: number): MixLine[] {
  return mixOf(
    standingWeighings(steps)
      .filter(({ body }) => load === undefined || body.load === load)
      .map(({ body }) => ({
        supply: supplyOrThrow(supplies, body.lotId ?? body.materialId),
        massKg: exactKg(body.weight),
      })),
  );
}

/** What was weighed in, and what it cost. */
export function putIn(
  steps: readonly Step[],
  supplies: Supplies,
): { readonly massUg: number; readonly cost: number } {
  let massUg = 0;
  let cost = 0;
  for (const { body } of standingWeighings(steps)) {
    massUg += body.massUg;
    const { costPerKg } = supplyOrThrow(supplies, body.lotId ?? body.materialId);
    cost += kilogramsOfMicrograms(body.massUg) * costPerKg;
  }
  return { massUg, cost };
}

/** What the batch will be when all that is missing is weighed as planned. */
export function projectedMix(steps: readonly Step[], supplies: Supplies): MixLine[] {
  const missing = placesOf(steps)
    .filter(({ weighings }) => weighings.length === 0)
    .map(({ line }) => ({
      supply: supplyOrThrow(supplies, line.supplyId),
      massKg: exactKg(line.perLoad),
    }));
  return mixOf([...weighedMix(steps, supplies), ...missing]);
}

function supplyOrThrow(supplies: Supplies, id: string): Supply {
  const supply = supplies.get(id);
  if (supply) return supply;
  throw new Error(`supply ${id} of the batch is missing from its documents; verify the store`);
}

/** Where the floor departed from the plan; each needs a reason. */
export interface Departure {
  readonly line: PlannedLine;
  readonly load: number;
  readonly what: string;
  readonly planned: string;
  readonly found: string;
  /** Given with the weighing itself. */
  readonly reason?: string;
}

/**
 * Departures that need a reason: another lot than planned, a line left out, meat off by more than a hundredth or a
 * division of its scale, anything else off by more than a division.
 * @param divisionUg smallest step of a scale by its id.
 */
export function departures(
  steps: readonly Step[],
  supplies: Supplies,
  divisionUg: (scaleId: string) => number,
  unit: 'lb' | 'kg',
): Departure[] {
  const text = (massUg: number) => massText(kilogramsOfMicrograms(massUg), unit);
  return placesOf(steps).flatMap((place): Departure[] => {
    const { line, load, plannedUg, weighedUg, weighings } = place;
    const what = `${line.material}, line ${line.number}, load ${load}`;
    const base = { line, load, what };
    const others = weighings.filter(({ body }) => (body.lotId ?? body.materialId) !== line.supplyId);
    const swapped = others.map(({ body }) => ({
      ...base,
      planned: `from ${line.supplyId}`,
      found: `from ${body.lotId ?? body.materialId}`,
      ...(body.reason !== undefined && { reason: body.reason }),
    }));
    const material = supplies.get(line.supplyId)?.material;
    const tolerated = Math.max(
      divisionUg(line.scaleId),
      material && isMeat(material) ? plannedUg * MEAT_TOLERANCE : 0,
    );
    if (Math.abs(weighedUg - plannedUg) <= tolerated) return swapped;
    const reason = weighings.find(({ body }) => body.reason !== undefined)?.body.reason;
    return [
      ...swapped,
      {
        ...base,
        planned: text(plannedUg),
        found: weighings.length === 0 ? 'not weighed' : text(weighedUg),
        ...(reason !== undefined && { reason }),
      },
    ];
  });
}
