import { asStoreFault } from './faults.ts';
import { atOneMoment, connect, type Db } from './open.ts';
import type { StoreUrl } from './store-url.ts';

/**
 * Looks at a store as it is at one moment, over a connection of its own that cannot write. The service may go on
 * writing meanwhile: nothing of that is seen.
 * @throws StoreFault when the store cannot be reached or read, or its tables are not those of this version.
 */
export async function snapshot<Result>(url: StoreUrl, look: (db: Db) => Promise<Result>): Promise<Result> {
  const { db, dialect, close } = await connect(url, { readOnly: true });
  try {
    return await atOneMoment(db, dialect).execute(look);
  } catch (error) {
    throw asStoreFault(error);
  } finally {
    await close();
  }
}
