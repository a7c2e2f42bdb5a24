import type { TrimSeriesAnswer } from '../../api/reports/contract.ts';
import { useShow } from '../figures/show.ts';
import { Nothing, Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { CHART } from './chart-words.ts';
import { FatChart } from './fat-chart.tsx';
import { SmallChart } from './small-chart.tsx';
import type { Trim } from './trim.ts';
import { RECORDS } from './words.ts';

/** Lots that one chart holds. */
const LATEST = 60;

const trimAt = ({ materialId, supplierEstablishment }: Trim) =>
  to('records', 'tests') + queryOf({ trim: materialId, supplier: supplierEstablishment });

/** Fat tests over time, a chart for each supplier's trim. */
export function TestsPlace({ query }: { readonly query: URLSearchParams }) {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const show = useShow();
  const reading = useAnswer<TrimSeriesAnswer>(`/reports/trim?limit=${LATEST}`);
  return (
    <>
      <h1>{t.tabs.tests}</h1>
      <Read of={reading}>
        {({ items }) => {
          const chosen =
            items.find(
              ({ materialId, supplierEstablishment }) =>
                materialId === query.get('trim') && supplierEstablishment === query.get('supplier'),
            ) ?? [...items].sort((one, other) => other.lots.length - one.lots.length)[0];
          if (!chosen) {
            return (
              <Nothing>
                <p>{w.noTests}</p>
              </Nothing>
            );
          }
          return (
            <>
              <nav class="small-charts" aria-label={w.chooseTrim}>
                {items.map((trim) => (
                  <a
                    key={trimAt(trim)}
                    href={trimAt(trim)}
                    aria-current={trim === chosen ? 'true' : undefined}
                  >
                    <strong>{trim.material}</strong>
                    <span>{t.est(trim.supplierEstablishment)}</span>
                    <SmallChart trim={trim} />
                    <span>
                      {w.lots(trim.lotCount)}, {show.percent(trim.meanFraction)} ±{' '}
                      {show.number(trim.sdFraction * 100, 1)}
                    </span>
                  </a>
                ))}
              </nav>
              <FatChart key={trimAt(chosen)} trim={chosen} />
            </>
          );
        }}
      </Read>
    </>
  );
}
