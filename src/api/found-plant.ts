import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Lot } from '../batch/lot.ts';
import { exact } from '../exact.ts';
import { microgramsOf } from '../ledger/micrograms.ts';
import type { RuleSet } from '../rules/standard.ts';
import { book, openLot } from '../store/lots.ts';
import { revise } from '../store/revisions.ts';
import type { Store, Writing } from '../store/store.ts';
import { HOUSE_RULES_FILE } from '../tables/house-rules.ts';
import type { PlantData } from '../tables/plant-folder.ts';
import { FOUNDED } from './beginning/put-away.ts';
import type { Moment } from './books.ts';
import { loadPlant } from './load-plant.ts';
import type { LotBody } from './plant-of-store.ts';

/** Who wrote what no person did. */
export const PROGRAM = { id: 'program', name: 'meatblock' } as const;

/** Whether anything has been written into a store. */
export async function isFounded(store: Pick<Store, 'read'>): Promise<boolean> {
  const head = await store.read((db) => db.selectFrom('head').select('length').executeTakeFirstOrThrow());
  return head.length > 0;
}

/**
 * Puts a plant's folder into a store that has nothing yet, as its first entry. From then on the store counts. Of two
 * services that start on one new store, one founds the plant and the other finds it.
 * @throws TableError naming the file and place of what is wrong.
 */
export async function foundPlant(
  store: Store,
  folder: string,
  tablesFolder: string,
  ruleSets: readonly RuleSet[],
  moment: (plant: PlantData['plant']) => Moment,
): Promise<void> {
  const data = loadPlant(folder, tablesFolder, ruleSets);
  const act = {
    by: PROGRAM,
    ...moment(data.plant),
    action: FOUNDED,
    subject: { kind: 'plant', id: 'plant' },
  };
  const founding = store.write(act, async (writing) => {
    if (writing.entry > 1) throw FOUNDED_MEANWHILE;
    await revise(writing, 'plant', 'plant', jsonOf(folder, 'plant.json'));
    const houseRules = join(folder, HOUSE_RULES_FILE);
    if (existsSync(houseRules)) {
      await revise(writing, 'house rules', 'house rules', jsonOf(folder, HOUSE_RULES_FILE));
    }
    for (const [id, costPerKg] of data.prices) await revise(writing, 'price', id, { costPerKg });
    for (const [id, { json }] of data.products) await revise(writing, 'product', id, json);
    for (const test of data.fatTests) {
      await writing.append('tests', {
        seq: await writing.nextSeq('tests'),
        subjectKind: 'lot',
        subjectId: test.lotId ?? '',
        body: JSON.stringify(test),
        at: writing.act.at,
        day: test.date,
        personId: PROGRAM.id,
      });
    }
    for (const lot of data.lots) await receive(writing, lot);
    return { says: `${data.plant.name} was set up from its files`, result: null };
  });
  await founding.catch((error: unknown) => {
    if (error !== FOUNDED_MEANWHILE) throw error;
  });
}

const FOUNDED_MEANWHILE = new Error('another service has founded the plant meanwhile');

async function receive(writing: Writing, lot: Lot): Promise<void> {
  const { id, materialId, onHandKg, receivedDate, useByDate, held, ...rest } = lot;
  const body: LotBody = { ...rest, ...(held !== undefined && { holdReason: held }) };
  await openLot(writing, {
    id,
    kind: 'material',
    ofId: materialId,
    body,
    receivedDay: receivedDate,
    ...(useByDate !== undefined && { useByDay: useByDate }),
    held: held !== undefined,
  });
  await book(writing, { lotId: id, kind: 'received', massUg: microgramsOf(exact(onHandKg)), reservedUg: 0 });
}

function jsonOf(folder: string, name: string): unknown {
  return JSON.parse(readFileSync(join(folder, name), 'utf8'));
}
