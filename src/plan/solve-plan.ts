import type { Lot, Supply } from '../batch/lot.ts';
import { MOST_BATCH_KG } from '../formulate/batch-model.ts';
import { missesMargin } from '../formulate/certainty.ts';
import { tangentCut } from '../solver/chance.ts';
import { toRow } from '../solver/exact-model.ts';
import { keepOpen } from '../solver/keep-open.ts';
import type { Column, Engine, LinearModel, Outcome, Row } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import { type JointModel, massesOf, shifted } from './joint-model.ts';

/** Masses of all columns, and what they bring in. */
export interface PlanPoint {
  readonly values: readonly number[];
  readonly margin: number;
}

/** The best plan, with the rows that certainty of limits needed beside those of the model. */
export interface BestPlan extends PlanPoint {
  readonly model: LinearModel;
}

/** Rounds of laying planes where a limit is to hold with a margin; a few are usual. */
const MOST_ROUNDS = 60;
/** Engines answer to about 1e-8: what a preference already gained is held with this much to spare. */
const EASE_KG = 1e-6;
const EASE_SHARE = 1e-9;

/** A model in work: its costs and rows may change between questions. */
interface OpenPlan {
  readonly setCost: (column: number, cost: number) => void;
  readonly setRow: (row: number, lower: number, upper: number) => void;
  readonly addRow: (row: Row) => void;
  readonly solve: () => Outcome;
  readonly model: () => LinearModel;
}

/** The plan of the best margin; to make nothing is a plan too, so there always is one. */
export function bestPlan(joint: JointModel, engines: readonly Engine[]): BestPlan {
  return openPlan(joint, engines, (open) => {
    const outcome = solveSurely(joint, open);
    const { columns, rows } = open.model();
    const model = { columns: [...columns], rows: [...rows] };
    if (outcome.status === 'optimal') return { values: outcome.values, margin: -outcome.cost, model };
    return { values: columns.map(() => 0), margin: 0, model };
  });
}

/**
 * The plan that uses as much as possible of the lots with the earliest use-by date, then of the next, and so on,
 * strictly one after the other; of several such plans the one of the best margin. Lots of one use-by date go by the
 * day they were received, and lots without one come last.
 * @param withinFraction share of the best margin that may be given up for it.
 */
export function oldestFirst(
  joint: JointModel,
  best: BestPlan,
  withinFraction: number,
  supplies: readonly Supply[],
  engines: readonly Engine[],
): PlanPoint {
  const leastMargin = best.margin * (1 - withinFraction) - Math.abs(best.margin) * EASE_SHARE;
  const keepMargin: Row = {
    name: 'margin',
    lower: Number.NEGATIVE_INFINITY,
    upper: -leastMargin,
    terms: best.model.columns.map(({ cost }, column) => ({ column, coefficient: cost })),
  };
  const costs = best.model.columns.map(({ cost }) => cost);
  const start = { columns: best.model.columns, rows: [...best.model.rows, keepMargin] };
  return openPlan(start, engines, (open) => {
    let values = best.values;
    costs.forEach((_, column) => {
      open.setCost(column, 0);
    });
    for (const columns of byUrgency(joint, supplies)) {
      for (const column of columns) open.setCost(column, -1);
      const outcome = solveSurely(joint, open);
      for (const column of columns) open.setCost(column, 0);
      if (outcome.status !== 'optimal') break;
      values = outcome.values;
      const mostKg = -outcome.cost;
      if (mostKg <= EASE_KG) continue;
      open.addRow({
        name: 'oldest first',
        lower: mostKg - EASE_KG,
        upper: Number.POSITIVE_INFINITY,
        terms: columns.map((column) => ({ column, coefficient: 1 })),
      });
    }
    costs.forEach((cost, column) => {
      open.setCost(column, cost);
    });
    const last = solveSurely(joint, open);
    return pointAt(last.status === 'optimal' ? last.values : values, costs);
  });
}

/** What one kilogram more of each lot adds to the best margin, by id, with the same products made. */
export function worthOfLots(
  joint: JointModel,
  best: BestPlan,
  engines: readonly Engine[],
): Map<string, number> {
  return openPlan(withChoiceOf(best, joint), engines, (open) => {
    const worth = new Map<string, number>();
    for (const [id, index] of joint.lotRows) {
      const { lower, upper, terms } = best.model.rows[index] as Row;
      const usedKg = terms.reduce((sum, { column }) => sum + (best.values[column] ?? 0), 0);
      if (usedKg < upper - EASE_KG) {
        worth.set(id, 0);
        continue;
      }
      open.setRow(index, lower, upper + 1);
      const outcome = solveSurely(joint, open);
      open.setRow(index, lower, upper);
      worth.set(id, outcome.status === 'optimal' ? Math.max(0, -outcome.cost - best.margin) : 0);
    }
    return worth;
  });
}

/** The model with what is made and what is not as it is, and room in its columns for a kilogram more of a lot. */
function withChoiceOf(
  { model, values }: BestPlan,
  { lotRows, columnsOf, madeRows }: JointModel,
): LinearModel {
  const ofLots = new Set([...lotRows.keys()].flatMap((id) => columnsOf.get(id) ?? []));
  const columns = model.columns.map(({ cost, lower, upper, whole }, index) => {
    const value = values[index] ?? 0;
    if (whole) return { cost, lower: value, upper: value };
    return { cost, lower, upper: ofLots.has(index) ? upper + 1 : upper };
  });
  const rows = model.rows.map((row, index) => {
    const isMade = madeRows.get(index);
    // What the stock as it is makes at most must not hold what a kilogram more would make.
    return isMade !== undefined && values[isMade] === 1 ? { ...row, upper: MOST_BATCH_KG } : row;
  });
  return { columns, rows };
}

/** The least cost with every limit as certain as the house asks: a plane where a margin is missed, and again. */
function solveSurely(joint: JointModel, open: OpenPlan): Outcome {
  for (let round = 1; ; round++) {
    const outcome = open.solve();
    if (outcome.status !== 'optimal' || round === MOST_ROUNDS) return outcome;
    const cuts = joint.products.flatMap((product) => {
      const { model, chances } = product.candidate;
      const masses = massesOf(product, outcome.values);
      return missesMargin(model, chances, masses).map((chance) =>
        shifted(toRow(tangentCut(model.exact, chance, masses)), product.first),
      );
    });
    if (cuts.length === 0) return outcome;
    for (const cut of cuts) open.addRow(cut);
  }
}

/** Only a model without whole columns can stay with its engine; another is asked anew each time. */
function openPlan<Answer>(
  start: LinearModel,
  engines: readonly Engine[],
  work: (open: OpenPlan) => Answer,
): Answer {
  if (!start.columns.some(({ whole }) => whole)) return keepOpen(start, engines, work);
  const model = { columns: [...start.columns], rows: [...start.rows] };
  return work({
    setCost: (column, cost) => {
      model.columns[column] = { ...(model.columns[column] as Column), cost };
    },
    setRow: (row, lower, upper) => {
      model.rows[row] = { ...(model.rows[row] as Row), lower, upper };
    },
    addRow: (row) => void model.rows.push(row),
    solve: () => solve(model, engines),
    model: () => model,
  });
}

function pointAt(values: readonly number[], costs: readonly number[]): PlanPoint {
  return { values, margin: -costs.reduce((sum, cost, column) => sum + cost * (values[column] ?? 0), 0) };
}

/** Columns of the lots, those that must be used first before the others; lots of one day together. */
function byUrgency({ columnsOf }: JointModel, supplies: readonly Supply[]): number[][] {
  const groups = new Map<string, number[]>();
  for (const { id, lot } of supplies) {
    const columns = columnsOf.get(id) ?? [];
    if (!lot || columns.length === 0) continue;
    const key = urgency(lot);
    groups.set(key, [...(groups.get(key) ?? []), ...columns]);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, columns]) => columns);
}

function urgency({ useByDate = '9999-12-31', receivedDate }: Lot): string {
  return `${useByDate} ${receivedDate}`;
}
