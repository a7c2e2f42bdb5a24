import type { Supply } from '../batch/lot.ts';
import type { MixLine } from '../correct/tested-mix.ts';
import { compare, subtract, sum, ZERO } from '../exact.ts';
import { kilogramsOfMicrograms, micrograms } from '../ledger/micrograms.ts';
import { fixed, inUnit } from '../units.ts';
import { type PlannedLine, type ScaleWeight, type Step, type StepOf, stepsOf } from './batch.ts';
import type { Open } from './reasons.ts';
import { type Basis, exactKg, mixOf } from './standing.ts';
import { type Tolerance, toleranceOf } from './tolerance.ts';

/** What is in the mixer, what is still to be weighed, and where the two depart from the plan. */

/** Supplies that a batch draws on, by their ids. */
export type Supplies = ReadonlyMap<string, Supply>;

/** What the weighings of a batch are read with. */
export interface Floor {
  readonly supplies: Supplies;
  readonly scales: Basis['plant']['scales'];
}

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

/** Numbers of the loads, in turn. */
export function loadsOf(steps: readonly Step[]): number[] {
  return [...new Set(linesOf(steps).flatMap(({ loads }) => loads))].sort((a, b) => a - b);
}

/** One line in one load: what is asked and what is there. */
export interface Place {
  readonly line: PlannedLine;
  readonly load: number;
  readonly plannedUg: number;
  readonly weighedUg: number;
  readonly weighings: readonly StepOf<'weighing'>[];
  readonly tolerance: Tolerance;
  /** What is missing by more than is tolerated; 0 when the line is done, or its lack has its reason. */
  readonly restUg: number;
}

/** Every line in every load, in the order of the sheet. */
export function placesOf(steps: readonly Step[], { supplies, scales }: Floor): Place[] {
  const weighings = standingWeighings(steps);
  const isExplained = explainedPlaces(steps);
  return linesOf(steps).flatMap((line) => {
    const { material } = supplyOrThrow(supplies, line.supplyId);
    const scale = scales.find(({ id }) => id === line.scaleId);
    const divisionUg = scale ? micrograms(scale.division, scale.unit) : 0;
    const tolerance = toleranceOf(material, line.perLoadUg, divisionUg);
    return line.loads.map((load): Place => {
      const here = weighings.filter(({ body }) => body.line === line.number && body.load === load);
      const weighedUg = here.reduce((total, { body }) => total + body.massUg, 0);
      const missingUg = line.perLoadUg - weighedUg;
      const isDone = here.length > 0 && missingUg <= tolerance.underUg;
      return {
        line,
        load,
        plannedUg: line.perLoadUg,
        weighedUg,
        weighings: here,
        tolerance,
        restUg: isDone || isExplained(line, load) ? 0 : missingUg,
      };
    });
  });
}

/**
 * Whether all was said to be in, with a reason for what was missing of a line in a load, and nothing was weighed there or
 * taken back since: no one waits for the rest any more.
 */
function explainedPlaces(steps: readonly Step[]): (line: PlannedLine, load: number) => boolean {
  const saidAt = stepsOf(steps, 'weighed').at(-1)?.number ?? 0;
  const weighings = new Map(stepsOf(steps, 'weighing').map((step) => [step.number, step.body]));
  const changed = steps.flatMap((step) => {
    if (step.number < saidAt) return [];
    const weighing = weighings.get(step.kind === 'taken back' ? step.body.step : step.number);
    return weighing ? [`${weighing.line} in ${weighing.load}`] : [];
  });
  return ({ number, ofCorrection = 0 }, load) =>
    ofCorrection < saidAt && !changed.includes(`${number} in ${load}`);
}

/** What was weighed in, exactly as the scales showed it. */
export function mixOfWeighings(weighings: readonly StepOf<'weighing'>[], supplies: Supplies): MixLine[] {
  return mixOf(
    weighings.map(({ body }) => ({ supply: supplyOf(body, supplies), massKg: exactKg(body.weight) })),
  );
}

/** What was weighed into one load, or into all. */
export function weighedMix(steps: readonly Step[], supplies: Supplies, load?: number): MixLine[] {
  const weighings = standingWeighings(steps);
  return mixOfWeighings(
    weighings.filter(({ body }) => load === undefined || body.load === load),
    supplies,
  );
}

/** What is still missing of a load, as it is planned. */
export function missingMix(places: readonly Place[], load: number, supplies: Supplies): MixLine[] {
  const missing = places
    .filter((place) => place.load === load && place.restUg > 0)
    .map(({ line, weighings }) => ({
      supply: supplyOrThrow(supplies, line.supplyId),
      massKg: subtract(exactKg(line.perLoad), sum(weighings.map(({ body }) => exactKg(body.weight)))),
    }));
  return mixOf(missing.filter(({ massKg }) => compare(massKg, ZERO) > 0));
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
    cost += kilogramsOfMicrograms(body.massUg) * supplyOf(body, supplies).costPerKg;
  }
  return { massUg, cost };
}

export function supplyOf(body: StepOf<'weighing'>['body'], supplies: Supplies): Supply {
  return supplyOrThrow(supplies, body.lotId ?? body.materialId);
}

function supplyOrThrow(supplies: Supplies, id: string): Supply {
  const supply = supplies.get(id);
  if (supply) return supply;
  throw new Error(`supply ${id} of the batch is missing from its documents; verify the store`);
}

/** Why a weight looks like a slip: with it the line would be far above its plan; undefined when it does not. */
export function slipOf(place: Place, addedUg: number): string | undefined {
  const { line, load, plannedUg, weighedUg, tolerance } = place;
  const totalUg = weighedUg + addedUg;
  if (totalUg - plannedUg <= tolerance.slipUg) return undefined;
  const times = totalUg / plannedUg;
  const share = times >= 2 ? `${fixed(times, 1)} times as much` : `${fixed((times - 1) * 100, 1)} % more`;
  return `Line ${line.number}, ${line.material}, asks ${weightText(line.perLoad)} into load ${load}; with ${inUnitOf(line, addedUg)} there would be ${inUnitOf(line, totalUg)}, ${share}`;
}

/**
 * Where the floor departed from the plan: another lot, a line left out, or a weight beyond its tolerance. What was said
 * with the weighing explains another lot and a weight above the plan; a shortage has to be explained in the end.
 */
export function departures(places: readonly Place[]): Open[] {
  return places.flatMap((place) => [...swaps(place), ...offWeight(place)]);
}

function swaps({ line, load, weighings }: Place): Open[] {
  return weighings.flatMap(({ body }) => {
    const taken = body.lotId ?? body.materialId;
    if (taken === line.supplyId) return [];
    const { reason } = body;
    return [
      {
        line: line.number,
        load,
        what: whereOf(line, load),
        planned: `from ${line.supplyId}`,
        found: `${weightText(body.weight)} from ${taken}`,
        ...(reason !== undefined && { reason }),
      },
    ];
  });
}

function offWeight({ line, load, plannedUg, weighedUg, weighings, tolerance }: Place): Open[] {
  const overUg = weighedUg - plannedUg;
  const isDone = weighings.length > 0 && overUg <= tolerance.overUg && -overUg <= tolerance.underUg;
  if (isDone) return [];
  const said = overUg > 0 ? weighings.findLast(({ body }) => body.reason !== undefined) : undefined;
  return [
    {
      line: line.number,
      load,
      what: whereOf(line, load),
      planned: weightText(line.perLoad),
      found: weighings.length === 0 ? 'not weighed' : inUnitOf(line, weighedUg),
      ...(said?.body.reason !== undefined && { reason: said.body.reason }),
    },
  ];
}

function whereOf({ material, number }: PlannedLine, load: number): string {
  return `${material}, line ${number}, load ${load}`;
}

function weightText({ value, unit }: ScaleWeight): string {
  return `${value} ${unit}`;
}

/** A weight in the unit of a line, to one digit more than its scale shows where that says more. */
export function inUnitOf({ perLoad: { value, unit } }: Pick<PlannedLine, 'perLoad'>, massUg: number): string {
  const decimals = value.split('.')[1]?.length ?? 0;
  const shown = inUnit(kilogramsOfMicrograms(massUg), unit);
  const [coarse, fine] = [fixed(shown, decimals), fixed(shown, decimals + 1)];
  return `${Number(coarse) === Number(fine) ? coarse : fine} ${unit}`;
}
