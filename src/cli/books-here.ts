import { doAnyJob } from '../api/all-jobs.ts';
import type { Books } from '../api/books.ts';
import { plantOfStore } from '../api/plant-of-store.ts';
import { RULE_SETS } from '../standards/all.ts';
import type { Store } from '../store/store.ts';
import { loadMaterials } from '../tables/materials.ts';

/** The books of a store for commands that solve nothing: without an engine. */
export function booksHere(store: Store, tablesFolder: string): Books {
  return {
    store,
    ruleSets: RULE_SETS,
    work: (job, of) => doAnyJob(job, of, []),
    doubts: () => ({}),
    plant: plantOfStore(store, loadMaterials(tablesFolder)),
    now: () => new Date(),
  };
}
