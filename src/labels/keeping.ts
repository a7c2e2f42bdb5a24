import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { type Cited, cite, type Market } from './markets/market.ts';
import type { Duty } from './names/named.ts';

/** How the product is kept and until when, and who made it. */
export interface Keeping {
  readonly storage: Duty;
  readonly safeHandling?: Duty;
  /** What raw product asks of whoever cooks it. */
  readonly cookingInstruction?: Duty;
  readonly inspection: Duty;
  /** Name and place of the maker; absent where the plant has no address. */
  readonly maker?: Duty;
  /** The words that stand before the date, or dates; absent where the market asks for none. */
  readonly date?: Duty;
}

/** @param isPoultry whether the rules of poultry are cited, where a market has them apart. */
export function keeping(
  { keeping: rules }: Market,
  product: Product,
  plant: Plant,
  isPoultry: boolean,
): Keeping {
  const { storage, safeHandling, cooking, inspection, date, maker } = rules;
  const isRaw = product.process.cooking === 'raw';
  const isFrozen = product.label.storage === 'keep frozen';
  const duty = (text: string, cited: Cited): Duty => ({ text, citation: cite(cited, isPoultry) });
  return {
    storage: duty(isFrozen ? storage.frozen : storage.chilled, storage),
    ...(safeHandling && isRaw && { safeHandling: duty(safeHandling.text, safeHandling) }),
    ...(cooking && isRaw && { cookingInstruction: duty(cooking.text, cooking) }),
    inspection: duty(`${inspection.before}${plant.establishment}${inspection.after}`, inspection),
    ...(plant.address && { maker: duty([plant.name, ...plant.address].join(', '), maker) }),
    ...(date && { date: duty(dateWords(date, product, isFrozen), date) }),
  };
}

/** What is kept chilled and was not dried spoils fast enough to be a danger; how long it keeps, the plant proves. */
function dateWords(
  { perishable, other, frozen }: NonNullable<Market['keeping']['date']>,
  { process }: Product,
  isFrozen: boolean,
): string {
  if (isFrozen) return process.cooking === 'raw' && frozen ? `${other}; ${frozen}` : other;
  return process.cooking === 'dried' ? other : perishable;
}
