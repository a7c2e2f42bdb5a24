import { COST_NOTES } from '../../documents/cost-report.ts';
import { stepsOf } from '../../making/batch.ts';
import { type BatchCosts, batchCosts, type MassAndCost } from '../../making/costs.ts';
import { listBatches } from '../../store/batches.ts';
import { type Days, type LoggedBatch, loggedBatches } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { stepsOfBatches } from '../../store/trace.ts';
import { pricePerUnit } from '../../units.ts';
import { inBothUnits } from '../answers.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import type { CostAnswer } from './contract.ts';

/** Batches opened together; more would only take memory. */
const AT_ONCE = 100;

/** What the batches made in these days cost, batch by batch, by product and by material. */
export async function costsOf(db: Db, { plant }: PlantBooks, days: Days): Promise<CostAnswer> {
  const rows = await listBatches(db, {
    ...days,
    states: ['weighing', 'weighed', 'finished', 'packed', 'closed'],
  });
  const ids = rows.map(({ id }) => id).reverse();
  const found: Found[] = [];
  for (let start = 0; start < ids.length; start += AT_ONCE) {
    const some = ids.slice(start, start + AT_ONCE);
    const later = await stepsOfBatches(db, some, ['set aside']);
    for (const batch of await loggedBatches(db, some)) {
      const setAside = stepsOf(later.get(batch.row.id) ?? [], 'set aside');
      const costs = batchCosts(batch.steps, batch, setAside);
      if (costs) found.push({ row: batch.row, product: batch.basis.product, costs });
    }
  }
  return {
    plant: plant.name,
    establishment: plant.establishment,
    units: plant.units,
    ...days,
    batches: found.map(batchAnswer),
    products: productAnswers(found),
    materials: materialAnswers(found),
    notes: [...COST_NOTES],
  };
}

interface Found {
  readonly row: LoggedBatch['row'];
  readonly product: LoggedBatch['basis']['product'];
  readonly costs: BatchCosts;
}

function batchAnswer({ row, product, costs }: Found): CostAnswer['batches'][number] {
  const { currency, planned, weighed, finished, givenAway } = costs;
  return {
    batchId: row.id,
    productId: product.id,
    product: product.name,
    date: row.day,
    state: row.state,
    currency,
    planned: { ...shown(planned), each: each(planned.cost / planned.massKg) },
    weighed: { ...shown(weighed), each: each(weighed.cost / weighed.massKg) },
    ...(finished && {
      finished: {
        output: shown(finished.output),
        each: each(finished.costPerKg),
        yieldFraction: finished.yieldFraction,
        rework: shown(finished.rework),
        discarded: shown(finished.discarded),
        lossBeyondYield: shown(finished.lossBeyondYield),
      },
    }),
    ...(givenAway && { givenAway: { ...givenAway } }),
  };
}

function productAnswers(found: readonly Found[]): CostAnswer['products'] {
  return groups(found, ({ product, costs }) => `${costs.currency} ${product.id}`).map((own) => {
    const sum = (of: (costs: BatchCosts) => number | undefined) =>
      own.reduce((total, { costs }) => total + (of(costs) ?? 0), 0);
    const [{ product, costs }] = own;
    const outputKg = sum(({ finished }) => finished?.output.massKg);
    return {
      product: product.name,
      currency: costs.currency,
      batches: own.length,
      plannedCost: sum(({ planned }) => planned.cost),
      weighedCost: sum(({ weighed }) => weighed.cost),
      weighed: inBothUnits(sum(({ weighed }) => weighed.massKg)),
      output: inBothUnits(outputKg),
      ...(outputKg > 0 && { each: each(sum(({ finished }) => finished?.output.cost) / outputKg) }),
      reworkCost: sum(({ finished }) => finished?.rework.cost),
      discardedCost: sum(({ finished }) => finished?.discarded.cost),
      lossBeyondYieldCost: sum(({ finished }) => finished?.lossBeyondYield.cost),
      givenAwayCost: sum(({ givenAway }) => givenAway?.cost),
    };
  });
}

function materialAnswers(found: readonly Found[]): CostAnswer['materials'] {
  const lines = found.flatMap(({ costs }) =>
    costs.materials.map((material) => ({ ...material, currency: costs.currency })),
  );
  return groups(lines, ({ currency, materialId }) => `${currency} ${materialId}`)
    .map((own) => {
      const massKg = own.reduce((total, line) => total + line.massKg, 0);
      const cost = own.reduce((total, line) => total + line.cost, 0);
      const [{ materialId, name, currency }] = own;
      return {
        materialId,
        material: name,
        currency,
        mass: inBothUnits(massKg),
        cost,
        each: each(cost / massKg),
      };
    })
    .sort((one, other) => other.cost - one.cost);
}

/** Items of one key together, none of the groups empty. */
function groups<Item>(items: readonly Item[], keyOf: (item: Item) => string): [Item, ...Item[]][] {
  const found = new Map<string, [Item, ...Item[]]>();
  for (const item of items) {
    const own = found.get(keyOf(item));
    if (own) own.push(item);
    else found.set(keyOf(item), [item]);
  }
  return [...found.values()];
}

function shown({ massKg, cost }: MassAndCost) {
  return { mass: inBothUnits(massKg), cost };
}

function each(perKg: number) {
  return { perKg, perLb: pricePerUnit(perKg, 'lb') };
}
