import type { BatchAnswer } from '../../api/batches/contract.ts';
import { useShow } from '../figures/show.ts';
import { Facts } from '../parts/facts.tsx';
import { Notice } from '../parts/notice.tsx';
import { Table } from '../parts/table.tsx';
import { COMMON } from '../words/common.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { LotLink } from './lot-link.tsx';
import { lotsWeighed } from './lots-weighed.ts';
import { RECORDS } from './words.ts';

type Batch = BatchAnswer & { readonly reviewedBy: string; readonly note?: string };
type Line = Batch['lines'][number];
type Limit = Batch['limits'][number];

const SENSES: Readonly<Record<string, string>> = { max: '≤', min: '≥' };

/** A batch as it was sealed: what went in, how its limits stood, what came out. */
export function BatchRecord({ batch }: { readonly batch: Batch }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const { product, standard, date, planned, weighed, loads, deviations, tests, packs, cautions } = batch;
  const absent = batch.limits.filter((limit) => !isTelling(limit));
  const sum = (line: Line, of: 'planned' | 'weighed') =>
    line.loads.reduce((total, load) => total + load[of].kg, 0);
  // Cure and spices are grams: two decimals of a pound would hide them.
  const finely = (kg: number) => show.mass(kg, kg < 1 ? 3 : 2);
  return (
    <>
      <Facts
        facts={[
          [c.product, product.name],
          [
            t.standard,
            <>
              {say(standard.says)} (<Said text={standard.citation} />)
            </>,
          ],
          [t.madeOn, show.day(date)],
          [t.planned, show.mass(planned.kg)],
          [t.weighed, show.mass(weighed.kg)],
          [t.loads, loads],
          [t.reviewedBy, batch.reviewedBy],
          [t.note, batch.note],
        ]}
      />
      {cautions.map((caution) => (
        <Notice key={caution} kind="caution">
          {say(caution)}
        </Notice>
      ))}
      <h2>{t.wentIn}</h2>
      <Table
        caption={t.wentIn}
        columns={[
          { says: c.material, of: ({ material }) => material, isName: true },
          {
            says: c.lot,
            of: (line) => <LotsOf line={line} />,
          },
          { says: t.planned, of: (line) => finely(sum(line, 'planned')), isNumber: true, isExtra: true },
          { says: t.weighed, of: (line) => finely(sum(line, 'weighed')), isNumber: true },
        ]}
        rows={batch.lines}
        keyOf={({ number }) => number}
      />
      <h2>{t.limits}</h2>
      <LimitTable caption={`${t.limits}: ${say(batch.limitsAre)}`} limits={batch.limits.filter(isTelling)} />
      {absent.length > 0 && (
        <details>
          <summary>{t.absent(absent.length)}</summary>
          <LimitTable caption={t.absent(absent.length)} limits={absent} />
        </details>
      )}
      {deviations.length > 0 && (
        <Table
          caption={t.deviations}
          isCaptionSeen
          columns={[
            { says: t.what, of: ({ what }) => say(what), isName: true },
            { says: t.planned, of: ({ planned: was }) => say(was) },
            { says: t.found, of: ({ found }) => say(found) },
            { says: c.reason, of: ({ reason }) => reason },
          ]}
          rows={deviations}
          keyOf={(_, at) => at}
        />
      )}
      {tests.length > 0 && (
        <Table
          caption={t.fatTests}
          isCaptionSeen
          columns={[
            { says: t.load, of: ({ load }) => load ?? c.all, isName: true },
            { says: c.fat, of: ({ fatFraction }) => show.percent(fatFraction, 2), isNumber: true },
            { says: t.method, of: ({ method }) => say(method) },
            { says: t.when, of: ({ at }) => show.instant(at) },
            { says: c.who, of: ({ by }) => by },
          ]}
          rows={tests}
          keyOf={({ step }) => step}
        />
      )}
      {batch.finished && <Finished finished={batch.finished} packs={packs} />}
    </>
  );
}

/** The lots that went in on a line; where there is more than one, each with its weight. */
function LotsOf({ line }: { readonly line: Line }) {
  const show = useShow();
  const lots = lotsWeighed(line);
  return (
    <>
      {lots.map(({ lotId, kg }) => (
        <div key={lotId}>
          <LotLink id={lotId} /> {lots.length > 1 && <span class="aside">{show.mass(kg)}</span>}
        </div>
      ))}
    </>
  );
}

/** What must not go in at all and did not is told by their number. */
const isTelling = ({ bound, holds }: Limit) => bound !== 0 || !holds;

function LimitTable({ caption, limits }: { readonly caption: string; readonly limits: readonly Limit[] }) {
  const t = useWords(RECORDS);
  const show = useShow();
  const say = useSay();
  const figure = (value: number, unit: string) =>
    `${show.number(value, 2)} ${unit === 'percent' ? '%' : say(unit)}`;
  return (
    <Table
      caption={caption}
      columns={[
        {
          says: t.limit,
          of: ({ says, load }) =>
            `${say(says)}${load === undefined ? '' : ` (${t.load.toLowerCase()} ${load})`}`,
          isName: true,
        },
        { says: t.found, of: ({ value, unit }) => figure(value, unit), isNumber: true },
        {
          says: t.bound,
          of: ({ sense, bound, unit }) => `${SENSES[sense] ?? sense} ${figure(bound, unit)}`,
          isNumber: true,
        },
        { says: t.standing, of: ({ holds }) => (holds ? `✓ ${t.met}` : `✕ ${t.notMet}`) },
        { says: t.source, of: ({ citation }) => <Said text={citation} />, isExtra: true },
      ]}
      rows={limits}
      keyOf={({ limitId, load }) => `${limitId} ${load}`}
    />
  );
}

function Finished({
  finished: { output, rework, discarded, loss, yieldFraction, temperatures, hold, by, at },
  packs,
}: {
  readonly finished: NonNullable<Batch['finished']>;
  readonly packs: Batch['packs'];
}) {
  const t = useWords(RECORDS);
  const show = useShow();
  const say = useSay();
  return (
    <>
      <h2>{t.cameOut}</h2>
      <Facts
        facts={[
          [t.nodes.bulk, `${output.lotId}: ${show.mass(output.mass.kg)}`],
          [t.yield, show.percent(yieldFraction)],
          [t.rework, rework.map(({ lotId, mass }) => `${lotId}: ${show.mass(mass.kg)}`).join('; ')],
          [t.discarded, discarded.map(({ mass, reason }) => `${show.mass(mass.kg)} (${reason})`).join('; ')],
          [t.loss, show.mass(loss.kg)],
          [
            t.temperatures,
            temperatures
              .map(
                ({ what, value, unit, time = '' }) =>
                  `${say(what)} ${show.digits(String(value))} °${unit} ${time}`,
              )
              .join('; '),
          ],
          [
            t.nodes.pack,
            packs
              .map(({ lotId, count, net }) => `${lotId}: ${count} × ${show.digits(net.value)} ${net.unit}`)
              .join('; '),
          ],
          [t.onHold, hold && say(hold)],
          [t.finishedBy, `${by}, ${show.instant(at)}`],
        ]}
      />
    </>
  );
}
