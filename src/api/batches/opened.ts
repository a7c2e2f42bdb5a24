import type { Supply } from '../../batch/lot.ts';
import type { Declaration } from '../../labels/declaration.ts';
import { labelHashOf, type Step, stepsOf } from '../../making/batch.ts';
import type { Basis } from '../../making/standing.ts';
import type { Floor, Supplies } from '../../making/weighing.ts';
import { batchOrRefuse, stepsOfBatch } from '../../store/batches.ts';
import { documentsOf } from '../../store/documents.ts';
import type { Db } from '../../store/open.ts';
import type { BatchRow } from '../../store/schema.ts';

/** A batch with all that its steps refer to. */
export interface OpenedBatch {
  readonly row: BatchRow;
  readonly steps: readonly Step[];
  readonly basis: Basis;
  readonly supplies: Supplies;
  /** What the label must say: as planned, and by the latest that was weighed. */
  readonly labels: { readonly planned: Declaration; readonly now: Declaration };
}

/** What the weighings of a batch are read with. */
export function floorOf({ supplies, basis }: Pick<OpenedBatch, 'supplies' | 'basis'>): Floor {
  return { supplies, scales: basis.plant.scales };
}

/** @throws Refused 'unknown' or 'changed meanwhile'. */
export async function openedBatch(db: Db, id: string, ifVersion?: number): Promise<OpenedBatch> {
  const row = await batchOrRefuse(db, id, ifVersion);
  const steps = await stepsOfBatch(db, id);
  const [plan] = stepsOf(steps, 'planned');
  if (!plan) throw new Error(`batch ${id} has no plan; verify the store`);
  const lists = [plan.body.suppliesHash, ...stepsOf(steps, 'corrected').map(({ body }) => body.suppliesHash)];
  const singles = stepsOf(steps, 'weighing').flatMap(({ body }) => body.supplyHash ?? []);
  const { labelHash } = plan.body;
  const labelNow = labelHashOf(steps) ?? labelHash;
  const documents = await documentsOf(db, [plan.body.basisHash, labelHash, labelNow, ...lists, ...singles]);
  const supplies = [
    ...singles.map((hash) => documents.get(hash) as Supply),
    ...lists.flatMap((hash) => documents.get(hash) as readonly Supply[]),
  ];
  return {
    row,
    steps,
    basis: documents.get(plan.body.basisHash) as Basis,
    supplies: new Map(supplies.map((supply) => [supply.id, supply])),
    labels: {
      planned: documents.get(labelHash) as Declaration,
      now: documents.get(labelNow) as Declaration,
    },
  };
}

/** A supply as it is kept: what was on hand of it then does not matter, and JSON has no word for "without end". */
export function keptSupply(supply: Supply): Supply {
  const { lot, ...rest } = supply;
  return { ...rest, onHandKg: 0, ...(lot && { lot: { ...lot, onHandKg: 0 } }) };
}
