import type { PackFormat, Product } from '../../batch/product.ts';
import { Refused } from '../../ledger/refused.ts';

/** A pack of the product by its id. @throws Refused 'unfit' naming those that there are. */
export function formatOf(
  { name, label }: Product,
  id: string,
  path: readonly (string | number)[],
): PackFormat {
  const packs = label.packs ?? [];
  const found = packs.find((pack) => pack.id === id);
  if (found) return found;
  const known =
    packs.length > 0
      ? `its packs are ${packs.map((pack) => pack.id).join(', ')}`
      : "it has none; add them to the product's label.packs";
  throw new Refused('unfit', `"${id}" is no pack of ${name}; ${known}`, path);
}
