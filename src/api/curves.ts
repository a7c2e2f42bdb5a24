import type { Plant } from '../batch/plant.ts';
import type { CostCurve } from '../formulate/curve.ts';
import { inShownUnit } from '../rules/limit.ts';
import { type MassUnit, perKilogram, pricePerUnit } from '../units.ts';
import { prepareBlend } from './blend-task.ts';
import { type Desk, unusable } from './blending.ts';
import { type CurveAnswer, curveRequestSchema } from './contract/curve.ts';
import type { RequestIssue } from './own-inputs.ts';
import { parseOrProblem } from './parse.ts';

/** The least cost along a bound or a price. @throws Problem when the request cannot be used. */
export async function curve(desk: Desk, body: unknown): Promise<CurveAnswer> {
  const { blend: request, along } = parseOrProblem(curveRequestSchema, body);
  if (request.floor) throw unusable([NO_FLOOR], request);
  const prepared = prepareBlend(request, desk.data, desk.ruleSets, desk.today());
  const inBlend = (path: readonly (string | number)[]) => (path[0] === 'along' ? path : ['blend', ...path]);
  if (!prepared.ok) throw unusable(prepared.issues, request, inBlend);
  const inKg =
    'limitId' in along || 'leanFrom' in along
      ? along
      : {
          supplyId: along.supplyId,
          from: perKilogram(along.from, along.per),
          to: perKilogram(along.to, along.per),
        };
  const found = await desk.work('curve', { task: prepared.task, along: inKg });
  if (found.outcome === 'refused') throw unusable(found.issues, request, inBlend);
  if (found.outcome === 'no blend') return found;
  const { currency, units } = prepared.task.plant;
  const shown = { currency, units };
  if ('leanFrom' in along) return alongLean(found, shown);
  return 'limitId' in along ? alongLimit(found, along.limitId, shown) : alongPrice(found, along, shown);
}

/** Whole boxes and few lots make a curve of steps, which this is not. */
const NO_FLOOR: RequestIssue = {
  path: ['blend', 'floor'],
  message: 'a curve is of the cheapest blend, without wishes of the floor; take the field out',
};

type Found = Extract<CostCurve, { outcome: 'curve' }>;

type Shown = Pick<Plant, 'currency' | 'units'>;

function alongLimit(found: Found, limitId: string, inUnits: Shown): CurveAnswer {
  const unit = found.limit?.unit ?? 'percent';
  return answer(found, { limitId, unit }, inUnits, (fraction) => inShownUnit(fraction, unit));
}

/** From lean to fat, as the lean percent is read, not as the fat limit behind it runs. */
function alongLean(found: Found, inUnits: Shown): CurveAnswer {
  const { feasible, points } = found;
  const turned = {
    ...found,
    points: points.toReversed(),
    feasible: { from: feasible.to, to: feasible.from },
  };
  return answer(turned, { unit: 'percent lean' }, inUnits, (fat) => inShownUnit(1 - fat, 'percent'));
}

function alongPrice(
  found: Found,
  { supplyId, per }: { readonly supplyId: string; readonly per: MassUnit },
  inUnits: Shown,
): CurveAnswer {
  return answer(found, { supplyId, unit: `price per ${per}` }, inUnits, (pricePerKg) =>
    pricePerUnit(pricePerKg, per),
  );
}

function answer(
  { points, corners, today, feasible }: Found,
  along: Extract<CurveAnswer, { outcome: 'curve' }>['along'],
  inUnits: Shown,
  exactly: (at: number) => number,
): CurveAnswer {
  // To nine digits: engines answer no better, and 18.0000000532 is 18.
  const shown = (at: number) => Number(exactly(at).toPrecision(9));
  return {
    outcome: 'curve',
    along,
    ...inUnits,
    today: shown(today),
    corners,
    feasible: { from: shown(feasible.from), to: shown(feasible.to) },
    points: points.map(({ at, cost, batchKg, massesKg }) => ({
      at: shown(at),
      cost,
      costPerKg: cost / batchKg,
      blend: [...massesKg].map(([supplyId, kg]) => ({ supplyId, kg })),
    })),
  };
}
