import type { RuleSet } from '../rules/standard.ts';
import type { Store } from '../store/store.ts';
import { loadMaterials } from '../tables/materials.ts';
import { momentOf } from './books.ts';
import { foundPlant, isFounded } from './found-plant.ts';
import { type PlantBooks, plantOfStore } from './plant-of-store.ts';
import type { Settings } from './settings.ts';

/**
 * The plant that a store holds; an empty store is founded from the plant's folder first.
 * @throws TableError naming the file and place of what is wrong in the folder or the tables.
 */
export async function openPlant(
  store: Store,
  { plantFolder, tablesFolder }: Pick<Settings, 'plantFolder' | 'tablesFolder'>,
  ruleSets: readonly RuleSet[],
): Promise<() => Promise<PlantBooks>> {
  if (!(await isFounded(store))) {
    await foundPlant(store, plantFolder, tablesFolder, ruleSets, (plant) => momentOf({ plant }, new Date()));
  }
  const plant = plantOfStore(store, loadMaterials(tablesFolder));
  // A store that cannot be read is found out now, not at the first request.
  await plant();
  return plant;
}
