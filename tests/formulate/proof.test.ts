import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Supply } from '../../src/batch/lot.ts';
import { type Exact, exact, ZERO } from '../../src/exact.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { prepare, problemOf } from '../../src/formulate/prepare.ts';
import { proveCost } from '../../src/formulate/proof.ts';
import { FORMS } from '../../src/rules/forms.ts';
import type { LinearModel } from '../../src/solver/model.ts';
import { solvePriced } from '../../src/solver/prices.ts';
import { arbitraryRequest, type RandomRequest } from '../helpers/arbitrary-plants.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';
import { ownProblem, weightsOf } from './by-hand/demands.ts';

const SEED = 20310515;
const RUNS = 400;

const cases = fc
  .sample(arbitraryRequest(), { seed: SEED, numRuns: RUNS })
  .map((request, index) => ({ index, request, outcome: formulate({ ...request, engines: ENGINES }) }));
const made = cases.flatMap(({ index, request, outcome }) =>
  outcome.outcome === 'blend' ? [{ index, request, blend: outcome.blend }] : [],
);

function offenders<C extends { readonly index: number }>(
  among: readonly C[],
  law: (one: C) => string | undefined,
): string[] {
  return among.flatMap((one) => {
    const broken = law(one);
    return broken === undefined ? [] : [`request ${one.index} of seed ${SEED}: ${broken}`];
  });
}

const dust = (cost: number) => 1e-6 * Math.max(1, Math.abs(cost));

/** The linear problem of a request as the product builds it, in the places of its supplies. */
function problem(request: RandomRequest) {
  const asked = { ...request, engines: ENGINES };
  const prepared = prepare(asked);
  if (!prepared.ok) throw new Error('refused, though it was blended');
  return problemOf(asked, prepared.ready);
}

function massesIn(supplies: readonly Supply[], { lines }: Blend): Exact[] {
  const byId = new Map(lines.map(({ supply, exactMassKg }) => [supply.id, exactMassKg]));
  return supplies.map(({ id }) => byId.get(id) ?? ZERO);
}

/**
 * The problem built from the plant's data without the product's code, with its size and its fixed lines as far off as
 * these weights have them.
 */
function asWeighed(request: RandomRequest, blend: Blend): LinearModel {
  const { model, usable } = ownProblem(request);
  const massKg = new Map(weightsOf(blend).map(({ supply, mass }) => [supply.id, Number(mass) / 1e18]));
  const fixed = 1 + request.product.seasoning.filter((line) => line.minFraction === line.maxFraction).length;
  return {
    columns: model.columns,
    rows: model.rows.map((row, index) => {
      if (index >= fixed) return row;
      const weighed = row.terms.reduce(
        (sum, { column, coefficient }) => sum + coefficient * (massKg.get(usable[column]?.id ?? '') ?? 0),
        0,
      );
      return { ...row, lower: weighed, upper: weighed };
    }),
  };
}

const milligrams = ({ batchKg }: Blend) => Math.round(batchKg * 1e6);

describe('the proof of a cost', () => {
  it('never lies above the cost, and is the cost less what it says', () => {
    const broken = offenders(made, ({ blend: { cost, proof } }) => {
      if (!(proof.aboveLeast >= 0)) return `${proof.aboveLeast} above the least`;
      if (Math.abs(cost - proof.leastCost - proof.aboveLeast) > 1e-9 * Math.max(1, cost)) {
        return `${cost} is not ${proof.leastCost} and ${proof.aboveLeast}`;
      }
      const share = proof.withinFraction;
      if (proof.leastCost <= 0) return share === undefined ? undefined : 'a share of nothing';
      return Math.abs((share ?? -1) * proof.leastCost - proof.aboveLeast) <= 1e-9 * Math.max(1, cost)
        ? undefined
        : `${share} of ${proof.leastCost} is not ${proof.aboveLeast}`;
    });
    expect(broken).toEqual([]);
    expect(made.length).toBeGreaterThan(100);
  });

  it('is never above what HiGHS finds for the batch as weighed, and mostly just that', () => {
    let same = 0;
    let worst = 0;
    const broken = offenders(made, ({ request, blend }) => {
      const best = solveWithHighs(asWeighed(request, blend));
      if (best.status !== 'optimal') return `HiGHS says ${best.status} of the printed size`;
      const short = best.cost - blend.proof.leastCost;
      if (short <= dust(best.cost)) same++;
      worst = Math.max(worst, short / Math.max(1, best.cost));
      return short < -dust(best.cost) ? `${blend.proof.leastCost} against ${best.cost}` : undefined;
    });
    console.log(
      `proofs: ${same} of ${made.length} are the least cost itself, the farthest is ${(100 * worst).toFixed(3)} % below`,
    );
    expect(broken).toEqual([]);
    // Elsewhere rounding has moved the size across a corner, where other row prices would be the best.
    expect(same / made.length).toBeGreaterThan(0.85);
  });

  it('is the least cost itself, to a millionth, for the unrounded blend', () => {
    const broken = offenders(made, ({ request }) => {
      const { model } = problem(request);
      const optimum = solvePriced(model, ENGINES);
      const best = solveWithHighs(ownProblem(request).model);
      if (optimum.status !== 'optimal' || best.status !== 'optimal') return 'no optimum';
      const masses = optimum.values.map((massKg) => exact(massKg));
      const { leastCost } = proveCost(model, optimum.rowPrices, masses, FORMS.formula);
      return Math.abs(leastCost - best.cost) > dust(best.cost) ? `${leastCost}, not ${best.cost}` : undefined;
    });
    expect(broken).toEqual([]);
  });

  it('holds whatever the row prices are worth: nothing at all, anything, the right ones gone wrong', () => {
    let wide = 0;
    const price = fc.oneof(fc.constant(0), fc.double({ min: -1e4, max: 1e4, noNaN: true }));
    const broken = offenders(made.slice(0, 200), ({ index, request, blend }) => {
      const { model, coefficients } = problem(request);
      const masses = massesIn(coefficients.supplies, blend);
      const optimum = solvePriced(model, ENGINES);
      const right = optimum.status === 'optimal' ? optimum.rowPrices : [];
      const random = fc.sample(
        fc.array(price, { minLength: model.rows.length, maxLength: model.rows.length }),
        {
          seed: SEED + index,
          numRuns: 4,
        },
      );
      const tries = [
        model.rows.map(() => 0),
        right.map((each) => -each),
        right.map((each, row) => each * (1 + 0.01 * Math.sin(row + 1))),
        right.map(() => Number.NaN),
        [],
        ...random,
      ];
      const proofs = tries.map((prices) => proveCost(model, prices, masses, FORMS.formula));
      if (proofs.some(({ aboveLeast }) => aboveLeast > blend.proof.aboveLeast + dust(blend.cost))) wide++;
      const above = proofs.find(({ leastCost }) => leastCost > blend.cost * (1 + 1e-15) + 1e-12);
      return above && `${above.leastCost} is proven of a batch that costs ${blend.cost}`;
    });
    expect(broken).toEqual([]);
    expect(wide).toBeGreaterThan(100);
  });

  it('is not undercut by any other printed batch: those blended for other prices', () => {
    const counts = { other: 0, sameWeight: 0 };
    const broken = offenders(made, ({ index, request, blend }) => {
      const { model, coefficients } = problem(request);
      const optimum = solvePriced(model, ENGINES);
      if (optimum.status !== 'optimal') return 'no optimum';
      const supplies = request.supplies.map((supply, place) => ({
        ...supply,
        costPerKg: ((index + 3) * (place + 7) * 37) % 11,
      }));
      const other = formulate({ ...request, supplies, engines: ENGINES });
      if (other.outcome !== 'blend') return undefined;
      const originals = new Map(request.supplies.map((supply) => [supply.id, supply]));
      const cost = other.blend.lines.reduce(
        (sum, { supply, massKg }) => sum + massKg * (originals.get(supply.id)?.costPerKg ?? Number.NaN),
        0,
      );
      // Of its own size, with the prices that prove the cheapest.
      const proof = proveCost(
        model,
        optimum.rowPrices,
        massesIn(coefficients.supplies, other.blend),
        FORMS.formula,
      );
      if (!(proof.aboveLeast >= 0)) return `${proof.aboveLeast} above the least`;
      counts.other++;
      const isSameSize =
        request.product.seasoning.length === 0 &&
        request.size.by === 'total' &&
        milligrams(blend) === milligrams(other.blend);
      if (!isSameSize) return undefined;
      counts.sameWeight++;
      return cost < blend.proof.leastCost - 1e-9 * cost
        ? `${cost} undercuts ${blend.proof.leastCost}`
        : undefined;
    });
    console.log(`other batches: ${counts.other}, of the very same weight ${counts.sameWeight}`);
    expect(broken).toEqual([]);
    expect(counts.other).toBeGreaterThan(100);
    expect(counts.sameWeight).toBeGreaterThan(2);
  });
});

describe('that no blend exists', () => {
  it('is never proven where HiGHS finds one, and nearly always where there is none', () => {
    const none = cases.flatMap(({ index, request, outcome }) =>
      outcome.outcome === 'no blend' ? [{ index, request, proven: outcome.proven }] : [],
    );
    const counts = { empty: 0, proven: 0 };
    const broken = offenders(none, ({ request, proven }) => {
      const best = solveWithHighs(ownProblem(request).model);
      if (best.status === 'infeasible') {
        counts.empty++;
        if (proven) counts.proven++;
        return undefined;
      }
      return proven ? `HiGHS says ${best.status}` : undefined;
    });
    console.log(`no blend: ${none.length}, empty ${counts.empty}, proven ${counts.proven}`);
    expect(broken).toEqual([]);
    expect(counts.empty).toBeGreaterThan(100);
    expect(counts.proven / counts.empty).toBeGreaterThan(0.95);
  });
});
