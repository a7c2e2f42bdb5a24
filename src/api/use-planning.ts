import type { Supply } from '../batch/lot.ts';
import type { Plant } from '../batch/plant.ts';
import type { LeftOut } from '../formulate/blend.ts';
import {
  type Candidate,
  type LotUse,
  type NotMade,
  type PlannedProduct,
  USUAL_WITHIN,
  type UsePlan,
  type UseUpPlan,
} from '../plan/use-plan.ts';
import { inUnit, kilograms, perKilogram, pricePerUnit } from '../units.ts';
import { blendAnswer } from './answers.ts';
import { type BlendTask, prepareBlend } from './blend-task.ts';
import type { Desk } from './blending.ts';
import { blendRequestSchema } from './contract/blend-request.ts';
import { type UsePlanAnswer, type UsePlanInput, usePlanRequestSchema } from './contract/use-plan.ts';
import type { UsePlanTask } from './jobs.ts';
import type { RequestIssue } from './own-inputs.ts';
import { parseOrProblem } from './parse.ts';
import { fieldErrors, Problem } from './problem.ts';

/** What to make of the lots on hand, or why nothing. @throws Problem when the request cannot be used. */
export async function usePlan(desk: Desk, body: unknown): Promise<UsePlanAnswer> {
  const request = parseOrProblem(usePlanRequestSchema, body);
  const tasks = prepareProducts(request, body as SentPlan, desk);
  const [first] = tasks;
  if (!first) throw unusable([{ path: ['products'], message: 'is empty; name a product' }], request);
  const task = planTask(request, tasks, first);
  const plan = await desk.work('use plan', task);
  if (plan.outcome === 'refused') throw unusable(plan.issues, request);
  return planAnswer(task, tasks, plan);
}

/** The body as it was sent, once it is known to have this form. */
interface SentPlan extends Readonly<Record<string, unknown>> {
  readonly products: readonly { readonly product: unknown }[];
}

/** Every product prepared as for a blend of its own; the size of that blend is not used. */
function prepareProducts(request: UsePlanInput, sent: SentPlan, desk: Desk): BlendTask[] {
  const { products, aim: _, withinFraction: __, lotsAreSunk: ___, ...shared } = sent;
  const batchSize = { total: { value: 1, unit: 'kg' } };
  const tasks: BlendTask[] = [];
  const issues: RequestIssue[] = [];
  products.forEach(({ product }, index) => {
    const asBlend = blendRequestSchema.parse({ ...shared, product, batchSize });
    const prepared = prepareBlend(asBlend, desk.data, desk.ruleSets, desk.today());
    if (prepared.ok) tasks.push(prepared.task);
    else issues.push(...prepared.issues.map((issue) => atProduct(issue, index)));
  });
  if (issues.length > 0) throw unusable(issues, request);
  return tasks;
}

function atProduct({ path, message }: RequestIssue, index: number): RequestIssue {
  return { path: path[0] === 'product' ? ['products', index, ...path] : path, message };
}

function planTask(request: UsePlanInput, tasks: readonly BlendTask[], first: BlendTask): UsePlanTask {
  const { supplies, date, plant, houseRules } = first;
  const { aim, lotsAreSunk, withinFraction = USUAL_WITHIN, products } = request;
  const candidates = tasks.flatMap(({ product, standard }, index): Candidate[] => {
    const sent = products[index];
    if (!sent) return [];
    const { price, least, most } = sent;
    return [
      {
        product,
        standard,
        pricePerKg: perKilogram(price.amount, price.per),
        ...(least && { leastKg: kilograms(least) }),
        ...(most && { mostKg: kilograms(most) }),
      },
    ];
  });
  return {
    candidates,
    supplies,
    date,
    plant,
    ...(houseRules && { houseRules }),
    aim,
    lotsAreSunk,
    ...(aim === 'oldest lots first' && { withinFraction }),
  };
}

/** Faults that every product has in common are named once. */
function unusable(issues: readonly RequestIssue[], request: UsePlanInput): Problem {
  const errors = fieldErrors(issues.map((issue) => atWhatWasSent(issue, request)));
  const once = new Map(errors.map((error) => [`${error.pointer} ${error.message}`, error]));
  const detail = once.size === 1 ? 'One thing stands in the way.' : `${once.size} things stand in the way.`;
  return new Problem('cannot-be-used', detail, { errors: [...once.values()] });
}

/** A product sent by its id has no fields in the request: the fault is named at the id. */
function atWhatWasSent({ path, message }: RequestIssue, { products }: UsePlanInput): RequestIssue {
  const [list, index, field, ...inside] = path;
  const product = list === 'products' && field === 'product' ? products[Number(index)]?.product : undefined;
  if (typeof product !== 'string' || inside.length === 0) return { path, message };
  return {
    path: ['products', Number(index), 'product'],
    message: `${product}, ${inside.join('.')}: ${message}`,
  };
}

function planAnswer(
  task: UsePlanTask,
  tasks: readonly BlendTask[],
  plan: Exclude<UsePlan, { outcome: 'refused' }>,
): UsePlanAnswer {
  const notMade = plan.notMade.map(notMadeAnswer);
  const leftOut = plan.leftOut.map(leftOutAnswer);
  if (plan.outcome === 'nothing to make') return { outcome: plan.outcome, notMade, leftOut };
  const { plant, date, aim, withinFraction, lotsAreSunk = false } = task;
  return {
    outcome: 'plan',
    plant: { name: plant.name, establishment: plant.establishment },
    date,
    units: plant.units,
    currency: plant.currency,
    aim,
    ...(withinFraction !== undefined && { withinFraction }),
    lotsAreSunk,
    products: plan.products.map((planned) => productAnswer(planned, tasks)),
    notMade,
    lots: plan.lots.flatMap(lotAnswer),
    leftOut,
    margin: marginAnswer(plan),
    cautions: [...plan.cautions],
  };
}

function marginAnswer({ bestMargin, plannedMargin, printedMargin }: UseUpPlan) {
  return { best: bestMargin, planned: plannedMargin, weighed: printedMargin };
}

function productAnswer(
  { product, pricePerKg, planned, weighed }: PlannedProduct,
  tasks: readonly BlendTask[],
) {
  const task = tasks.find((one) => one.product.id === product.id);
  return {
    product: product.id,
    name: product.name,
    price: priceInBoth(pricePerKg),
    planned: {
      raw: inBothUnits(planned.rawKg),
      finished: inBothUnits(planned.finishedKg),
      margin: planned.margin,
    },
    ...(weighed.blend &&
      task && {
        weighed: {
          raw: inBothUnits(weighed.blend.batchKg),
          finished: inBothUnits(weighed.blend.finishedKg),
          margin: weighed.margin,
          blend: blendAnswer(task, { outcome: 'blend', blend: weighed.blend }),
        },
      }),
    ...(weighed.because && { notWeighed: [...weighed.because] }),
  };
}

function lotAnswer({ supply, plannedKg, usedKg, leftKg, daysToUseBy, oneKgMoreAdds }: LotUse) {
  const { lot, material, onHandKg }: Supply = supply;
  if (!lot) return [];
  return [
    {
      lotId: lot.id,
      materialId: material.id,
      material: material.name,
      onHand: inBothUnits(onHandKg),
      planned: inBothUnits(plannedKg),
      used: inBothUnits(usedKg),
      left: inBothUnits(leftKg),
      ...(lot.useByDate !== undefined && { useByDate: lot.useByDate }),
      ...(daysToUseBy !== undefined && { daysToUseBy }),
      oneMoreAdds: priceInBoth(oneKgMoreAdds),
    },
  ];
}

function notMadeAnswer({ product, because }: NotMade) {
  return { product: product.id, name: product.name, because: [...because] };
}

function leftOutAnswer({ supply, because }: LeftOut) {
  return { supplyId: supply.id, material: supply.material.name, because };
}

function priceInBoth(perKg: number) {
  return { perKg, perLb: pricePerUnit(perKg, 'lb') };
}

function inBothUnits(massKg: number): Record<Plant['units'], number> {
  return { kg: massKg, lb: inUnit(massKg, 'lb') };
}
