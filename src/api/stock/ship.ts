import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { book, findLot, listMovements } from '../../store/lots.ts';
import type { LotRow } from '../../store/schema.ts';
import type { Writing } from '../../store/store.ts';
import { massText } from '../../units.ts';
import { type Books, change } from '../books.ts';
import { shipmentSchema } from '../contract/movements.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { weight } from './lot-view.ts';
import { movementAnswers } from './movement-view.ts';
import { underWay } from './people.ts';
import { refuseUnfitForUse, takenDetails, takenUg } from './take.ts';
import { notReviewed } from './unreviewed.ts';

type Shipment = ReturnType<typeof shipmentSchema.parse>;

/** Several lots leave together: all of them or none. */
export async function ship(books: Books, call: Call): Promise<Answer> {
  const shipment = parseOrProblem(shipmentSchema, call.body);
  const { to, document, lines } = shipment;
  const { plant } = await books.plant();
  const what = { action: 'lots shipped', subject: { kind: 'shipment', id: document } };
  return change(books, call, what, async (writing) => {
    let totalUg = 0;
    const seqs: number[] = [];
    const shipped: LotRow[] = [];
    for (const index of lines.keys()) {
      const { seq, massUg, row } = await shipLine(writing, shipment, index);
      totalUg += massUg;
      seqs.push(seq);
      shipped.push(row);
    }
    const all = await listMovements(writing.db, { afterSeq: Math.min(...seqs) - 1 });
    const movements = await movementAnswers(writing.db, all, underWay(writing));
    const cautions = await notReviewed(writing.db, shipped);
    const lots = [...new Set(lines.map(({ lotId }) => lotId))].join(', ');
    return {
      says: `${massText(kilogramsOfMicrograms(totalUg), plant.units)} shipped to ${to}, document ${document}: ${lots}`,
      result: { body: { to, document, total: weight(totalUg), movements, cautions } },
    };
  });
}

async function shipLine(writing: Writing, { lines, to, document }: Shipment, index: number) {
  const line = lines[index];
  const row = line && (await findLot(writing.db, line.lotId));
  if (!row) {
    throw new Refused('unknown', `There is no lot "${line?.lotId}"; correct the id`, [
      'lines',
      index,
      'lotId',
    ]);
  }
  refuseUnfitForUse(row, writing.act.day, ['lines', index, 'lotId']);
  const massUg = await takenUg(writing.db, row, line, ['lines', index]);
  const seq = await book(writing, {
    lotId: row.id,
    kind: 'shipped',
    massUg: -massUg,
    reservedUg: 0,
    details: { ...takenDetails(line), to, document },
  });
  return { seq, massUg, row };
}
