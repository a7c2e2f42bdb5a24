import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carries, RESTRICTED } from '../../src/batch/carries.ts';
import { availableKg } from '../../src/batch/lot.ts';
import { toNumber } from '../../src/exact.ts';
import type { Worth } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { KILOGRAMS_PER } from '../../src/units.ts';
import { arbitraryRequest, type RandomRequest } from '../helpers/arbitrary-plants.ts';
import { DEMO, DEMO_SUPPLIES } from '../helpers/demo-requests.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';
import { standardOf } from '../helpers/materials.ts';
import { basisMeaning, type OwnProblem, ownProblem } from './by-hand/demands.ts';

const demoSupplies = DEMO_SUPPLIES;
const demo = DEMO;
const demoRequests: RandomRequest[] = [...demo.products.values()].flatMap(({ product }) =>
  [100, 180].map((massKg) => ({
    product,
    standard: standardOf(product.standard.productClass),
    supplies: demoSupplies,
    size: { by: 'total', massKg },
    date: demo.plant.demoDate ?? '',
    plant: demo.plant,
  })),
);

interface Made {
  readonly name: string;
  readonly request: RandomRequest;
  readonly cost: number;
  /** Before rounding. */
  readonly batchKg: number;
  readonly worth: Worth;
  /** The same problem, built from the plant's data without the product's code. */
  readonly own: OwnProblem;
}

const SEED = 20310516;
const RUNS = 350;

function make(name: string, request: RandomRequest): Made[] {
  const asked: FormulationRequest = { ...request, engines: ENGINES, withPrices: true };
  const outcome = formulate(asked);
  if (outcome.outcome !== 'blend') return [];
  const { worth, unroundedCost: cost } = outcome.blend;
  if (!worth) throw new Error(`${name} comes without prices`);
  const own = ownProblem(request);
  const batchKg = least(own.model).values.reduce((sum, massKg) => sum + massKg, 0);
  return [{ name, request, worth, cost, batchKg, own }];
}

const ofDemo = demoRequests.flatMap((request) =>
  make(`${request.product.id} ${'massKg' in request.size ? request.size.massKg : ''} kg`, request),
);
const random = fc
  .sample(arbitraryRequest(), { seed: SEED, numRuns: RUNS })
  .flatMap((request, index) => make(`request ${index} of seed ${SEED}`, request));
const all = [...ofDemo, ...random];

function offenders(among: readonly Made[], law: (one: Made) => string | undefined): string[] {
  return among.flatMap((one) => {
    const broken = law(one);
    return broken === undefined ? [] : [`${one.name}: ${broken}`];
  });
}

interface Best {
  readonly cost: number;
  readonly values: readonly number[];
}
function least(model: LinearModel): Best {
  const answer = solveWithHighs(model);
  if (answer.status !== 'optimal') return { cost: Number.POSITIVE_INFINITY, values: [] };
  return answer;
}

type Change = Partial<LinearModel['columns'][number]>;
function leastWith(
  { own: { model, usable } }: Made,
  supplyId: string,
  change: Change,
): Best & { used: number } {
  const place = usable.findIndex(({ id }) => id === supplyId);
  if (place < 0) throw new RangeError(`${supplyId} is not usable`);
  const columns = model.columns.map((column, index) => (index === place ? { ...column, ...change } : column));
  const best = least({ columns, rows: model.rows });
  return { ...best, used: best.values[place] ?? Number.NaN };
}

const withRow = ({ own: { model } }: Made, index: number, row: Row): LinearModel => ({
  columns: model.columns,
  rows: model.rows.map((each, place) => (place === index ? row : each)),
});

const dust = (cost: number) => 1e-6 * Math.max(1, Math.abs(cost));
const HAIR = 0.002;
const unitKgOf = ({ request: { plant } }: Made) => toNumber(KILOGRAMS_PER[plant.units]);

it('there are blends of the demo plant and of random plants', () => {
  console.log(`worth: ${ofDemo.length} blends of the demo plant, ${random.length} of random plants`);
  expect(ofDemo.length).toBe(demoRequests.length);
  expect(random.length).toBeGreaterThan(100);
});

it('nothing is worked out where it was not asked for', () => {
  const outcome = formulate({ ...(demoRequests[0] as RandomRequest), engines: ENGINES });
  expect(outcome.outcome === 'blend' && outcome.blend).not.toHaveProperty('worth');
});

describe('a lot that is not used', () => {
  it('is used a hair below its price of entry, and saves nothing above it', () => {
    const counts = { entries: 0, never: 0 };
    const broken = offenders(all, (one) => {
      for (const { supply, wouldEnterBelowPerKg } of one.worth.notUsed) {
        if (wouldEnterBelowPerKg === undefined) {
          counts.never++;
          const given = leastWith(one, supply.id, { cost: 0 });
          if (given.cost < one.cost - dust(one.cost)) return `${supply.id} for nothing saves money`;
          continue;
        }
        counts.entries++;
        if (wouldEnterBelowPerKg > supply.costPerKg) return `${supply.id} would be used already`;
        const below = leastWith(one, supply.id, { cost: wouldEnterBelowPerKg - HAIR });
        if (!(below.used > 0 && below.cost < one.cost))
          return `${supply.id} is not used below ${wouldEnterBelowPerKg}`;
        const above = leastWith(one, supply.id, { cost: wouldEnterBelowPerKg });
        if (above.cost < one.cost - dust(one.cost))
          return `${supply.id} saves at ${wouldEnterBelowPerKg} still`;
      }
      return undefined;
    });
    expect(broken).toEqual([]);
    expect(counts.entries).toBeGreaterThan(400);
    expect(counts.never).toBeGreaterThan(20);
  });

  it('goes onto the sheet of the demo plant at a price 2 % below its price of entry', () => {
    let tried = 0;
    for (const { request, worth } of ofDemo.slice(0, 8)) {
      for (const { supply, wouldEnterBelowPerKg } of worth.notUsed) {
        if (wouldEnterBelowPerKg === undefined) continue;
        tried++;
        const supplies = request.supplies.map((each) =>
          each.id === supply.id ? { ...each, costPerKg: wouldEnterBelowPerKg * 0.98 } : each,
        );
        const outcome = formulate({ ...request, supplies, engines: ENGINES });
        if (outcome.outcome !== 'blend') throw new Error(`no blend with cheaper ${supply.id}`);
        expect(outcome.blend.lines.map((line) => line.supply.id)).toContain(supply.id);
      }
    }
    expect(tried).toBeGreaterThan(20);
  });
});

describe('the price range of a used lot', () => {
  it('is where the blend stays the cheapest; beyond it a cheaper one exists', () => {
    const counts = { inside: 0, below: 0, above: 0, open: 0 };
    const broken = offenders(all, (one) => {
      for (const { supply, best } of one.worth.used) {
        if (!best) return `${supply.id} has no range`;
        const { fromPerKg: from, toPerKg: to } = best;
        const present = supply.costPerKg;
        // Prices come from costs that engines tell to about 1e-8.
        const noise = 1e-6 * Math.max(1, present);
        if (from > present + noise || (to !== undefined && to < present - noise))
          return `${supply.id} at ${present} is outside ${from} to ${to}`;
        // The least cost is a straight line over the range, as steep as the kilograms in use.
        const high = to ?? present + 5;
        if (high - from < 3 * HAIR) continue;
        const at = (cost: number) => leastWith(one, supply.id, { cost });
        const middle = (from + high) / 2;
        const kg = at(middle).used;
        const stays = (cost: number) => one.cost + kg * (cost - present);
        for (const cost of [from + HAIR / 2, middle, high - HAIR / 2]) {
          counts.inside++;
          const found = at(cost).cost;
          if (Math.abs(found - stays(cost)) > 2 * dust(stays(cost)))
            return `${supply.id} at ${cost}: ${found}, not ${stays(cost)}`;
        }
        if (from > HAIR) {
          counts.below++;
          if (!(at(from - HAIR).cost < stays(from - HAIR))) return `${supply.id} stays below ${from}`;
        }
        if (to === undefined) {
          counts.open++;
          if (at(present + 400).cost < stays(present + 400) - 1e-4)
            return `${supply.id} is left at a far price`;
        } else {
          counts.above++;
          const beyond = to + HAIR * Math.max(1, to);
          if (!(at(beyond).cost < stays(beyond))) return `${supply.id} stays above ${to}`;
        }
      }
      return undefined;
    });
    console.log(`price ranges: ${JSON.stringify(counts)}`);
    expect(broken).toEqual([]);
    expect(Math.min(counts.inside, counts.below, counts.above)).toBeGreaterThan(100);
    expect(counts.open).toBeGreaterThan(20);
  });

  it('of a lot that is used up says what one unit more saves', () => {
    let told = 0;
    const broken = offenders(all, (one) => {
      for (const { supply, oneUnitMoreSaves } of one.worth.used) {
        if (oneUnitMoreSaves === undefined) continue;
        told++;
        const more = leastWith(one, supply.id, { upper: availableKg(supply) + unitKgOf(one) });
        if (Math.abs(one.cost - more.cost - oneUnitMoreSaves) > 2 * dust(one.cost))
          return `${supply.id} saves ${one.cost - more.cost}, not ${oneUnitMoreSaves}`;
      }
      return undefined;
    });
    expect(broken).toEqual([]);
    expect(told).toBeGreaterThan(40);
  });
});

interface Slope {
  readonly what: string;
  readonly told: number;
  /** Truth by two new solves, a little to either side. */
  readonly rising: number;
  readonly falling: number;
}

/** A claim to first order lies between what a small step one way and the other brings; mostly they are the same. */
function judge(slopes: readonly (Slope & { readonly name: string })[], noise: number) {
  const near = (a: number, b: number) => Math.abs(a - b) <= noise + 0.01 * Math.abs(b);
  const outside = slopes.filter(({ told, rising, falling }) => {
    const [low, high] = [Math.min(rising, falling), Math.max(rising, falling)];
    return told < low - noise - 0.01 * Math.abs(low) || told > high + noise + 0.01 * Math.abs(high);
  });
  const exact = slopes.filter(({ told, rising }) => near(told, rising)).length;
  return { outside: outside.map((one) => JSON.stringify(one)), exact };
}

describe('a limit', () => {
  const slopes = all.flatMap((one) =>
    one.worth.limits.flatMap(
      ({ limit, stepFraction, savesPerKg, togetherWith }): (Slope & { name: string; demo: boolean })[] => {
        // A limit that presses at the same place as another saves only when both are loosened.
        const loosened = [limit, ...togetherWith].flatMap((each) => {
          const demand = one.own.demands.find(({ id }) => id === each.id);
          const places = one.own.model.rows.flatMap(({ name }, index) => (name === each.id ? [index] : []));
          const [place] = places;
          if (!demand || place === undefined || places.length > 1 || each.sense === 'target') return [];
          const perKg = one.own.usable.map(
            (supply) => Number(demand.basis(supply, one.request.product.process)) / 1e20,
          );
          return [{ place, perKg, side: each.sense === 'max' ? 1 : -1 }];
        });
        if (loosened.length <= togetherWith.length) return [];
        const share = 1e-4;
        const moved = (way: 1 | -1) => {
          const rows = one.own.model.rows.map((row, index): Row => {
            const change = loosened.find(({ place }) => place === index);
            if (!change) return row;
            const by = change.side * way * share * stepFraction;
            const terms = row.terms.map(({ column, coefficient }) => ({
              column,
              coefficient: coefficient - by * (change.perKg[column] as number),
            }));
            return { ...row, terms };
          });
          const cost = least({ ...one.own.model, rows }).cost;
          return (way * (one.cost - cost)) / share / one.batchKg;
        };
        return [
          {
            name: one.name,
            demo: ofDemo.includes(one),
            what: limit.id,
            told: savesPerKg,
            rising: moved(1),
            falling: moved(-1),
          },
        ];
      },
    ),
  );

  it('of the demo plant saves what it says when it is loosened by a small step', () => {
    const ofTheDemo = slopes.filter(({ demo: isDemo }) => isDemo);
    expect(ofTheDemo.length).toBeGreaterThan(10);
    const wrong = ofTheDemo.filter(({ told, rising }) => Math.abs(told - rising) > 2e-5 + 0.01 * rising);
    expect(
      wrong.map(
        ({ name, what, told, rising }) => `${name}: ${what} ${told.toFixed(6)}, saves ${rising.toFixed(6)}`,
      ),
    ).toEqual([]);
  });

  it('of a random plant saves what it says when it is loosened by a small step, never more than on tightening', () => {
    const { outside, exact } = judge(slopes, 2e-4);
    console.log(`limits that press: ${slopes.length}, worth what they say on loosening ${exact}`);
    expect(outside).toEqual([]);
    expect(slopes.length).toBeGreaterThan(200);
    expect(exact / slopes.length).toBeGreaterThan(0.9);
  });

  it('is told the dearest first', () => {
    for (const { worth } of all) {
      const told = worth.limits.map(({ savesPerKg }) => savesPerKg);
      expect(told).toEqual([...told].sort((a, b) => b - a));
      expect(Math.min(1, ...told)).toBeGreaterThan(0);
    }
  });
});

describe('the next unit', () => {
  it('costs what a batch one unit bigger costs more, solved by itself, and is not told of what cannot be made', () => {
    let cannot = 0;
    const broken = offenders(all, (one) => {
      const row = one.own.model.rows[0] as Row;
      const size = row.lower + unitKgOf(one);
      const more = least(withRow(one, 0, { ...row, lower: size, upper: size })).cost - one.cost;
      const told = one.worth.nextUnit?.costs;
      if (told === undefined) {
        cannot++;
        return Number.isFinite(more) ? `costs ${more} and is not told` : undefined;
      }
      return Math.abs(told - more) > 2 * dust(one.cost) ? `costs ${more}, not ${told}` : undefined;
    });
    console.log(`next unit: told of ${all.length - cannot}, none bigger for ${cannot}`);
    expect(broken).toEqual([]);
    expect(all.length - cannot).toBeGreaterThan(100);
  });
});

describe('a fixed line', () => {
  it('costs what a tenth of a point more of it does to a kilogram, solved by itself with the other rate', () => {
    let told = 0;
    const broken = all.flatMap((one) =>
      one.worth.lines.flatMap(({ materialId, stepFraction, costsPerKg }) => {
        told++;
        const place = one.own.model.rows.findIndex(({ name }) => name === materialId);
        const line = one.request.product.seasoning.find((each) => each.materialId === materialId);
        if (place < 0 || !line) throw new Error(`${materialId} is no fixed line of ${one.name}`);
        const row = one.own.model.rows[place] as Row;
        const basis = basisMeaning(line.basis);
        const terms = row.terms.map(({ column, coefficient }) => {
          const supply = one.own.usable[column];
          const perKg = supply ? Number(basis(supply, one.request.product.process)) / 1e20 : 0;
          return { column, coefficient: coefficient - stepFraction * perKg };
        });
        const more = least(withRow(one, place, { ...row, terms }));
        const batchKg = more.values.reduce((sum, massKg) => sum + massKg, 0);
        const truth = more.cost / batchKg - one.cost / one.batchKg;
        const near = Math.abs(truth - costsPerKg) <= 2e-6 * Math.max(1, Math.abs(one.cost / one.batchKg));
        return near ? [] : [`${one.name}: ${materialId} ${costsPerKg}, is ${truth}`];
      }),
    );
    console.log(`fixed lines: ${told}`);
    expect(broken).toEqual([]);
    expect(told).toBeGreaterThan(150);
  });

  it('of a cure is never priced: nobody is told what more of it would save', () => {
    for (const { worth, request } of all) {
      for (const { materialId } of worth.lines) {
        const supply = request.supplies.find(({ material }) => material.id === materialId);
        expect(supply && carries(supply.material, RESTRICTED)).toBe(false);
      }
    }
  });
});
