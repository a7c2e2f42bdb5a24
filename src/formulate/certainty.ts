import type { CertainLimit } from '../batch/house-rules.ts';
import type { Product } from '../batch/product.ts';
import { type Exact, isZero, toNumber, ZERO } from '../exact.ts';
import { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { spreadRows, type Uncertain, uncertain } from '../rules/spread.ts';
import {
  type ChanceRow,
  type Cut,
  deviation,
  missing,
  solveWithChance,
  tangentCut,
} from '../solver/chance.ts';
import type { Engine } from '../solver/model.ts';
import { normalProbability, normalQuantile } from '../solver/normal.ts';
import { type PricedOutcome, solvePriced } from '../solver/prices.ts';
import { type BatchModel, withRows } from './batch-model.ts';
import type { Certainty } from './blend.ts';
import type { FormulationRequest, Issue } from './request.ts';

/** The limits to be sure of in this batch, of the house and of the request: the higher confidence holds. */
export function certainLimits({ certainty = [], houseRules, product }: FormulationRequest): CertainLimit[] {
  const asked = certainty.filter((certain) => isFor(certain, product));
  const house = (houseRules?.certainty ?? []).filter((certain) => isFor(certain, product));
  const highest = new Map<string, CertainLimit>();
  for (const certain of [...asked, ...house]) {
    const known = highest.get(certain.limitId);
    if (!known || known.confidence < certain.confidence) highest.set(certain.limitId, certain);
  }
  return [...highest.values()];
}

function isFor({ products }: CertainLimit, { id }: Product): boolean {
  return products?.includes(id) ?? true;
}

/** Limits that the request wants to be sure of and that the product does not have. */
export function unknownCertainLimits(
  { certainty = [] }: FormulationRequest,
  limits: readonly Limit[],
): Issue[] {
  return certainty.flatMap(({ limitId }, index) => {
    if (limits.some(({ id, sense }) => id === limitId && sense !== 'present')) return [];
    const known = [...new Set(limits.filter(({ sense }) => sense !== 'present').map(({ id }) => id))];
    return {
      code: 'unknown-limit',
      path: ['certainty', index, 'limitId'],
      message: `"${limitId}" is no limit of this product. Its limits are ${known.join(', ')}.`,
    };
  });
}

/** The rows of the model that have to hold with a margin. Rows that no uncertain fat touches need none. */
export function chanceRows(
  certain: readonly CertainLimit[],
  model: BatchModel,
  coefficients: Coefficients,
): ChanceRow[] {
  if (certain.length === 0) return [];
  const fat = uncertain(coefficients);
  return certain.flatMap(({ limitId, confidence }) => {
    const uncertain = rowsWithSpread(limitId, model, fat).filter(({ sds }) => !sds.every(isZero));
    // A limit of several rows holds when all of them do: each takes its share of what may go wrong (Bonferroni).
    const each = 1 - (1 - confidence) / Math.max(1, uncertain.length);
    const z = Number(normalQuantile(each).toPrecision(12));
    return uncertain.map(({ row, sds }) => ({ row, z, sds }));
  });
}

function rowsWithSpread(limitId: string, model: BatchModel, fat: Uncertain) {
  const rows = [...model.limitOfRow].filter(([, { id }]) => id === limitId);
  const [, limit] = rows[0] ?? [];
  if (!limit) return [];
  const spread = spreadRows(limit, fat).filter(({ row }) => row.terms.length > 0);
  return spread.flatMap(({ sds }, index) => {
    const row = rows[index]?.[0];
    return row === undefined ? [] : [{ row, sds }];
  });
}

/** A solved model together with the planes that its margins needed. */
export interface Sure {
  readonly outcome: PricedOutcome;
  readonly model: BatchModel;
}

/** The least-cost point that holds every margin; the model comes back with the planes it took. */
export function solveSurely(
  model: BatchModel,
  chances: readonly ChanceRow[],
  engines: readonly Engine[],
): Sure {
  if (chances.length === 0) return { outcome: solvePriced(model, engines), model };
  const { outcome, cuts } = solveWithChance(model.exact, chances, engines);
  return { outcome, model: withCuts(model, cuts) };
}

/** Whether a point in doubles misses a margin by more than the dust of engines. */
export function missesMargin(
  model: BatchModel,
  chances: readonly ChanceRow[],
  values: readonly number[],
): ChanceRow[] {
  const size = values.reduce((sum, value) => sum + Math.abs(value), 0);
  return chances.filter((chance) => missing(model.exact, chance, values) > 1e-7 * size);
}

/** The model with planes at a point for the margins it misses. */
export function withCutsAt(
  model: BatchModel,
  chances: readonly ChanceRow[],
  values: readonly number[],
): BatchModel {
  return withCuts(
    model,
    chances.map((chance) => ({ chance, row: tangentCut(model.exact, chance, values) })),
  );
}

function withCuts(model: BatchModel, cuts: readonly Cut[]): BatchModel {
  return withRows(
    model,
    cuts.map(({ chance, row }) => {
      const limit = model.limitOfRow.get(chance.row);
      return { row, ...(limit && { limit }) };
    }),
  );
}

/** Above this a limit is as good as certain and not worth a line, unless it was asked for. */
const AS_GOOD_AS_CERTAIN = 0.9995;

/**
 * How likely each limit is to hold in the batch as weighed, as far as the fat of the lots is uncertain: the
 * probability that a normal value with the mean and the standard deviation of its row stays on the right side.
 * For a limit of several rows it is the least that the probabilities of its rows leave together (Bonferroni).
 */
export function certaintyOf(
  limits: readonly Limit[],
  certain: readonly CertainLimit[],
  coefficients: Coefficients,
  masses: readonly Exact[],
): Certainty[] {
  // What is not in the batch spreads nothing: of hundreds of lots a few are left.
  const columns = masses.flatMap((mass, column) => (isZero(mass) ? [] : [column]));
  const values = columns.map((column) => toNumber(masses[column] ?? ZERO));
  const used = columns.flatMap((column) => coefficients.supplies[column] ?? []);
  const fat = uncertain(new Coefficients(used, coefficients.process));
  return limits.flatMap((limit): Certainty[] => {
    const asked = certain.find(({ limitId }) => limitId === limit.id)?.confidence;
    const basisKg = toNumber(coefficients.total(limit.basis, masses));
    const sides = spreadRows(limit, fat).map(({ row, sds }) => {
      const mean = row.terms.reduce(
        (sum, { column, coefficient }) => sum + toNumber(coefficient) * (values[column] ?? 0),
        0,
      );
      const roomKg = row.upper ? -mean : mean;
      return { roomKg, sdKg: deviation(sds, values) };
    });
    const uncertain = sides.filter(({ sdKg }) => sdKg > 0);
    if (uncertain.length === 0) return [];
    const each = uncertain.map(({ roomKg, sdKg }) => ({
      sdKg,
      probability: normalProbability(roomKg / sdKg),
    }));
    const worst = each.reduce((least, other) => (other.probability < least.probability ? other : least));
    const missed = each.reduce((sum, { probability }) => sum + 1 - probability, 0);
    const probability = Math.max(0, 1 - missed);
    if (asked === undefined && probability >= AS_GOOD_AS_CERTAIN) return [];
    return [
      {
        limit,
        probability,
        sdFraction: basisKg > 0 ? worst.sdKg / basisKg : 0,
        ...(asked !== undefined && { confidence: asked }),
      },
    ];
  });
}
