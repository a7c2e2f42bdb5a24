import { useState } from 'preact/hooks';
import type { CorrectionAnswer } from '../../../api/contract/correction.ts';
import { useShow } from '../../figures/show.ts';
import { Go } from '../../parts/button.tsx';
import { OneOf } from '../../parts/choice.tsx';
import { Notice, ProblemNotice } from '../../parts/notice.tsx';
import { Waiting } from '../../parts/states.tsx';
import { useWork } from '../../service/answers.ts';
import { to } from '../../shell/place.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { type Batch, loadsOf } from '../batch.ts';
import { BATCHES } from '../words.ts';
import { Addition, type Asking } from './addition.tsx';
import { FatPicture } from './fat-picture.tsx';
import { fatWindow } from './fat-window.ts';
import { TEST } from './words.ts';

/** How sure the limits are to hold where a surer correction is asked for. */
const SURE = 0.9;

type Additions = Extract<CorrectionAnswer, { outcome: 'additions' }>;

/** Ways to bring a load back, to choose from; nothing is booked until one is taken. */
export function Proposals({ batch }: { readonly batch: Batch }) {
  const t = useWords(TEST);
  const b = useWords(BATCHES);
  const say = useSay();
  const loads = loadsOf(batch);
  const [load, setLoad] = useState(batch.tests.at(-1)?.load ?? loads[0] ?? 1);
  const path = `/batches/${batch.id}/correction-proposals`;
  const least = useWork<CorrectionAnswer>(path, { load });
  const found = least.isWaiting ? undefined : least.body;
  const lots = found?.outcome === 'additions' ? found.lines.flatMap(({ lotId }) => lotId ?? []) : [];
  const surer: Asking = { load, confidence: SURE };
  const others: Asking = { load, excludeLots: lots };
  const sure = useWork<CorrectionAnswer>(path, found?.outcome === 'right as it is' ? undefined : surer);
  const other = useWork<CorrectionAnswer>(path, lots.length > 0 ? others : undefined);
  const choices: readonly (readonly [string, Asking, CorrectionAnswer | undefined])[] = [
    [t.least, { load }, found],
    [t.sure, surer, sure.isWaiting ? undefined : sure.body],
    [t.others, others, lots.length > 0 && !other.isWaiting ? other.body : undefined],
  ];
  const seen = new Set<string>();
  const additions = choices.flatMap(([title, asking, answer]) => {
    if (answer?.outcome !== 'additions') return [];
    const same = answer.lines.map(({ supplyId, weight }) => `${supplyId} ${weight.text}`).join();
    if (seen.has(same)) return [];
    seen.add(same);
    return [{ title, asking, answer: answer satisfies Additions }];
  });
  // A test that cannot be right, where there is one, is said first: before anything is added.
  const [foremost, ...cautions] = found?.cautions ?? [];
  return (
    <section class="stack" aria-label={t.proposals(load)}>
      <h2>{t.proposals(load)}</h2>
      {loads.length > 1 && (
        <OneOf
          label={t.which}
          value={String(load)}
          onValue={(one) => setLoad(Number(one))}
          options={loads.map((one) => ({ value: String(one), says: b.load(one) }))}
        />
      )}
      <ProblemNotice error={least.error} />
      {!found && !least.error && <Waiting />}
      {found?.outcome === 'right as it is' && <Notice kind="good">{t.right}</Notice>}
      {found?.outcome === 'cannot be brought back' && <Cannot found={found} />}
      {foremost !== undefined && <Notice kind="caution">{say(foremost)}</Notice>}
      <div class="test-choices">
        {additions.map(({ title, asking, answer }) => (
          <Addition key={title} batch={batch} title={title} asking={asking} found={answer} />
        ))}
      </div>
      {additions.length > 0 && (
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{say(caution)}</li>
          ))}
        </ul>
      )}
      <div class="card row wrap">
        <Go href={to('batches', batch.id, batch.state === 'weighing' ? 'weigh' : 'finish')}>
          {found?.outcome === 'right as it is' ? t.onward : t.asItIs}
        </Go>
        {found?.outcome !== 'right as it is' && <span>{t.asItIsSays}</span>}
      </div>
    </section>
  );
}

function Cannot({
  found,
}: {
  readonly found: Extract<CorrectionAnswer, { outcome: 'cannot be brought back' }>;
}) {
  const t = useWords(TEST);
  const say = useSay();
  const show = useShow();
  const window = fatWindow(found.before.checks);
  const added = (lines: Additions['lines']) =>
    lines.map(({ weight, material }) => t.add(`${show.digits(weight.text)} ${weight.unit}`, say(material)));
  return (
    <>
      <Notice kind="bad">
        <strong>{t.cannot}</strong>
        {found.because.map(({ message }) => (
          <p key={message}>{say(message)}</p>
        ))}
      </Notice>
      {window && <FatPicture window={window} />}
      {found.takeOut && (
        <Notice kind="note">
          {t.takeOut(`${show.digits(found.takeOut.weight.text)} ${found.takeOut.weight.unit}`)}
        </Notice>
      )}
      {found.fits.map(({ product, name, lines }) => (
        <Notice key={product} kind="note">
          {t.fits(name, lines.length > 0 ? t.withAdded(added(lines).join(', ')) : '')}
        </Notice>
      ))}
    </>
  );
}
