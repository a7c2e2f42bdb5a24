import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { useWords } from '../words/words.ts';
import { meatLines } from './blend-bar.tsx';
import { type PriceRow, priceRows, scaleOf } from './price-rows.ts';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

/** For each lot its price, and the prices between which this blend stays the best. */
export function PriceRanges({ blend, worth }: Pick<Viewed, 'blend' | 'worth'>) {
  const t = useWords(BLEND);
  const show = useShow();
  if (!worth) return null;
  const meat = new Set(meatLines(blend).map(({ supplyId }) => supplyId));
  const rows = priceRows(worth).filter(({ isUsed, supplyId }) => !isUsed || meat.has(supplyId));
  if (rows.length === 0) return null;
  const at = scaleOf(rows);
  const percent = (share: number) => `${(share * 100).toFixed(2)}%`;
  const says = ({ isUsed, from, to }: PriceRow) => {
    if (isUsed)
      return to === undefined
        ? t.bestFrom(show.price(from ?? 0))
        : t.bestBetween(show.price(from ?? 0), show.price(to));
    return from === undefined ? t.neverEnters : t.entersBelow(show.price(from));
  };
  return (
    <section class="card">
      <Figure
        title={t.pricesTitle}
        caption={t.pricesSays}
        columns={[
          { says: t.lot, of: ({ supplyId, material }: PriceRow) => `${supplyId} ${material}`, isName: true },
          { says: t.price, of: ({ price }: PriceRow) => show.price(price), isNumber: true },
          { says: t.pricesTitle, of: says },
        ]}
        rows={rows}
        keyOf={({ supplyId }: PriceRow) => supplyId}
      >
        <ul class="blend-prices">
          {rows.map((row) => (
            <li key={row.supplyId}>
              <span class="blend-price-name">
                <b>{row.supplyId}</b>
                <span class="aside">{row.isUsed ? t.used : t.unused}</span>
              </span>
              <svg
                class={row.isUsed ? 'used' : 'unused'}
                role="img"
                aria-label={`${row.supplyId}: ${show.price(row.price)}, ${says(row)}`}
              >
                <line x1="0" x2="100%" y1="50%" y2="50%" class="track" />
                {row.from !== undefined && (
                  <rect
                    x={percent(at(row.from))}
                    width={percent(Math.max(0.004, at(row.to ?? Number.POSITIVE_INFINITY) - at(row.from)))}
                    y="30%"
                    height="40%"
                    rx="4"
                    class="band"
                  />
                )}
                <line x1={percent(at(row.price))} x2={percent(at(row.price))} y1="8%" y2="92%" class="mark" />
              </svg>
              <span class="number">{show.price(row.price)}</span>
            </li>
          ))}
        </ul>
      </Figure>
    </section>
  );
}
