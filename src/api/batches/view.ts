import {
  type BatchState,
  type LimitStanding,
  mayTake,
  type Step,
  type StepKind,
  type StepOf,
  settledBefore,
  stepsOf,
} from '../../making/batch.ts';
import { lackText, shortOfCure } from '../../making/cure.ts';
import { foundLoads, foundSoFar, testOf, testsOf } from '../../making/found-mix.ts';
import { standingText } from '../../making/limit-text.ts';
import { notMet, type Open, withReasons } from '../../making/reasons.ts';
import { falseOnLabel, type Standing, standingOfLoads, unlawful } from '../../making/standing.ts';
import { departures, loadsOf, type Place, placesOf } from '../../making/weighing.ts';
import { pricePerUnit } from '../../units.ts';
import type { BatchAnswer } from './contract.ts';
import { labelChanges } from './label.ts';
import { linesView, ofUg, who } from './lines-view.ts';
import { floorOf, type OpenedBatch } from './opened.ts';

/** A batch as it stands, for people and programs. */
export function batchView(opened: OpenedBatch): BatchAnswer {
  const { row, steps, basis } = opened;
  const state = row.state as BatchState;
  const [plan] = stepsOf(steps, 'planned');
  if (!plan) throw new Error(`batch ${row.id} has no plan; verify the store`);
  const { standing, limitsAre } = latestStanding(opened);
  const places = placesOf(steps, floorOf(opened));
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
    process: { cooking: basis.product.process.cooking, yieldFraction: basis.product.process.yieldFraction },
    loads: plan.body.loads,
    planned: ofUg(plan.body.batchUg),
    weighed: ofUg(places.reduce((total, { weighedUg }) => total + weighedUg, 0)),
    lines: linesView(opened, places),
    limits: standing.limits.map((limit) => ({ ...limit })),
    limitsAre,
    makeup: { ...standing.makeup },
    open: openDepartures(opened, places, standing.limits),
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
    ...(finished && { finished: finishedView(finished, stepsOf(steps, 'set aside')) }),
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
    next: nextSteps(opened, places),
    cautions: cautions(opened, standing),
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
  'set aside',
  'closed',
  'cancelled',
];

/** The limits on the latest that is known of the batch. */
export function latestStanding(opened: OpenedBatch): {
  readonly standing: Standing;
  readonly limitsAre: BatchAnswer['limitsAre'];
} {
  const { steps, basis, row } = opened;
  const finished = stepsOf(steps, 'finished').at(-1);
  if (finished) return { standing: finished.body, limitsAre: 'as finished' };
  const tested = loadsOf(steps).some((load) => testsOf(steps, load).length > 0);
  if (row.state === 'weighed') {
    return {
      standing: standingOfLoads(basis, foundSoFar(steps, opened.supplies)),
      limitsAre: tested ? 'with the test' : 'as weighed',
    };
  }
  return {
    standing: standingOfLoads(basis, foundLoads(steps, floorOf(opened))),
    limitsAre: row.state === 'weighing' ? 'as weighed so far' : 'as planned',
  };
}

/** Departures so far, and limits that are not met, with the reasons that they have. */
function openDepartures(
  { steps, row }: OpenedBatch,
  places: readonly Place[],
  limits: readonly LimitStanding[],
): Open[] {
  if (row.state !== 'weighing' && row.state !== 'weighed') return [];
  const started = places.filter(({ weighings }) => weighings.length > 0);
  const open = row.state === 'weighing' ? departures(started) : [];
  return withReasons([...open, ...notMet(limits)], [], settledBefore(steps));
}

/** Steps that may be taken now. */
function nextSteps({ steps, row }: OpenedBatch, places: readonly Place[]): StepKind[] {
  const isIn = places.some(({ weighings }) => weighings.length > 0);
  const isAllIn = loadsOf(steps).some((load) =>
    places.every((place) => place.load !== load || place.restUg === 0),
  );
  const isTested = loadsOf(steps).some((load) => testOf(steps, load) !== undefined);
  const fits: Partial<Record<StepKind, boolean>> = {
    'taken back': isIn,
    weighed: isIn,
    tested: isAllIn || row.state === 'weighed',
    corrected: isTested,
    cancelled: !isIn,
  };
  return NEXT.filter((kind) => mayTake(kind, row.state as BatchState) && (fits[kind] ?? true));
}

function finishedView(
  step: Extract<Step, { kind: 'finished' }>,
  later: readonly StepOf<'set aside'>[],
): NonNullable<BatchAnswer['finished']> {
  const { output, rework, discarded, lossUg, yieldFraction, costPerKg, hold, temperatures } = step.body;
  return {
    output: { lotId: output.lotId, weight: { ...output.weight }, mass: ofUg(output.massUg) },
    rework: [...rework, ...later.map(({ body }) => body.rework)].map(({ massUg, ...part }) => ({
      ...part,
      mass: ofUg(massUg),
    })),
    discarded: discarded.map(({ massUg, ...part }) => ({ ...part, mass: ofUg(massUg) })),
    loss: ofUg(lossUg),
    yieldFraction,
    costPerKg,
    costPerLb: pricePerUnit(costPerKg, 'lb'),
    ...(hold !== undefined && { hold }),
    temperatures: temperatures.map((temperature) => ({ ...temperature })),
    ...who(step),
  };
}

function cautions(opened: OpenedBatch, { limits }: Standing): string[] {
  if (opened.row.state === 'cancelled') return [];
  return [
    ...notLawful(limits),
    ...notAsLabelled(opened, limits),
    ...weakCure(opened),
    ...noTemperature(opened),
  ];
}

function notLawful(limits: readonly LimitStanding[]): string[] {
  const broken = unlawful(limits);
  if (broken.length === 0) return [];
  return [
    `NOT LAWFUL as it stands: ${broken.map(standingText).join('; ')}. Correct the mix before it goes on; otherwise hold it, and let the inspector and your process authority decide what becomes of it.`,
  ];
}

/** Labels that are printed by now, or that promise what the mix does not hold, are not put on. */
function notAsLabelled({ labels }: OpenedBatch, limits: readonly LimitStanding[]): string[] {
  const changed = labelChanges(labels.planned, labels.now);
  const untrue = falseOnLabel(limits);
  return [
    ...(untrue.length > 0
      ? [
          `The label would not be true: ${untrue.map(standingText).join('; ')}. Correct the mix, or sell it under a label that is true.`,
        ]
      : []),
    ...(changed.length > 0
      ? [
          `THE LABEL IS NOT AS PLANNED. ${changed.join('. ')}. Print it anew and put none of the old ones on; look at the allergens first.`,
        ]
      : []),
  ];
}

/** While the floor weighs, what is not yet there is not missing. */
function weakCure({ steps, supplies, basis, row }: OpenedBatch): string[] {
  const inPlan = IN_PLAN.includes(row.state as BatchState);
  const short = shortOfCure(placesOf(steps, floorOf({ supplies, basis })), supplies).filter(
    ({ weighings }) => weighings.length > 0 || !inPlan,
  );
  if (short.length === 0) return [];
  return [
    `Less cure than planned: ${short.map(lackText).join('; ')}. A product that relies on its cure is not safe with less; weigh in the rest, or ask your process authority before it goes on.`,
  ];
}

const IN_PLAN: readonly BatchState[] = ['planned', 'weighing'];

function noTemperature({ basis, steps }: OpenedBatch): string[] {
  const finished = stepsOf(steps, 'finished').at(-1);
  if (!finished || basis.product.process.cooking !== 'cooked') return [];
  if (finished.body.temperatures.length > 0) return [];
  return [
    'No temperature of the cooking and cooling is noted here. Whether they were enough is for your own records, the inspector and your process authority.',
  ];
}
