import { costOf, misses } from './check.ts';
import { ModelFault } from './guard.ts';
import type { Column, Engine, LinearModel, OpenModel, Row } from './model.ts';
import { type PricedOutcome, solvePriced } from './prices.ts';
import { rowScale, scaleRow } from './scale.ts';
import { inOrder } from './solve.ts';

/** A model to be asked many times with little changed in between. */
export interface KeptModel {
  readonly setCost: (column: number, cost: number) => void;
  readonly setColumn: (column: number, lower: number, upper: number) => void;
  readonly setRow: (row: number, lower: number, upper: number) => void;
  /** @returns the place of the row. */
  readonly addRow: (row: Row) => number;
  readonly solve: () => PricedOutcome;
  /** The model as it stands at the moment. */
  readonly model: () => LinearModel;
}

/**
 * Gives the model to an engine that keeps it, for as long as the work lasts. Every answer is checked against the model
 * as it stands; one that does not hold, or an engine that fails, is doubted and the model is solved anew by all
 * engines.
 * @throws ModelFault when columns are whole: their counts have no prices and need polishing.
 */
export function keepOpen<Answer>(
  start: LinearModel,
  engines: readonly Engine[],
  work: (kept: KeptModel) => Answer,
): Answer {
  if (start.columns.some(({ whole }) => whole)) throw new ModelFault('a model kept open has whole columns');
  const columns: Column[] = [...start.columns];
  const rows: Row[] = [...start.rows];
  const factors = rows.map(rowScale);
  const model: LinearModel = { columns, rows };
  const keeper = inOrder(start, engines).find(({ open }) => open);
  let open: OpenModel | undefined;
  /** An engine that failed may fail again when it is asked to clear up. */
  const close = () => {
    const closing = open;
    open = undefined;
    try {
      closing?.close();
    } catch (error) {
      keeper?.doubted?.(`an open model did not close: ${(error as Error).message}`);
    }
  };
  const doubt = (why: string) => {
    keeper?.doubted?.(why);
    close();
  };
  const tell = (change: (opened: OpenModel) => void) => {
    if (!open) return;
    try {
      change(open);
    } catch (error) {
      doubt(`an open model failed: ${(error as Error).message}`);
    }
  };
  const answer = (): PricedOutcome | undefined => {
    if (!open) return undefined;
    try {
      const outcome = open.solve();
      if (outcome.status !== 'optimal') return outcome;
      const { values, rowPrices } = outcome;
      const found = misses(model, values);
      if (found.length === 0 && rowPrices) {
        return {
          status: 'optimal',
          values,
          cost: costOf(model, values),
          rowPrices: rowPrices.map((price, row) => price * (factors[row] ?? 1)),
        };
      }
      doubt(`an open model misses ${found.map(({ what }) => what).join(', ')}`);
    } catch (error) {
      doubt(`an open model failed: ${(error as Error).message}`);
    }
    return undefined;
  };
  try {
    open = keeper?.open?.({
      columns,
      rows: rows.map((row, index) => scaleRow(row, factors[index] as number)),
    });
  } catch (error) {
    doubt(`it opens no model: ${(error as Error).message}`);
  }
  try {
    return work({
      setCost: (column, cost) => {
        columns[column] = { ...(columns[column] as Column), cost };
        tell((opened) => opened.setCost(column, cost));
      },
      setColumn: (column, lower, upper) => {
        columns[column] = { ...(columns[column] as Column), lower, upper };
        tell((opened) => opened.setColumn(column, lower, upper));
      },
      setRow: (row, lower, upper) => {
        const factor = factors[row] ?? 1;
        rows[row] = { ...(rows[row] as Row), lower, upper };
        tell((opened) => opened.setRow(row, lower * factor, upper * factor));
      },
      addRow: (row) => {
        const factor = rowScale(row);
        rows.push(row);
        factors.push(factor);
        tell((opened) => opened.addRow(scaleRow(row, factor)));
        return rows.length - 1;
      },
      // What an open model says of infeasible or unbounded is as much as any engine says.
      solve: () => answer() ?? solvePriced(model, engines),
      model: () => model,
    });
  } finally {
    close();
  }
}
