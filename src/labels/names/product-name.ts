import type { Market } from '../markets/market.ts';
import { australasianName } from './australasia.ts';
import { canadianName } from './canada.ts';
import { europeanName } from './europe.ts';
import { baseName, type Duty, type Named, type NameOfMarket } from './named.ts';
import { unitedStatesName } from './united-states.ts';

export type { Duty } from './named.ts';

export interface ProductName {
  readonly name: string;
  /** Lines that must stand with the name, each with its citation. */
  readonly qualifiers: readonly Duty[];
}

/** Names by place; where there is no rule of its own the common name stands. */
const NAMES: Readonly<Record<string, (named: Named) => NameOfMarket>> = {
  us: unitedStatesName,
  eu: europeanName,
  gb: europeanName,
  ca: canadianName,
  anz: australasianName,
};

/** The name of a product on the label of a market, with the lines that stand with it. */
export function productName({ jurisdiction }: Market, named: Named): NameOfMarket {
  const name = NAMES[jurisdiction];
  return name ? name(named) : { name: baseName(named), qualifiers: [], cautions: [] };
}
