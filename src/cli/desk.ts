import type { Desk } from '../api/blending.ts';
import { dayAt } from '../api/books.ts';
import { doJob } from '../api/jobs.ts';
import { loadPlant } from '../api/load-plant.ts';
import { folderOf, storeUrlOf } from '../api/settings.ts';
import type { EngineName } from '../solver/engine-names.ts';
import { loadEngines } from '../solver/engines/load.ts';
import { RULE_SETS } from '../standards/all.ts';
import { loadMaterials } from '../tables/materials.ts';
import type { PlantData } from '../tables/plant-folder.ts';
import { refuseNoStore } from './where-the-store-is.ts';

interface Where {
  readonly plant?: string | undefined;
  readonly tables?: string | undefined;
  readonly store?: string | undefined;
}

/** The plant as its store has it, or as its files do where no store is named. */
export async function openDesk(
  { plant, tables, store }: Where,
  engine: EngineName | undefined,
): Promise<Desk> {
  const plantFolder = folderOf(plant, 'demo-data', process.env);
  const tablesFolder = folderOf(tables, 'ingredient-tables', process.env);
  const named = store ?? process.env.STORE;
  const data =
    named === undefined
      ? loadPlant(plantFolder, tablesFolder, RULE_SETS)
      : await plantInStore(storeUrlOf(named, plantFolder, process.env), tablesFolder);
  return {
    data,
    ruleSets: RULE_SETS,
    today: () => data.plant.demoDate ?? dayAt(data.plant.timeZone, new Date()),
    work: async (name, of) => doJob(name, of, (await loadEngines(engine)).engines),
  };
}

/** Only looks: the service may be running on the same store. */
async function plantInStore(url: string, tablesFolder: string): Promise<PlantData> {
  refuseNoStore(url);
  // Only now: who asks the files does not wait for what reads databases.
  const { plantOfStore } = await import('../api/plant-of-store.ts');
  const { snapshot } = await import('../store/snapshot.ts');
  const tables = loadMaterials(tablesFolder);
  return snapshot(url, (db) => plantOfStore({ read: (look) => look(db) }, tables)());
}
