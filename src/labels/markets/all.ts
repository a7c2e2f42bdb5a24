import { ANZ_MARKET } from './anz.ts';
import { CA_MARKET } from './ca.ts';
import { CODEX_MARKET } from './codex.ts';
import { EU_MARKET } from './eu.ts';
import { GB_MARKET } from './gb.ts';
import type { Market } from './market.ts';
import { US_MARKET } from './us.ts';

export const MARKETS: readonly Market[] = [
  US_MARKET,
  EU_MARKET,
  GB_MARKET,
  CA_MARKET,
  CODEX_MARKET,
  ANZ_MARKET,
];

/** The label rules of a place. @throws RangeError when there are none: a label must not follow those of another. */
export function marketOf(jurisdiction: string): Market {
  const found = MARKETS.find((market) => market.jurisdiction === jurisdiction);
  if (found) return found;
  const known = MARKETS.map((market) => market.jurisdiction).join(', ');
  throw new RangeError(`no label rules of ${jurisdiction}; there are those of ${known}`);
}
