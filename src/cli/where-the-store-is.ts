import { existsSync } from 'node:fs';
import { folderOf, storeUrlOf } from '../api/settings.ts';
import { CopyRefused } from '../store/copy-refused.ts';
import { dialectOf, type StoreUrl } from '../store/store-url.ts';
import type { Options } from './arguments.ts';

/** Looking makes no store: a name that is mistyped must not look like books that are lost. @throws CopyRefused */
export function refuseNoStore(url: StoreUrl): void {
  if (dialectOf(url) !== 'SQLite' || existsSync(url)) return;
  throw new CopyRefused(
    `There is no store ${url}. Name it with --store or STORE; a new plant has one after the first start of the service.`,
  );
}

/** The store that the command line or the environment names, or the one in the plant's folder. */
export function storeUrlFrom({ plant, store }: Options): StoreUrl {
  return storeUrlOf(store ?? process.env.STORE, folderOf(plant, 'demo-data', process.env), process.env);
}
