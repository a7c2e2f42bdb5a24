import type { Supply } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';
import { fatPercentOf, fractionOfPercent } from '../units.ts';
import { type Step, type StepOf, stepsOf } from './batch.ts';
import type { Basis } from './standing.ts';
import { putIn, type Supplies, standingWeighings, supplyOf } from './weighing.ts';

/** What a batch cost: as planned, as weighed, and what became of the money. Masses in kg, money in the plant's currency. */
export interface BatchCosts {
  readonly currency: string;
  readonly planned: MassAndCost;
  readonly weighed: MassAndCost;
  readonly finished?: FinishedCosts;
  readonly givenAway?: GivenAway;
  readonly materials: readonly (MassAndCost & { readonly materialId: string; readonly name: string })[];
}

export interface MassAndCost {
  readonly massKg: number;
  readonly cost: number;
}

export interface FinishedCosts {
  readonly output: MassAndCost;
  readonly costPerKg: number;
  readonly yieldFraction: number;
  /** Kept for another batch, at what it cost to make. */
  readonly rework: MassAndCost;
  /** Thrown away, at what went into it. */
  readonly discarded: MassAndCost;
  /** Lost beyond what the declared yield takes, at what went into it; below zero where less was lost. */
  readonly lossBeyondYield: MassAndCost;
}

/** Lean that the buyer gets beyond what the plant means to give: the batch has less fat than it might. */
export interface GivenAway {
  /** The most fat that the label and the targets of the product leave. */
  readonly mostFatFraction: number;
  readonly fatFraction: number;
  readonly points: number;
  /** What the fat that is missing would have saved; absent where the batch has no two meats to tell it by. */
  readonly cost?: number;
}

/** @param setAside what went back as rework after the batch was finished. */
export function batchCosts(
  steps: readonly Step[],
  { basis, supplies }: { readonly basis: Basis; readonly supplies: Supplies },
  setAside: readonly StepOf<'set aside'>[] = [],
): BatchCosts | undefined {
  const [plan] = stepsOf(steps, 'planned');
  const put = putIn(steps, supplies);
  if (!plan || put.massUg === 0) return undefined;
  const { batchUg, cost, currency } = plan.body;
  const weighed = { massKg: kilogramsOfMicrograms(put.massUg), cost: put.cost };
  const finishedStep = stepsOf(steps, 'finished').at(-1);
  const finished = finishedStep && finishedCosts(finishedStep.body, setAside, weighed, basis.product);
  const makeup = (finishedStep ?? latestFound(steps, plan.body.loads))?.body.makeup;
  const away = makeup && givenAway(basis.product, makeup.fatFraction, steps, supplies);
  return {
    currency,
    planned: { massKg: kilogramsOfMicrograms(batchUg), cost },
    weighed,
    ...(finished && { finished }),
    ...(away && { givenAway: away }),
    materials: materialsOf(steps, supplies),
  };
}

/** The latest that is known of the whole batch before it is finished: its fat test, or what was weighed. */
function latestFound(steps: readonly Step[], loads: number) {
  const ofWhole = stepsOf(steps, 'tested').filter(({ body }) => body.load === undefined || loads === 1);
  return ofWhole.at(-1) ?? stepsOf(steps, 'weighed').at(-1);
}

function finishedCosts(
  body: StepOf<'finished'>['body'],
  setAside: readonly StepOf<'set aside'>[],
  weighed: MassAndCost,
  { process }: Product,
): FinishedCosts {
  const { output, costPerKg, yieldFraction } = body;
  const rawPerKg = weighed.cost / weighed.massKg;
  const kg = (massUg: number) => kilogramsOfMicrograms(massUg);
  const later = setAside.map(({ body: { rework } }) => rework);
  const laterKg = total(later.map(({ massUg }) => kg(massUg)));
  const outputKg = kg(output.massUg) - laterKg;
  // What the product bears; raw rework is worth what it cost to put in.
  const perKgOf = (stage: string) => (stage === 'raw' ? rawPerKg : costPerKg);
  const rework = [...body.rework, ...later];
  const rawAsideKg = total(
    [...body.rework, ...body.discarded]
      .filter(({ stage }) => stage === 'raw')
      .map(({ massUg }) => kg(massUg)),
  );
  const expectedLossKg = (weighed.massKg - rawAsideKg) * (1 - process.yieldFraction);
  const beyondKg = kg(body.lossUg) - expectedLossKg;
  return {
    output: { massKg: outputKg, cost: outputKg * costPerKg },
    costPerKg,
    yieldFraction,
    rework: {
      massKg: total(rework.map(({ massUg }) => kg(massUg))),
      cost: total(rework.map(({ massUg, stage }) => kg(massUg) * perKgOf(stage))),
    },
    discarded: {
      massKg: total(body.discarded.map(({ massUg }) => kg(massUg))),
      cost: total(
        body.discarded.map(
          ({ massUg, stage }) => (kg(massUg) * rawPerKg) / (stage === 'raw' ? 1 : process.yieldFraction),
        ),
      ),
    },
    lossBeyondYield: { massKg: beyondKg, cost: (beyondKg * rawPerKg) / process.yieldFraction },
  };
}

function givenAway(
  { targets, label, process }: Product,
  fatFraction: number,
  steps: readonly Step[],
  supplies: Supplies,
): GivenAway | undefined {
  const ends = [
    ...targets.flatMap(({ measure, max }) => (measure === 'fat' && max !== undefined ? [max] : [])),
    ...(label.leanPercent === undefined ? [] : [fractionOfPercent(fatPercentOf(label.leanPercent))]),
  ];
  if (ends.length === 0) return undefined;
  const mostFatFraction = Math.min(...ends);
  const missingFraction = mostFatFraction - fatFraction;
  const weighings = standingWeighings(steps);
  const meats = weighings
    .map(({ body }) => supplyOf(body, supplies))
    .filter(({ material }) => isMeat(material));
  const perKgOfFat = priceOfLean(meats);
  const putInKg = total(weighings.map(({ body }) => kilogramsOfMicrograms(body.massUg)));
  const massKg = putInKg * process.yieldFraction;
  return {
    mostFatFraction,
    fatFraction,
    points: missingFraction * 100,
    ...(perKgOfFat !== undefined && { cost: Math.max(0, missingFraction) * massKg * perKgOfFat }),
  };
}

/** What a kilogram less of fat costs, between the leanest and the fattest meat of the batch. Own reckoning. */
function priceOfLean(meats: readonly Supply[]): number | undefined {
  const byFat = [...meats].sort((one, other) => one.composition.fatFraction - other.composition.fatFraction);
  const [leanest, fattest] = [byFat[0], byFat.at(-1)];
  if (!leanest || !fattest) return undefined;
  const apart = fattest.composition.fatFraction - leanest.composition.fatFraction;
  return apart > LEAST_APART ? Math.max(0, (leanest.costPerKg - fattest.costPerKg) / apart) : undefined;
}

/** Fractions of fat by which two meats must differ for their prices to tell what lean is worth. Own judgement. */
const LEAST_APART = 0.02;

function materialsOf(steps: readonly Step[], supplies: Supplies): BatchCosts['materials'] {
  const found = new Map<string, { materialId: string; name: string; massKg: number; cost: number }>();
  for (const { body } of standingWeighings(steps)) {
    const { material, costPerKg } = supplyOf(body, supplies);
    const known = found.get(material.id) ?? {
      materialId: material.id,
      name: material.name,
      massKg: 0,
      cost: 0,
    };
    const massKg = kilogramsOfMicrograms(body.massUg);
    found.set(material.id, {
      ...known,
      massKg: known.massKg + massKg,
      cost: known.cost + massKg * costPerKg,
    });
  }
  return [...found.values()];
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
