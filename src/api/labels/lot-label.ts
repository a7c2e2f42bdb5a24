import type { GivenWeight, PackFormat } from '../../batch/product.ts';
import { type PackLabel, packLabel } from '../../labels/packs/pack-label.ts';
import { Refused } from '../../ledger/refused.ts';
import { lotOrRefuse } from '../../store/lots.ts';
import { openedBatch } from '../batches/opened.ts';
import type { Books } from '../books.ts';
import type { LotLabelQuery } from './contract.ts';
import { refusable } from './make.ts';

/** What a lot of packs keeps of how they are labelled. */
interface PackBody {
  readonly net?: GivenWeight;
  readonly format?: PackFormat;
  readonly holdReason?: string;
}

/**
 * The label of a lot of packs: of the declaration that its batch keeps, the plant as it was planned under and the pack
 * as it was when it was packed, so that it comes out the same years later. What the plant had not yet said then
 * (its address, its price code) is taken as it stands now.
 * @throws Refused, Problem
 */
export async function labelOfLot(books: Books, id: string, query: LotLabelQuery): Promise<PackLabel> {
  const present = (await books.plant()).plant;
  const { row, batch } = await books.store.read(async (db) => {
    const lot = await lotOrRefuse(db, id);
    if (lot.kind !== 'pack' || lot.batchId === null) {
      throw new Refused('unfit', `Lot ${id} is no packs; name a lot of packs, such as ${id}-P1`, ['id']);
    }
    return { row: lot, batch: await openedBatch(db, lot.batchId) };
  });
  const { format, net: kept, holdReason } = JSON.parse(row.body) as PackBody;
  const { product, standard, plant } = batch.basis;
  const isWeighed = format !== undefined && !format.netWeight;
  const { net: value, unit = plant.units } = query;
  if (value !== undefined && !isWeighed) {
    throw new Refused(
      'unfit',
      `The packs of lot ${id} all declare ${kept?.value} ${kept?.unit}; leave net out`,
      ['net'],
    );
  }
  const net = isWeighed ? value && { value, unit } : kept;
  const address = plant.address ?? present.address;
  const printing = plant.printing ?? present.printing;
  const label = refusable(() =>
    packLabel({
      declaration: batch.labels.now,
      product,
      standard,
      plant: { ...plant, ...(address && { address }), ...(printing && { printing }) },
      ...(format && { format }),
      ...(net && { net }),
      lotId: id,
      packedDate: row.receivedDay,
      ...(row.useByDay !== null && { useByDate: row.useByDay }),
    }),
  );
  if (row.held !== 1) return label;
  const hold = `Lot ${id} is on hold (${holdReason ?? 'no reason given'}): label it, but do not let it go.`;
  return { ...label, cautions: [hold, ...label.cautions] };
}
