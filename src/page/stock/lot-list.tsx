import { useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { type Column, Table } from '../parts/table.tsx';
import { leanColor } from '../pictures/lean-color.ts';
import { to } from '../shell/place.ts';
import { useHere } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { firstOf, type Group } from './arrange.ts';
import type { LotFacts } from './lot-facts.ts';
import { LotSigns } from './lot-signs.tsx';
import { STOCK } from './words.ts';

/** Lots that are shown at once: more would not be read, and would make the page slow. */
const AT_ONCE = 60;

/** Lots in their groups, each with what it weighs and is worth together. */
export function LotList({ groups }: { readonly groups: readonly Group[] }) {
  const t = useWords(STOCK);
  const show = useShow();
  const [most, setMost] = useState(AT_ONCE);
  const columns = useLotColumns();
  const total = groups.reduce((sum, { lots }) => sum + lots.length, 0);
  return (
    <div class="stack">
      {firstOf(groups, most).map(({ name, lots, massKg, value }) => (
        <section key={name} class="stock-group">
          <h3>
            {t.groups[name]}{' '}
            <span class="aside">
              {show.mass(massKg, 0)} · {show.money(value, 0)}
            </span>
          </h3>
          <Table caption={t.groups[name]} columns={columns} rows={lots} keyOf={({ lot }) => lot.id} />
        </section>
      ))}
      {total > most && <Button onClick={() => setMost(most + AT_ONCE)}>{t.showMore(total - most)}</Button>}
    </div>
  );
}

function useLotColumns(): Column<LotFacts>[] {
  const t = useWords(STOCK);
  const c = useWords(COMMON);
  const show = useShow();
  const { today } = useHere().plant;
  return [
    {
      says: c.lot,
      isName: true,
      of: (facts) => (
        <>
          <a class="stock-link" href={to('stock', facts.lot.id)}>
            {facts.lot.id}
          </a>
          <span class="stock-name">{facts.name}</span>
          <LotSigns facts={facts} />
        </>
      ),
    },
    { says: c.lean, isNumber: true, of: (facts) => <Lean facts={facts} /> },
    {
      says: t.free,
      isNumber: true,
      of: ({ lot }) => (
        <>
          <strong>{show.mass(lot.free.kg, 1)}</strong>
          {lot.packs && <span class="stock-line">{t.packCount(lot.packs.onHand)}</span>}
          {lot.reserved.kg > 0 && (
            <span class="stock-line aside">{t.promisedOf(show.mass(lot.reserved.kg, 1))}</span>
          )}
        </>
      ),
    },
    {
      says: t.useBy,
      isExtra: true,
      of: ({ lot: { useByDate } }) => {
        if (useByDate === undefined) return '–';
        return useByDate.slice(0, 4) === today.slice(0, 4) ? show.shortDay(useByDate) : show.day(useByDate);
      },
    },
    { says: t.age, isExtra: true, isNumber: true, of: ({ ageDays }) => t.days(ageDays) },
    {
      says: t.value,
      isExtra: true,
      isNumber: true,
      of: ({ lot, value }) => (
        <>
          {show.money(value, 0)}
          <span class="stock-line aside">{show.price(lot.costPerKg)}</span>
        </>
      ),
    },
    { says: t.location, isExtra: true, of: ({ lot }) => lot.location ?? '–' },
  ];
}

function Lean({ facts: { fatFraction, fatFrom } }: { readonly facts: LotFacts }) {
  const t = useWords(STOCK);
  const show = useShow();
  if (fatFraction === undefined || fatFrom === undefined) return <>–</>;
  return (
    <>
      <span class="stock-lean">
        {show.percent(1 - fatFraction, fatFrom === 'test' ? 1 : 0)}
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <rect width={12} height={12} rx={3} fill={leanColor(fatFraction).fill} class="stock-bar" />
        </svg>
      </span>
      <span class="stock-line aside">{t.fatFrom[fatFrom]}</span>
    </>
  );
}
