import type { TraceAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Notice } from '../parts/notice.tsx';
import { type Column, Table } from '../parts/table.tsx';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { traceOf, traceOfLot } from './start.ts';
import { TRACE } from './trace-words.ts';
import { RECORDS } from './words.ts';

type Consignee = TraceAnswer['consignees'][number];
type Supplier = TraceAnswer['suppliers'][number];
type Lot = TraceAnswer['levels'][number]['lots'][number];

/** Who got it or who sent it, which lots are on hand, and what only went through the same grinder. */
export function TraceTables({ trace }: { readonly trace: TraceAnswer }) {
  const t = useWords(TRACE);
  return (
    <>
      {trace.direction === 'forward' ? (
        <Receivers consignees={trace.consignees} />
      ) : (
        <Suppliers suppliers={trace.suppliers} />
      )}
      <Lots lots={trace.levels.flatMap(({ lots }) => lots)} />
      {trace.withoutLot.length > 0 && (
        <p>
          {t.withoutLot} {[...new Set(trace.withoutLot.map(({ material }) => material))].join(', ')}
        </p>
      )}
      <SameGrinder batches={trace.sameGrinder} />
    </>
  );
}

function Receivers({ consignees }: { readonly consignees: readonly Consignee[] }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const c = useWords(COMMON);
  const show = useShow();
  const columns: Column<Consignee>[] = [
    { says: t.to, of: ({ to: whom }) => whom ?? w.overCounter, isName: true },
    { says: c.lot, of: ({ lotId }) => lotId },
    { says: c.weight, of: ({ mass }) => show.mass(mass.kg), isNumber: true },
    { says: w.share, of: ({ share }) => show.percent(share), isNumber: true, isExtra: true },
    { says: c.date, of: ({ day }) => show.day(day) },
    { says: w.document, of: ({ document }) => document ?? '', isExtra: true },
  ];
  return (
    <section class="stack">
      <h2>{w.receivers}</h2>
      {consignees.length === 0 ? (
        <p>{t.nobodyGot}</p>
      ) : (
        <Table caption={w.receivers} columns={columns} rows={consignees} keyOf={({ movement }) => movement} />
      )}
    </section>
  );
}

function Suppliers({ suppliers }: { readonly suppliers: readonly Supplier[] }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const c = useWords(COMMON);
  const show = useShow();
  const columns: Column<Supplier>[] = [
    {
      says: t.supplier,
      of: ({ supplierEstablishment: est }) => (est === undefined ? t.notKnown : t.est(est)),
      isName: true,
    },
    { says: t.starts.supplierLot, of: ({ supplierLot }) => supplierLot ?? t.notKnown },
    { says: c.lot, of: ({ lotIds }) => lotIds.join(', ') },
    { says: c.material, of: ({ materials }) => materials.join(', ') },
    { says: w.share, of: ({ share }) => show.percent(share), isNumber: true },
  ];
  return (
    <section class="stack">
      <h2>{w.suppliers}</h2>
      <Table caption={w.suppliers} columns={columns} rows={suppliers} keyOf={(_, at) => at} />
    </section>
  );
}

function Lots({ lots }: { readonly lots: readonly Lot[] }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const c = useWords(COMMON);
  const show = useShow();
  const columns: Column<Lot>[] = [
    { says: c.lot, of: ({ lotId }) => lotId, isName: true },
    { says: t.of, of: ({ of }) => of.name },
    { says: w.onHand, of: ({ onHand }) => show.mass(onHand.kg), isNumber: true },
    { says: w.share, of: ({ share }) => show.percent(share), isNumber: true, isExtra: true },
    { says: t.standing, of: ({ held }) => (held ? `! ${t.onHold}` : w.free) },
    {
      says: t.tabs.trace,
      of: ({ lotId }) => (
        <span class="row">
          <a class="tap" href={traceOfLot(lotId)}>
            {w.forwardShort}
            <span class="unseen"> {lotId}</span>
          </a>
          <a class="tap" href={traceOfLot(lotId, 'back')}>
            {w.backShort}
            <span class="unseen"> {lotId}</span>
          </a>
        </span>
      ),
    },
  ];
  return (
    <section class="stack">
      <h2>{w.mayContain}</h2>
      <p class="hint">{w.shareSays}</p>
      <Table caption={w.mayContain} columns={columns} rows={lots} keyOf={({ lotId }) => lotId} />
    </section>
  );
}

/** Batches that nothing traced was weighed into, but that the grinder may have carried some over to. */
export function SameGrinder({ batches }: { readonly batches: TraceAnswer['sameGrinder'] }) {
  const t = useWords(TRACE);
  const show = useShow();
  if (batches.length === 0) return null;
  return (
    <Notice kind="caution">
      <p>
        <strong>{t.sameGrinder}</strong> {t.sameGrinderSays}
      </p>
      <ul>
        {batches.map(({ batchId, product, date, beside }) => (
          <li key={batchId}>
            <a href={to('batches', batchId)}>{batchId}</a>, {product}, {show.day(date)} (
            {t.besides(beside.join(', '))});{' '}
            <a href={traceOf({ by: 'batch', id: batchId, supplier: '' })}>{t.doTrace}</a>
          </li>
        ))}
      </ul>
    </Notice>
  );
}
