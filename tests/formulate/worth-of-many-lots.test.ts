import { describe, expect, it } from 'vitest';
import { type Supply, supplyOfLot } from '../../src/batch/lot.ts';
import { isMeat } from '../../src/batch/material.ts';
import { add, exact, toNumber } from '../../src/exact.ts';
import type { BatchModel } from '../../src/formulate/batch-model.ts';
import type { Worth } from '../../src/formulate/blend.ts';
import { solveSurely } from '../../src/formulate/certainty.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { type Problem, prepare, problemOf } from '../../src/formulate/prepare.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { type ExactModel, toLinear } from '../../src/solver/exact-model.ts';
import { type KeptModel, keepOpen } from '../../src/solver/keep-open.ts';
import type { Priced, PricedOutcome } from '../../src/solver/prices.ts';
import { costRange, entryCost } from '../../src/solver/ranging.ts';
import { KILOGRAMS_PER } from '../../src/units.ts';
import { DEMO, DEMO_SUPPLIES, demoMaterial, demoRequest, pounds } from '../helpers/demo-requests.ts';
import { ENGINES } from '../helpers/engines.ts';

/** What is told of a hundred and more lots at once, against solving the whole problem anew for each figure. */

const LOTS = 150;

/** The lots of the demo plant over and over, each at a price, a fat and an amount of its own. */
const SUPPLIES: readonly Supply[] = Array.from({ length: LOTS }, (_, index) => {
  const lots = DEMO.lots.filter(({ materialId }) => isMeat(demoMaterial(materialId)));
  const lot = lots[index % lots.length] as (typeof lots)[number];
  const apart = ((index * 37) % 101) / 101;
  const material = demoMaterial(lot.materialId);
  const fat = material.composition.fatFraction;
  const fatFraction = Number((fat * (0.9 + 0.2 * apart)).toFixed(3));
  return supplyOfLot(
    {
      ...lot,
      id: `${lot.id}-${index}`,
      onHandKg: 15 + Math.round(60 * apart),
      costPerKg: Number((lot.costPerKg * (1.1 - 0.15 * apart)).toFixed(2)),
      // Every third stays at the figure of its class, so that some lots are alike but for their price.
      ...(index % 3 > 0 && { measuredFat: { fatFraction, method: 'NIR' } }),
    },
    material,
  );
}).concat(DEMO_SUPPLIES.filter(({ material }) => !isMeat(material)));

interface Case {
  readonly name: string;
  readonly problem: Problem;
  readonly model: BatchModel;
  readonly optimum: Priced;
  readonly worth: Worth;
}

function caseOf(product: string, extra: object): Case {
  const { wishes: _, ...asked } = demoRequest({ product, batchSize: { total: pounds(600) }, ...extra });
  const request: FormulationRequest = { ...asked, supplies: SUPPLIES, withPrices: true };
  const prepared = prepare(request);
  if (!prepared.ok) throw new Error(`${product} is refused`);
  const problem = problemOf(request, prepared.ready);
  const { model, outcome } = solveSurely(problem.model, problem.chances, ENGINES);
  const formulation = formulate(request);
  if (outcome.status !== 'optimal' || formulation.outcome !== 'blend') throw new Error(`no ${product}`);
  const { worth } = formulation.blend;
  if (!worth) throw new Error(`${product} comes without worth`);
  return { name: product, problem, model, optimum: outcome, worth };
}

const certainty = [{ limitId: 'house-fat-max', confidence: 0.95 }];
const plain = ['ground-beef-80-20', 'hamburger-patties', 'smoked-sausage'].map((id) => caseOf(id, {}));
const sure = [caseOf('hamburger-patties', { certainty }), caseOf('smoked-sausage', { certainty })];

const UNIT_KG = toNumber(KILOGRAMS_PER.lb);

/** The problem with another exact model, solved from nothing. */
function solvedAnew({ model, problem }: Case, change: (model: ExactModel) => ExactModel): PricedOutcome {
  const changed = change(model.exact);
  return solveSurely({ ...model, ...toLinear(changed), exact: changed }, problem.chances, ENGINES).outcome;
}

const near = (told: number | undefined, truth: number | undefined, within = 1e-6) => {
  if (truth === undefined) expect(told).toBeUndefined();
  else expect(Math.abs((told ?? Number.NaN) - truth)).toBeLessThan(within);
};

describe('of a hundred lots and more', () => {
  it('prices and price ranges are those of solving anew for each', () => {
    const counts = { unused: 0, used: 0 };
    for (const one of plain) {
      const { problem, model, optimum, worth } = one;
      const columnOf = (supply: Supply) =>
        problem.coefficients.supplies.findIndex(({ id }) => id === supply.id);
      keepOpen(model, ENGINES, (kept: KeptModel) => {
        for (const { supply, wouldEnterBelowPerKg } of worth.notUsed) {
          counts.unused++;
          near(wouldEnterBelowPerKg, entryCost(kept, columnOf(supply), optimum));
        }
        for (const { supply, best } of worth.used) {
          counts.used++;
          const { from, to } = costRange(kept, columnOf(supply), optimum);
          near(best?.fromPerKg, from);
          near(best?.toPerKg, to);
        }
      });
    }
    expect(counts.unused).toBeGreaterThan(200);
    expect(counts.used).toBeGreaterThan(20);
  });

  it('one unit more, of a lot or of the batch, is what solving anew makes of it, with margins too', () => {
    let lots = 0;
    for (const one of [...plain, ...sure]) {
      const { problem, optimum, worth } = one;
      // Planes meet a margin to a ten millionth of the batch, and other planes meet it elsewhere within that.
      const within = 1e-6 * optimum.cost;
      const more = exact(Number((problem.size.massKg + UNIT_KG).toPrecision(12)));
      const bigger = solvedAnew(one, ({ columns, rows }) => ({
        columns,
        rows: rows.map((row, index) => (index === 0 ? { ...row, lower: more, upper: more } : row)),
      }));
      near(
        worth.nextUnit?.costs,
        bigger.status === 'optimal' ? bigger.cost - optimum.cost : undefined,
        within,
      );
      for (const { supply, oneUnitMoreSaves } of worth.used) {
        if (oneUnitMoreSaves === undefined) continue;
        lots++;
        const place = problem.coefficients.supplies.findIndex(({ id }) => id === supply.id);
        const outcome = solvedAnew(one, ({ columns, rows }) => ({
          rows,
          columns: columns.map((column, index) =>
            index === place ? { ...column, upper: add(column.upper, exact(UNIT_KG)) } : column,
          ),
        }));
        const saves = outcome.status === 'optimal' ? Math.max(0, optimum.cost - outcome.cost) : 0;
        near(oneUnitMoreSaves, saves, within);
      }
    }
    expect(lots).toBeGreaterThan(10);
  });
});
