import { type Lot, type Supply, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Plant } from '../../src/batch/plant.ts';
import type { Product } from '../../src/batch/product.ts';
import type { Candidate, UsePlanRequest } from '../../src/plan/use-plan.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { ownProblem } from '../formulate/by-hand/demands.ts';
import { ENGINES } from '../helpers/engines.ts';
import { type HighsAnswer, solveWithHighs } from '../helpers/highs.ts';
import { material, RAW, standardOf, testProduct } from '../helpers/materials.ts';

/** Plants small enough for paper, and the joint problem of a plan built again without the product's code. */

export const DAY = '2031-05-14';

const PLANT: Plant = {
  name: 'Plant',
  establishment: 'M0',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'kg',
  timeZone: 'UTC',
  mixerCapacityKg: 1000,
  scales: [
    { id: 'bench', name: 'Bench scale', unit: 'kg', division: '0.01', capacity: 300 },
    { id: 'fine', name: 'Fine scale', unit: 'g', division: '0.1', capacity: 3000 },
  ],
};

/** A lot of beef trim that holds fat, and three parts of water to one of protein nearly. */
export function trim(id: string, fatFraction: number, lot: Partial<Lot> = {}): Supply {
  const lean = 1 - fatFraction;
  return supplyOfLot(
    {
      id,
      materialId: id,
      onHandKg: 100,
      costPerKg: 4,
      receivedDate: '2031-05-01',
      useByDate: '2031-05-30',
      state: 'chilled',
      ...lot,
    },
    material(`trim-${id}`, 'skeletal meat', {
      species: 'beef',
      composition: { fatFraction, waterFraction: 0.75 * lean, proteinFraction: 0.22 * lean },
    }),
  );
}

export const SALT = supplyOfMaterial(material('salt', 'salt', { substances: { salt: 1 } }), 1);

/** Ground beef with at most so much fat. */
export function ground(
  id: string,
  mostFatFraction: number,
  rest: Omit<Candidate, 'product' | 'standard'>,
  given: Partial<Product> = {},
): Candidate {
  const product = testProduct('ground-beef', {
    id,
    name: id,
    meatBlock: [{ name: 'beef', species: ['beef'] }],
    targets: [{ measure: 'fat', max: mostFatFraction }],
    process: RAW,
    ...given,
  });
  return { product, standard: standardOf('ground-beef'), ...rest };
}

export function asked(given: Partial<UsePlanRequest>): UsePlanRequest {
  return { candidates: [], supplies: [], date: DAY, plant: PLANT, engines: ENGINES, aim: 'margin', ...given };
}

const MOST_KG = 1e6;

/**
 * The joint problem of all products, from the words of law and house. Published source of the opponent that solves
 * it: Huangfu and Hall, Mathematical Programming Computation 10 (2018).
 */
export function bestMarginByHand({ candidates, supplies, date }: UsePlanRequest): number {
  const columns: LinearModel['columns'][number][] = [];
  const rows: Row[] = [];
  const onLots = new Map<string, number[]>();
  const free = Number.POSITIVE_INFINITY;
  for (const { product, standard, pricePerKg, mostKg = MOST_KG } of candidates) {
    const own = ownProblem({ product, standard, supplies, date, size: { by: 'total', massKg: 1 } });
    const first = columns.length;
    const { yieldFraction } = product.process;
    for (const { id, costPerKg, onHandKg } of own.usable) {
      const upper = Math.min(onHandKg, MOST_KG);
      const column = columns.push({ cost: costPerKg - pricePerKg * yieldFraction, lower: 0, upper }) - 1;
      onLots.set(id, [...(onLots.get(id) ?? []), column]);
    }
    for (const row of own.model.rows.slice(1)) {
      const terms = row.terms.map(({ column, coefficient }) => ({ column: column + first, coefficient }));
      rows.push({ ...row, terms });
    }
    const all = own.usable.map((_, index) => ({ column: first + index, coefficient: yieldFraction }));
    rows.push({ name: 'most', lower: -free, upper: Math.min(mostKg, MOST_KG * yieldFraction), terms: all });
  }
  for (const { id, onHandKg } of supplies) {
    const terms = (onLots.get(id) ?? []).map((column) => ({ column, coefficient: 1 }));
    if (terms.length > 0 && Number.isFinite(onHandKg))
      rows.push({ name: id, lower: -free, upper: onHandKg, terms });
  }
  const answer: HighsAnswer = solveWithHighs({ columns, rows });
  if (answer.status !== 'optimal') throw new Error(`the joint problem is ${answer.status}`);
  return -answer.cost;
}
