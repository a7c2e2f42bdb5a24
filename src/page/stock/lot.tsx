import type { ComponentChildren } from 'preact';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { Facts } from '../parts/facts.tsx';
import { Notice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { leanColor } from '../pictures/lean-color.ts';
import { useAnswer } from '../service/answers.ts';
import { go, type Place, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { Doing } from './lot-doing.tsx';
import { factsOf, isMeat, type Known, type LotFacts } from './lot-facts.ts';
import { LotMovements, LotTests } from './lot-past.tsx';
import { LotSigns } from './lot-signs.tsx';
import { LOT } from './lot-words.ts';
import { MOVES } from './move-lot.tsx';
import type { WholeLotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** Between two looks at a lot that others work on too. */
const LOOK_MS = 20_000;

/** One lot: what is known of it, what is done with it, and what became of it. What is being done stands in the address. */
export function Lot({
  id,
  place,
  known,
}: {
  readonly id: string;
  readonly place: Place;
  readonly known: Known;
}) {
  const path = `/lots/${encodeURIComponent(id)}`;
  const reading = useAnswer<WholeLotAnswer>(path, { everyMs: LOOK_MS });
  const act = place.query.get('do') ?? '';
  return (
    <>
      {!reading.body && <h1>{id}</h1>}
      <Read of={reading}>
        {(lot) => (
          <>
            <WhatIsKnown facts={factsOf(lot, known)} isTestable={testable(lot, known)} />
            <LotTests lot={lot} />
            <LotMovements lot={lot} />
            <Doing act={act} lot={lot} version={reading.version} again={reading.again} />
          </>
        )}
      </Read>
    </>
  );
}

function testable({ kind, materialId = '' }: WholeLotAnswer, { materials }: Known): boolean {
  const material = materials.get(materialId);
  return kind === 'material' && material !== undefined && isMeat(material);
}

function WhatIsKnown({ facts, isTestable }: { readonly facts: LotFacts; readonly isTestable: boolean }) {
  const t = useWords(STOCK);
  const { lot, name } = facts;
  return (
    <section class="stack">
      <header class="stock-head">
        <h1>
          {lot.id} <span class="aside">{name}</span>
        </h1>
        <LotSigns facts={facts} />
      </header>
      {lot.held !== undefined && (
        <Notice kind="bad">
          <strong>{t.onHold}:</strong> {lot.held}
        </Notice>
      )}
      <Weights facts={facts} />
      <Acts lot={lot} isTestable={isTestable} />
      <Details facts={facts} />
    </section>
  );
}

/** How much is free and how much promised: as figures, and as a bar. */
function Weights({ facts: { lot, value, fatFraction, fatFrom } }: { readonly facts: LotFacts }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const c = useWords(COMMON);
  const show = useShow();
  const share = lot.onHand.kg > 0 ? lot.free.kg / lot.onHand.kg : 0;
  return (
    <div class="card stock-weights">
      <Figure says={w.onHandNow} aside={lot.packs && t.packCount(lot.packs.onHand)}>
        {show.mass(lot.onHand.kg)}
      </Figure>
      <Figure says={t.free}>{show.mass(lot.free.kg)}</Figure>
      <Figure says={t.promised}>{show.mass(lot.reserved.kg)}</Figure>
      {fatFraction !== undefined && fatFrom && (
        <Figure says={c.lean} aside={t.fatFrom[fatFrom]}>
          {show.percent(1 - fatFraction)}
        </Figure>
      )}
      <Figure says={t.value} aside={show.price(lot.costPerKg)}>
        {show.money(value)}
      </Figure>
      <svg
        role="img"
        aria-label={w.freeShare(show.percent(share, 0))}
        viewBox="0 0 600 14"
        preserveAspectRatio="none"
      >
        <rect width={600} height={14} class="stock-promised" />
        <rect
          width={600 * share}
          height={14}
          class={fatFraction === undefined ? 'stock-no-meat' : ''}
          {...(fatFraction !== undefined && { fill: leanColor(fatFraction).fill })}
        />
      </svg>
    </div>
  );
}

function Figure({
  says,
  aside,
  children,
}: {
  readonly says: string;
  readonly aside?: string | undefined;
  readonly children: ComponentChildren;
}) {
  return (
    <p>
      <span class="aside">{says}</span>
      <strong>{children}</strong>
      {aside && <span class="aside">{aside}</span>}
    </p>
  );
}

function Acts({ lot, isTestable }: { readonly lot: LotFacts['lot']; readonly isTestable: boolean }) {
  const t = useWords(LOT);
  const c = useWords(COMMON);
  const may = useMay();
  const here = to('stock', lot.id);
  const open = (act: string) => go(`${here}?do=${act}`);
  const isThere = lot.free.kg > 0;
  return (
    <div class="row wrap">
      {may('work') && (
        <>
          <Button onClick={() => open('change')}>{c.change}</Button>
          {isTestable && <Button onClick={() => open('test')}>{t.addTest}</Button>}
          {MOVES.filter((kind) => kind === 'adjusted' || isThere).map((kind) => (
            <Button key={kind} kind={kind === 'discarded' ? 'grave' : 'plain'} onClick={() => open(kind)}>
              {t.moves[kind]}
            </Button>
          ))}
          {lot.held === undefined ? (
            <Button kind="grave" onClick={() => open('hold')}>
              {t.hold}
            </Button>
          ) : (
            may('plan') && <Button onClick={() => open('release')}>{t.release}</Button>
          )}
        </>
      )}
      {lot.packs && <Button onClick={() => open('label')}>{t.printLabel}</Button>}
      <Go href={`#/records/trace?lot=${encodeURIComponent(lot.id)}`}>{t.madeOfIt}</Go>
    </div>
  );
}

function Details({ facts: { lot, ageDays, daysLeft } }: { readonly facts: LotFacts }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const { origin } = lot;
  const day = (iso: string | undefined) => iso && show.day(iso);
  return (
    <Facts
      facts={[
        [
          t.useBy,
          lot.useByDate !== undefined &&
            daysLeft !== undefined &&
            `${show.day(lot.useByDate)} (${t.leftSpan(daysLeft < 0 ? undefined : daysLeft, daysLeft)})`,
        ],
        [t.packedDay, day(lot.packedDate)],
        [t.receivedDay, `${show.day(lot.receivedDate)} (${t.ageSpan(ageDays, ageDays)})`],
        [t.state, t.states[lot.state as keyof typeof t.states] ?? lot.state],
        [t.location, lot.location],
        [t.supplier, lot.supplierEstablishment],
        [t.supplierLot, lot.supplierLot],
        [t.boxWeight, lot.boxKg !== undefined && show.mass(lot.boxKg)],
        [w.originSays, origin && w.originOf(origin.bornIn, origin.raisedIn, origin.slaughteredIn)],
        [w.madeBy, lot.batchId !== undefined && <a href={to('batches', lot.batchId)}>{lot.batchId}</a>],
      ]}
    />
  );
}
