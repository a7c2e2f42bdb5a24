import { kilogramsOfMicrograms, micrograms } from '../../ledger/micrograms.ts';
import {
  type BatchState,
  type LimitStanding,
  mayTake,
  type Step,
  type StepKind,
  stepsOf,
} from '../../making/batch.ts';
import { type Standing, standingOf, unlawful } from '../../making/standing.ts';
import { departures, placesOf, projectedMix, weighedMix } from '../../making/weighing.ts';
import { inBothUnits } from '../answers.ts';
import type { BatchAnswer } from './contract.ts';
import type { OpenedBatch } from './opened.ts';

/** A batch as it stands, for people and programs. */
export function batchView(opened: OpenedBatch): BatchAnswer {
  const { row, steps, basis } = opened;
  const state = row.state as BatchState;
  const [plan] = stepsOf(steps, 'planned');
  if (!plan) throw new Error(`batch ${row.id} has no plan; verify the store`);
  const { standing, limitsAre } = latestStanding(opened);
  const places = placesOf(steps);
  const finished = stepsOf(steps, 'finished').at(-1);
  const closed = stepsOf(steps, 'closed').at(-1);
  return {
    id: row.id,
    product: { id: row.productId, name: basis.product.name },
    standard: { says: basis.standard.says, citation: basis.standard.citation, edition: basis.edition },
    state,
    version: row.steps,
    date: row.day,
    units: basis.plant.units,
    currency: plan.body.currency,
    cost: plan.body.cost,
    loads: plan.body.loads,
    planned: ofUg(plan.body.batchUg),
    weighed: ofUg(places.reduce((total, { weighedUg }) => total + weighedUg, 0)),
    lines: linesOfView(opened, places),
    limits: (standing?.limits ?? []).map((limit) => ({ ...limit })),
    limitsAre,
    ...(standing && { makeup: { ...standing.makeup } }),
    open: openDepartures(opened, standing?.limits ?? []),
    deviations: [...stepsOf(steps, 'weighed').slice(-1), ...stepsOf(steps, 'finished')].flatMap(({ body }) =>
      body.deviations.map((deviation) => ({ ...deviation })),
    ),
    tests: stepsOf(steps, 'tested').map((step) => {
      const { limits: _, makeup: __, ...test } = step.body;
      return { step: step.number, ...test, ...who(step) };
    }),
    corrections: stepsOf(steps, 'corrected').map((step) => ({
      step: step.number,
      says: step.body.says,
      ...who(step),
    })),
    ...(finished && { finished: finishedView(finished) }),
    packs: stepsOf(steps, 'packed').flatMap((step) =>
      step.body.packs.map(({ lotId, count, net, massUg }) => ({
        lotId,
        count,
        net: { ...net },
        mass: ofUg(massUg),
        ...who(step),
      })),
    ),
    ...(closed && { record: closed.body.record }),
    next: NEXT.filter((kind) => mayTake(kind, state)),
    cautions: cautions(standing?.limits ?? [], state),
    steps: steps.map((step) => ({ number: step.number, kind: step.kind, ...who(step) })),
  };
}

const NEXT: readonly StepKind[] = [
  'weighing',
  'taken back',
  'weighed',
  'tested',
  'corrected',
  'finished',
  'packed',
  'closed',
  'cancelled',
];

/** The limits on the latest that is known of the batch. */
export function latestStanding(opened: OpenedBatch): {
  readonly standing: Standing | undefined;
  readonly limitsAre: BatchAnswer['limitsAre'];
} {
  const { steps, basis, supplies, row } = opened;
  const settled = [...steps]
    .reverse()
    .find(({ kind }) =>
      ['finished', 'tested', 'weighed', 'weighing', 'taken back', 'corrected'].includes(kind),
    );
  if (settled?.kind === 'finished') return { standing: settled.body, limitsAre: 'as finished' };
  if (settled?.kind === 'tested') return { standing: settled.body, limitsAre: 'with the test' };
  if (settled?.kind === 'weighed') return { standing: settled.body, limitsAre: 'as weighed' };
  return {
    standing: standingOf(basis, projectedMix(steps, supplies)),
    limitsAre: row.state === 'planned' || row.state === 'cancelled' ? 'as planned' : 'as weighed so far',
  };
}

/** Departures so far, and limits that are not met on what was weighed. */
export function openDepartures(opened: OpenedBatch, limits: readonly LimitStanding[]): BatchAnswer['open'] {
  const { steps, basis, supplies, row } = opened;
  if (row.state !== 'weighing') return [];
  const started = departures(steps, supplies, divisionOf(opened), basis.plant.units).filter(
    ({ line, load }) =>
      placesOf(steps).some(
        (place) => place.line.number === line.number && place.load === load && place.weighings.length > 0,
      ),
  );
  return [
    ...started.map(({ line, load, ...rest }) => ({ line: line.number, load, ...rest })),
    ...notMet(limits),
  ];
}

/** Limits that do not hold, as departures. */
export function notMet(limits: readonly LimitStanding[]) {
  return limits
    .filter(({ holds }) => !holds)
    .map(({ limitId, says, bound, value, unit }) => ({
      limitId,
      what: says,
      planned: `${bound} ${unit}`,
      found: `${Number(value.toPrecision(8))} ${unit}`,
    }));
}

/** The smallest step of a scale of the plant, in micrograms. */
export function divisionOf({ basis }: Pick<OpenedBatch, 'basis'>): (scaleId: string) => number {
  const scales = new Map(
    basis.plant.scales.map((scale) => [scale.id, micrograms(scale.division, scale.unit)]),
  );
  return (scaleId) => scales.get(scaleId) ?? 0;
}

function linesOfView({ basis }: OpenedBatch, places: ReturnType<typeof placesOf>): BatchAnswer['lines'] {
  const scales = new Map(basis.plant.scales.map(({ id, name }) => [id, name]));
  const lines = [...new Set(places.map(({ line }) => line))];
  return lines.map((line) => ({
    number: line.number,
    material: line.material,
    materialId: line.materialId,
    supplyId: line.supplyId,
    ...(line.lotId !== undefined && { lotId: line.lotId }),
    perLoad: { ...line.perLoad },
    scale: scales.get(line.scaleId) ?? line.scaleId,
    ...(line.ofCorrection !== undefined && { ofCorrection: line.ofCorrection }),
    loads: places
      .filter((place) => place.line === line)
      .map(({ load, plannedUg, weighedUg, weighings }) => ({
        load,
        planned: ofUg(plannedUg),
        weighed: ofUg(weighedUg),
        weighings: weighings.map((step) => ({
          step: step.number,
          ...(step.body.lotId !== undefined && { lotId: step.body.lotId }),
          weight: { ...step.body.weight },
          ...(step.body.reason !== undefined && { reason: step.body.reason }),
          ...who(step),
        })),
      })),
  }));
}

function finishedView(step: Extract<Step, { kind: 'finished' }>): NonNullable<BatchAnswer['finished']> {
  const { output, rework, discarded, lossUg, yieldFraction, temperatures } = step.body;
  return {
    output: { lotId: output.lotId, weight: { ...output.weight }, mass: ofUg(output.massUg) },
    rework: rework.map(({ massUg, ...part }) => ({ ...part, mass: ofUg(massUg) })),
    discarded: discarded.map(({ massUg, ...part }) => ({ ...part, mass: ofUg(massUg) })),
    loss: ofUg(lossUg),
    yieldFraction,
    temperatures: temperatures.map((temperature) => ({ ...temperature })),
    ...who(step),
  };
}

function cautions(limits: readonly LimitStanding[], state: BatchState): string[] {
  const broken = unlawful(limits);
  if (broken.length === 0 || state === 'cancelled') return [];
  const names = broken.map(({ what, value, unit }) => `${what} ${Number(value.toPrecision(6))} ${unit}`);
  return [
    `NOT LAWFUL as it stands: ${names.join('; ')}. Correct the mix before it goes on; otherwise hold it, and let the inspector and your process authority decide what becomes of it.`,
  ];
}

export function ofUg(massUg: number): { kg: number; lb: number } {
  return inBothUnits(kilogramsOfMicrograms(massUg));
}

function who({ person, at }: Step): { by: string; at: string } {
  return { by: person, at };
}

/** What was weighed so far, where anything was. */
export function weighedSoFar({ steps, supplies }: OpenedBatch, load?: number) {
  return weighedMix(steps, supplies, load);
}
