import { useMemo } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { useDraft } from '../service/draft.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { arranged, found, isOrder, ORDERS, type Order, totalsOf } from './arrange.ts';
import { factsOf, isPast, isSoon, type Known, type LotFacts } from './lot-facts.ts';
import { LotList } from './lot-list.tsx';
import { useLots } from './reading.ts';
import { StockPicture } from './stock-picture.tsx';
import type { LotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

const KINDS = ['material', 'bulk', 'pack'] as const;
interface View {
  readonly kind: (typeof KINDS)[number];
  readonly order: Order;
  readonly search: string;
}

/** What is on hand: as a picture by days, and as a list. How it was last looked at is kept on the device. */
export function Overview({ known }: { readonly known: Known }) {
  const t = useWords(STOCK);
  const c = useWords(COMMON);
  const view = useDraft<View>('stock view', { kind: 'material', order: 'left', search: '' });
  const { kind, order, search } = view.value;
  const lots = useLots(`?kind=${kind}`);
  return (
    <>
      <h1>{t.onHand}</h1>
      <div class="stock-finder">
        <TextField
          type="search"
          label={c.search}
          placeholder={t.searchLots}
          value={search}
          onValue={(typed) => view.set({ search: typed })}
        />
        <Choice
          label={t.kind}
          value={kind}
          onValue={(value) => view.set({ kind: value as View['kind'] })}
          options={KINDS.map((value) => ({ value, says: t.lotKinds[value] }))}
        />
        <Choice
          label={t.orderBy}
          value={order}
          onValue={(value) => isOrder(value) && view.set({ order: value })}
          options={ORDERS.map((value) => ({ value, says: t.orders[value] }))}
        />
      </div>
      <Read of={lots}>
        {(all) => <Found key={kind} all={all} known={known} order={order} search={search} />}
      </Read>
    </>
  );
}

function Found({
  all,
  known,
  order,
  search,
}: {
  readonly all: readonly LotAnswer[];
  readonly known: Known;
  readonly order: Order;
  readonly search: string;
}) {
  const t = useWords(STOCK);
  const may = useMay();
  const facts = useMemo(() => all.map((lot) => factsOf(lot, known)), [all, known]);
  const shown = useMemo(() => found(facts, search), [facts, search]);
  const groups = useMemo(() => arranged(shown, order), [shown, order]);
  if (all.length === 0)
    return (
      <Nothing>
        <p>{t.nothingOnHand}</p>
        {may('work') && (
          <Go kind="main" href={to('stock', 'receive')}>
            {t.receive}
          </Go>
        )}
      </Nothing>
    );
  if (shown.length === 0)
    return (
      <Nothing>
        <p>{t.noneFound(search)}</p>
      </Nothing>
    );
  return (
    <>
      <Totals lots={shown} />
      <StockPicture lots={shown} by={order === 'age' ? 'age' : 'left'} />
      <h2>{t.lots}</h2>
      <LotList key={`${order} ${search}`} groups={groups} />
    </>
  );
}

function Totals({ lots }: { readonly lots: readonly LotFacts[] }) {
  const t = useWords(STOCK);
  const show = useShow();
  const { massKg, value } = totalsOf(lots);
  const promisedKg = lots.reduce((sum, { lot }) => sum + lot.reserved.kg, 0);
  const [past, soon, held] = [
    lots.filter(isPast),
    lots.filter(isSoon),
    lots.filter(({ lot }) => lot.held !== undefined),
  ].map(({ length }) => length);
  return (
    <ul class="stock-totals">
      <li>
        <strong>{show.mass(massKg, 0)}</strong> {t.inLots(lots.length)}
      </li>
      <li>
        <strong>{show.money(value, 0)}</strong> {t.value}
      </li>
      {promisedKg > 0 && (
        <li>
          <strong>{show.mass(promisedKg, 0)}</strong> {t.promised}
        </li>
      )}
      {soon ? (
        <li class="care">
          <strong>! {soon}</strong> {t.groups.soon}
        </li>
      ) : null}
      {past ? (
        <li class="bad">
          <strong>✕ {past}</strong> {t.pastUseBy}
        </li>
      ) : null}
      {held ? (
        <li class="bad">
          <strong>✕ {held}</strong> {t.onHold}
        </li>
      ) : null}
    </ul>
  );
}
