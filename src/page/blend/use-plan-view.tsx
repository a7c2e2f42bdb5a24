import type { UsePlanAnswer } from '../../api/contract/use-plan.ts';
import { fixed } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Notice } from '../parts/notice.tsx';
import { Table } from '../parts/table.tsx';
import { Figure } from '../pictures/figure.tsx';
import { useDraft } from '../service/draft.ts';
import { go, to } from '../shell/place.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type Asking, askingAtFirst, NOT_TRIED } from './asking.ts';
import { USE_UP } from './use-up-words.ts';
import { BLEND } from './words.ts';

type Plan = Extract<UsePlanAnswer, { outcome: 'plan' }>;
type Product = Plan['products'][number];
type Lot = Plan['lots'][number];

/** What to make of the trim, and what becomes of each lot. */
export function UsePlanView({ answer }: { readonly answer: UsePlanAnswer }) {
  const t = useWords(USE_UP);
  const say = useSay();
  return (
    <>
      {answer.outcome === 'plan' ? (
        <Made plan={answer} />
      ) : (
        <Notice kind="caution" isUrgent>
          {t.nothing}
        </Notice>
      )}
      {answer.notMade.length > 0 && (
        <details class="card" open={answer.outcome !== 'plan'}>
          <summary>{t.notMade}</summary>
          <ul>
            {answer.notMade.map(({ product, name, because }) => (
              <li key={product}>
                <b>{name}</b>: {because.map(say).join(' ')}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Made({ plan }: { readonly plan: Plan }) {
  const t = useWords(USE_UP);
  const own = useWords(BLEND);
  const show = useShow();
  const say = useSay();
  const draft = useDraft<Asking>('blend', askingAtFirst(show.units));
  const toBlend = ({ product, planned, weighed }: Product) => {
    const mass = (weighed ?? planned).raw[show.units];
    draft.set({
      productId: product,
      sizeText: show.number(Number(fixed(mass, 1)), 1),
      sizeUnit: show.units,
      sizeBy: 'total',
      excluded: [],
      ...NOT_TRIED,
    });
    go(to('blend'));
  };
  return (
    <>
      <section class="card stack">
        <h2>{t.result}</h2>
        <p class="blend-figure">
          <strong>{show.money(plan.margin.weighed)}</strong> <span>{t.margin}</span>
        </p>
        <Table
          caption={t.result}
          rows={plan.products}
          keyOf={({ product }) => product}
          columns={[
            { says: own.product, of: ({ name }) => name, isName: true },
            {
              says: t.raw,
              isNumber: true,
              of: ({ planned, weighed }) => show.mass((weighed ?? planned).raw.kg),
            },
            {
              says: t.finished,
              isNumber: true,
              isExtra: true,
              of: ({ planned, weighed }) => show.mass((weighed ?? planned).finished.kg),
            },
            {
              says: t.margin,
              isNumber: true,
              of: ({ planned, weighed }) => show.money((weighed ?? planned).margin),
            },
            {
              says: <span class="unseen">{t.look}</span>,
              of: (product) => <Button onClick={() => toBlend(product)}>{t.look}</Button>,
            },
          ]}
        />
        {plan.products.flatMap(({ product, name, notWeighed = [] }) =>
          notWeighed.map((why) => (
            <Notice key={product + why} kind="caution">
              <b>{name}</b>: {t.notWeighed} {say(why)}
            </Notice>
          )),
        )}
        {plan.cautions.map((caution) => (
          <Notice key={caution} kind="caution">
            {say(caution)}
          </Notice>
        ))}
      </section>
      <Lots lots={plan.lots} />
    </>
  );
}

function Lots({ lots }: { readonly lots: readonly Lot[] }) {
  const t = useWords(USE_UP);
  const own = useWords(BLEND);
  const show = useShow();
  const rows = lots.toSorted((a, b) => (a.daysToUseBy ?? 1e6) - (b.daysToUseBy ?? 1e6));
  const most = rows.reduce((largest, { onHand }) => Math.max(largest, onHand.kg), 1e-9);
  const percent = (kg: number) => `${((kg / most) * 100).toFixed(2)}%`;
  const days = ({ daysToUseBy }: Lot) => (daysToUseBy === undefined ? '' : t.useBy(daysToUseBy));
  return (
    <section class="card">
      <Figure
        title={t.lots}
        caption={t.lotsSay}
        columns={[
          { says: own.lot, of: ({ lotId, material }: Lot) => `${lotId} ${material}`, isName: true },
          { says: t.used, of: ({ used }: Lot) => show.mass(used.kg), isNumber: true },
          { says: t.left, of: ({ left }: Lot) => show.mass(left.kg), isNumber: true },
          { says: own.day, of: days },
        ]}
        rows={rows}
        keyOf={({ lotId }: Lot) => lotId}
      >
        <ul class="blend-prices blend-lots">
          {rows.map((lot) => (
            <li key={lot.lotId}>
              <span class="blend-price-name">
                <b>{lot.lotId}</b>
                <span class="aside">{days(lot)}</span>
              </span>
              <svg
                role="img"
                aria-label={`${lot.lotId}: ${show.mass(lot.used.kg)} ${t.used}, ${show.mass(lot.left.kg)} ${t.left}`}
              >
                <rect x="0" y="25%" width={percent(lot.onHand.kg)} height="50%" class="left" />
                <rect x="0" y="25%" width={percent(lot.used.kg)} height="50%" class="gone" />
              </svg>
              <span class="number">{show.mass(lot.used.kg)}</span>
            </li>
          ))}
        </ul>
      </Figure>
    </section>
  );
}
