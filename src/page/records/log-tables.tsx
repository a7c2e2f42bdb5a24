import type {
  CleaningsAnswer,
  FatTestsAnswer,
  GrindingAnswer,
  RestrictedAnswer,
} from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Facts } from '../parts/facts.tsx';
import { Table } from '../parts/table.tsx';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { LOG } from './log-words.ts';
import { LotLink } from './lot-link.tsx';
import { RECORDS } from './words.ts';

const BatchLink = ({ id }: { readonly id: string }) => (
  <a class="tap" href={to('batches', id)}>
    {id}
  </a>
);

/** Raw ground beef from one clean-up to the next, with every supplier. */
export function GrindingLots({ items }: { readonly items: GrindingAnswer['items'] }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const c = useWords(COMMON);
  const show = useShow();
  return (
    <>
      {items.map((lot) => (
        <section class="card stack" key={lot.number}>
          <h2>{w.grindLot(lot.number)}</h2>
          <Facts
            facts={[
              [
                t.batches,
                <ul key="batches" class="bare">
                  {lot.batches.map(({ batchId, product }) => (
                    <li key={batchId}>
                      <a href={to('batches', batchId)}>{batchId}</a> {product}
                    </li>
                  ))}
                </ul>,
              ],
              [w.producedFrom, show.instant(lot.producedFrom.at)],
              [w.producedUntil, show.instant(lot.producedUntil.at)],
              [w.cleanedBefore, lot.cleanedBefore ? show.instant(lot.cleanedBefore.at) : `! ${w.noCleaning}`],
              [w.cleanedAfter, lot.cleanedAfter ? show.instant(lot.cleanedAfter.at) : `! ${w.noCleaning}`],
              [
                w.groundBefore,
                lot.groundBefore.map(({ batchId, product }) => `${batchId} ${product}`).join('; '),
              ],
            ]}
          />
          <Table
            caption={w.sources}
            columns={[
              { says: c.material, of: ({ material }) => material, isName: true },
              { says: c.lot, of: ({ lotId }) => <LotLink id={lotId} /> },
              {
                says: t.supplier,
                of: ({ supplierEstablishment: est, madeIn }) =>
                  est === undefined
                    ? madeIn === undefined
                      ? `! ${t.notKnown}`
                      : w.madeIn(madeIn)
                    : t.est(est),
              },
              { says: t.starts.supplierLot, of: ({ supplierLot }) => supplierLot ?? '' },
              {
                says: w.productionDate,
                of: ({ productionDate: day }) => (day === undefined ? `! ${t.notKnown}` : show.day(day)),
              },
              { says: w.carriedOverBy, of: ({ carriedOverBy }) => carriedOverBy ?? '', isExtra: true },
              { says: t.weighed, of: ({ weighed }) => show.digits(weighed ?? ''), isNumber: true },
            ]}
            rows={lot.sources}
            keyOf={(_, at) => at}
          />
        </section>
      ))}
    </>
  );
}

export function FatTestTable({ items }: { readonly items: FatTestsAnswer['items'] }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  return (
    <Table
      caption={w.logs['fat-tests']}
      columns={[
        { says: c.date, of: ({ date }) => show.day(date), isName: true },
        {
          says: t.about,
          of: ({ lotId, batchId, load }) => {
            if (lotId !== undefined) return <LotLink id={lotId} />;
            if (batchId === undefined) return t.noLot;
            return (
              <>
                <BatchLink id={batchId} /> {load !== undefined && w.loadOf(load)}
              </>
            );
          },
        },
        { says: t.of, of: ({ of = '' }) => of },
        { says: c.fat, of: ({ fatPercent }) => `${show.digits(fatPercent)} %`, isNumber: true },
        { says: t.method, of: ({ method }) => say(method) },
        { says: t.supplier, of: ({ supplierEstablishment: est }) => (est ? t.est(est) : ''), isExtra: true },
        {
          says: t.standing,
          of: ({ notMet, withdrawn }) => {
            if (withdrawn !== undefined) return `✕ ${w.withdrawn}: ${withdrawn}`;
            return notMet.length === 0 ? '✓' : `! ${t.notMet}: ${notMet.map(say).join('; ')}`;
          },
        },
        { says: c.who, of: ({ by }) => by, isExtra: true },
      ]}
      rows={items}
      keyOf={({ seq }) => seq}
    />
  );
}

export function RestrictedTable({ items }: { readonly items: RestrictedAnswer['items'] }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  return (
    <Table
      caption={w.logs['restricted-ingredients']}
      columns={[
        {
          says: t.batch,
          of: ({ batchId, product, load }) => (
            <>
              <BatchLink id={batchId} /> {product}, {w.loadOf(load)}
            </>
          ),
          isName: true,
        },
        {
          says: c.material,
          of: ({ material, substances }) => `${material} (${substances.map(say).join(', ')})`,
        },
        { says: c.lot, of: ({ lotId }) => lotId ?? t.noLot, isExtra: true },
        { says: t.planned, of: ({ planned }) => show.digits(planned ?? ''), isNumber: true },
        {
          says: t.weighed,
          of: ({ weighed, takenBack }) =>
            takenBack === undefined
              ? show.digits(weighed)
              : `${show.digits(weighed)} (✕ ${w.takenBack}: ${takenBack})`,
          isNumber: true,
        },
        {
          says: t.limits,
          of: ({ standing, takenBack }) => {
            if (standing.length === 0) return takenBack === undefined ? `… ${w.notAllIn}` : '';
            return (
              <ul class="bare">
                {standing.map(({ says, value, bound, unit, holds, citation }) => (
                  <li key={says}>
                    {holds ? '✓' : `✕ ${t.notMet}`} {show.number(value, 1)} / {show.number(bound, 1)}{' '}
                    {say(unit)}: {say(says)}{' '}
                    <span class="aside">
                      (<Said text={citation} />)
                    </span>
                  </li>
                ))}
              </ul>
            );
          },
        },
        { says: t.when, of: ({ weighedAt, by }) => `${show.instant(weighedAt.at)}, ${by}` },
      ]}
      rows={items}
      keyOf={(_, at) => at}
    />
  );
}

export function CleaningTable({ items }: { readonly items: CleaningsAnswer['items'] }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const c = useWords(COMMON);
  const show = useShow();
  return (
    <Table
      caption={w.logs.cleanings}
      columns={[
        { says: t.when, of: ({ cleaned }) => show.instant(cleaned.at), isName: true },
        { says: t.equipment, of: ({ equipment }) => equipment.join(', ') },
        { says: t.what, of: ({ what }) => (what === 'cleaned' ? t.cleaned : t.sanitized) },
        { says: t.note, of: ({ note = '' }) => note },
        { says: c.who, of: ({ by }) => by, isExtra: true },
        {
          says: t.standing,
          of: ({ withdrawn, correctedBy }) => {
            if (withdrawn) return `✕ ${w.withdrawn}`;
            return correctedBy.length > 0 ? `! ${t.corrected}` : '✓';
          },
        },
        {
          says: t.record,
          of: ({ record }) => (
            <a class="tap" href={to('records', record)}>
              {t.number(record)}
            </a>
          ),
        },
      ]}
      rows={items}
      keyOf={({ record }) => record}
    />
  );
}
