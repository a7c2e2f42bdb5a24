import type { PackFormat } from '../../batch/product.ts';
import { compare, exact, multiply, toText } from '../../exact.ts';
import { kilogramsOfMicrograms, microgramsOf } from '../../ledger/micrograms.ts';
import { drawnUg, freeUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import { type ScaleWeight, stepsOf } from '../../making/batch.ts';
import { exactKg, weightUg } from '../../making/standing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { book, lotOrRefuse, openLot } from '../../store/lots.ts';
import type { LotRow } from '../../store/schema.ts';
import { fixed, massText } from '../../units.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { formatOf } from '../labels/format.ts';
import { parseOrProblem } from '../parse.ts';
import { refuseUnfitForUse } from '../stock/take.ts';
import { type PackRequest, packSchema } from './contract.ts';
import { type OpenedBatch, openedBatch } from './opened.ts';
import { answered } from './steps.ts';
import { refusePastUse } from './use-by.ts';

/** Packs out of the product: what they hold leaves the bulk. */
export async function packBatch(books: Books, call: Call): Promise<Answer> {
  const { packs } = parseOrProblem(packSchema, call.body);
  const { id = '' } = call.params;
  const { products } = await books.plant();
  return change(books, call, { action: 'batch packed', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'packed');
    const { basis, row, steps } = batch;
    let number = stepsOf(steps, 'packed').reduce((count, { body }) => count + body.packs.length, 0);
    const product = products.get(row.productId)?.product ?? basis.product;
    const made = [];
    for (const [index, request] of packs.entries()) {
      const { count, filled, useByDate, location } = request;
      const format =
        request.format === undefined
          ? undefined
          : formatOf(product, request.format, ['packs', index, 'format']);
      const net = declaredNet(request, format, index);
      const bulk = await lotOrRefuse(writing.db, id);
      refuseUnfitForUse(bulk, writing.act.day, []);
      refuseLongerUse(bulk, useByDate, index);
      refusePastUse(useByDate, writing.act.day, ['packs', index, 'useByDate']);
      const declaredUg = microgramsOf(multiply(exactKg(net), exact(count)));
      const filledUg = filled ? weightUg(filled) : declaredUg;
      refuseOddFill(request, net, filledUg / declaredUg, index);
      const lotId = `${id}-P${++number}`;
      const massUg = drawnUg(filledUg, freeUg(bulk));
      if (massUg > freeUg(bulk)) throw short(bulk, massUg, index, basis);
      const useByDay = useByDate ?? bulk.useByDay ?? undefined;
      const { state = 'chilled', costPerKg = 0 } = JSON.parse(bulk.body) as {
        state?: string;
        costPerKg?: number;
      };
      await openLot(writing, {
        id: lotId,
        kind: 'pack',
        ofId: row.productId,
        batchId: id,
        body: {
          product: basis.product.name,
          state,
          costPerKg,
          count,
          net,
          ...(format && { format }),
          ...(location !== undefined && { location }),
        },
        receivedDay: writing.act.day,
        ...(useByDay !== undefined && { useByDay }),
      });
      const both = { kind: 'packed', reservedUg: 0, batchId: id } as const;
      await book(writing, { ...both, lotId: id, massUg: -massUg, otherLotId: lotId });
      await book(writing, { ...both, lotId, massUg, otherLotId: id, details: { count, net } });
      made.push({ lotId, count, net, massUg });
    }
    await takeStep(writing, row, 'packed', { packs: made });
    const total = made.reduce((sum, { count }) => sum + count, 0);
    return answered(writing, id, `${total} packs`);
  });
}

/** What each pack declares. Of packs that are weighed one by one it is the mean of what they hold, rounded down. */
function declaredNet(
  { count, net, filled }: PackRequest,
  format: PackFormat | undefined,
  index: number,
): ScaleWeight {
  const refused = (field: string, message: string) => new Refused('unfit', message, ['packs', index, field]);
  if (!format) return net as ScaleWeight;
  if (format.netWeight) {
    const { value, unit } = format.netWeight;
    if (!net || compare(exactKg(net), exactKg(format.netWeight)) === 0) return net ?? format.netWeight;
    throw refused(
      'net',
      `Pack ${format.id} declares ${value} ${unit}, not ${net.value} ${net.unit}; leave net out, or name another format`,
    );
  }
  if (net) {
    throw refused('net', `Packs ${format.id} are weighed one by one; give what they hold together as filled`);
  }
  if (!filled) {
    throw refused(
      'filled',
      `Packs ${format.id} are weighed one by one; give what they hold together, such as {"value": "57.35", "unit": "lb"}`,
    );
  }
  const { digits, scale } = exact(filled.value);
  const mean = (digits * 1000n) / (10n ** BigInt(scale) * BigInt(count));
  if (mean === 0n) throw refused('filled', `${filled.value} ${filled.unit} is too little for ${count} packs`);
  return { value: toText({ digits: mean, scale: 3 }), unit: filled.unit };
}

/** Packs that the product does not fill: a slip, or more of it is there than the books say. */
function short(bulk: LotRow, wantedUg: number, index: number, { plant }: OpenedBatch['basis']): Refused {
  const text = (ug: number) => massText(kilogramsOfMicrograms(ug), plant.units);
  return new Refused(
    'short',
    `These packs hold ${text(wantedUg)}; ${text(freeUg(bulk))} of lot ${bulk.id} is left for them. Check count, net and filled; if more is there, count lot ${bulk.id} and adjust it first.`,
    ['packs', index, 'count'],
  );
}

/** No pack keeps longer than what is in it. */
function refuseLongerUse(
  { id, useByDay }: Pick<LotRow, 'id' | 'useByDay'>,
  useByDate: string | undefined,
  index: number,
): void {
  if (useByDate === undefined || useByDay === null || useByDate <= useByDay) return;
  throw new Refused(
    'unfit',
    `${useByDate} is later than the use-by date of lot ${id}, ${useByDay}. Give that day or an earlier one, or change the lot first.`,
    ['packs', index, 'useByDate'],
  );
}

/** Above this share over the declared weight the figures are a slip. Own judgement. */
const MOST_OVERFILL = 1.1;

/** A label promises its net weight; packs that hold less on the average break it (9 CFR part 442, from memory, verify). */
function refuseOddFill({ count, filled }: PackRequest, net: ScaleWeight, share: number, index: number): void {
  if (!filled || (share >= 1 && share <= MOST_OVERFILL)) return;
  const fix = share < 1 ? 'Fill them up, or declare less' : 'Check count, net and filled';
  throw new Refused(
    'unfit',
    `${count} packs of ${net.value} ${net.unit} were filled with ${filled.value} ${filled.unit}, ${fixed(share * 100, 1)} % of what they declare. ${fix}.`,
    ['packs', index, 'filled'],
  );
}
