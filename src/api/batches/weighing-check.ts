import type { Supply } from '../../batch/lot.ts';
import { Refused } from '../../ledger/refused.ts';
import type { LimitStanding, Step } from '../../making/batch.ts';
import { foundLoads } from '../../making/found-mix.ts';
import { isMissed, standingOfLoads, weightUg } from '../../making/standing.ts';
import { refuseOutOfTurn } from '../../store/batches.ts';
import type { Db } from '../../store/open.ts';
import { type Books, momentOf } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { problemOfRefusal } from '../refusals.ts';
import { type Weighing, type WeighingCheck, weighingSchema } from './contract.ts';
import { ofUg } from './lines-view.ts';
import { drawable, lineOf, otherSupply, placeOf, refuseSlip, refuseUnexplained } from './may-weigh.ts';
import { floorOf, type OpenedBatch, openedBatch } from './opened.ts';

/**
 * What a weighing would do, told before it is booked: all that it would be refused for, and how every limit would stand
 * with it. Whoever stands at the mixer sees it while the weight is typed and nothing is in yet.
 */
export async function checkWeighing(books: Books, call: Call): Promise<Answer> {
  const weighing = parseOrProblem(weighingSchema, call.body);
  const { id = '' } = call.params;
  const plant = await books.plant();
  const { day } = momentOf(plant, books.now());
  return { body: await books.store.read((db) => checked(db, id, plant, day, weighing)) };
}

async function checked(
  db: Db,
  id: string,
  plant: PlantBooks,
  today: string,
  { line: number, load, weight, lotId, reason, meant }: Weighing,
): Promise<WeighingCheck> {
  const batch = await openedBatch(db, id);
  refuseOutOfTurn(batch.row, 'weighing');
  const line = lineOf(batch, number, load);
  const place = placeOf(batch, line, load);
  const taken = lotId ?? line.lotId;
  const isOther = taken !== line.lotId;
  const wantedUg = weightUg(weight);
  const refusals: Refused[] = [];
  const other = await tried(refusals, () =>
    isOther && taken !== undefined ? otherSupply(batch, plant, line, taken) : undefined,
  );
  const mayGoIn = refusals.length === 0;
  if (isOther) await tried(refusals, () => refuseUnexplained(line, taken, reason));
  await tried(refusals, () => refuseSlip(batch, line, { load, wantedUg, isOther, reason, meant }));
  if (taken !== undefined) await tried(refusals, () => drawable(db, batch, taken, weight, today));
  const thereUg = place.weighedUg + wantedUg;
  const { overUg, underUg } = place.tolerance;
  const offUg = thereUg - place.plannedUg;
  const body = { load, line: number, materialId: other?.material.id ?? line.materialId, weight };
  return {
    line: number,
    load,
    planned: ofUg(place.plannedUg),
    there: ofUg(thereUg),
    fit: offUg > overUg ? 'above' : -offUg > underUg ? 'short' : 'within',
    refusals: refusals.map(asAnswer),
    ...(mayGoIn && {
      limits: limitsWith(
        batch,
        { ...body, massUg: wantedUg, ...(taken !== undefined && { lotId: taken }) },
        other,
      ),
    }),
  };
}

/** What it gives; a refusal is kept beside the others. */
async function tried<Given>(
  refusals: Refused[],
  attempt: () => Given | Promise<Given>,
): Promise<Given | undefined> {
  try {
    return await attempt();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    refusals.push(error);
    return undefined;
  }
}

function asAnswer(refused: Refused): WeighingCheck['refusals'][number] {
  const { kind, message, errors } = problemOfRefusal(refused);
  const [first] = errors ?? [];
  return { kind, message, ...(first && { pointer: first.pointer }) };
}

/** Every limit as if the weighing were booked as the next step. */
function limitsWith(
  batch: OpenedBatch,
  body: Extract<Step, { kind: 'weighing' }>['body'],
  other: Supply | undefined,
): WeighingCheck['limits'] {
  const { steps, basis } = batch;
  const floor = floorOf(batch);
  const supplies = other ? new Map([...floor.supplies, [other.id, other]]) : floor.supplies;
  const step: Step = { number: steps.length + 1, kind: 'weighing', body, at: '', day: '', person: '' };
  const standing = (all: readonly Step[]) =>
    standingOfLoads(basis, foundLoads(all, { ...floor, supplies })).limits;
  const missedNow = standing(steps).filter(isMissed);
  return standing([...steps, step]).map((limit) => ({
    ...limit,
    isMissed: isMissed(limit),
    wasMissed: missedNow.some((now) => isSameLimit(now, limit)),
  }));
}

const isSameLimit = (a: LimitStanding, b: LimitStanding) => a.limitId === b.limitId && a.load === b.load;
