import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { MassField } from '../parts/number-field.tsx';
import { useDevice } from '../shell/device.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { ProductForm } from './form.ts';
import { Gauges } from './gauges.tsx';
import { repaired } from './repairs.ts';
import { standings } from './standing.ts';
import { TRIAL } from './trial-words.ts';
import type { Trial } from './use-trial.ts';
import { PRODUCTS } from './words.ts';

type Blend = Extract<BlendAnswer, { outcome: 'blend' }>;
type NoBlend = Extract<BlendAnswer, { outcome: 'no blend' }>;

/** The product as it is typed, in an example batch: every limit with its room, or what fights and the ways out. */
export function Live({ form, trial }: { readonly form: ProductForm; readonly trial: Trial }) {
  const t = useWords(PRODUCTS);
  const w = useWords(TRIAL);
  const { waits, work, size, setSize } = trial;
  const { body, error, isWaiting } = work;
  const isShown = waits === undefined && !error && body !== undefined;
  return (
    <section class="card stack products-live" aria-labelledby="products-live">
      <div>
        <div class="row products-top">
          <h2 id="products-live">{w.live}</h2>
          <p class="products-busy" role="status">
            {isWaiting ? w.waiting : ''}
          </p>
        </div>
        <p class="hint">{w.liveSays}</p>
      </div>
      <MassField label={w.example} value={size} onValue={setSize} units={['lb', 'kg']} />
      {waits === 'no class' && <Notice kind="note">{w.choose}</Notice>}
      {waits === 'unreadable' && <Notice kind="caution">{t.unreadable}</Notice>}
      {waits === undefined && error && <ProblemNotice error={error} />}
      <div class={isWaiting ? 'products-old' : ''}>
        {isShown && body.outcome === 'blend' && <Fits form={form} blend={body} />}
        {isShown && body.outcome === 'no blend' && <FitsNot form={form} answer={body} />}
      </div>
    </section>
  );
}

function Fits({ form, blend }: { readonly form: ProductForm; readonly blend: Blend }) {
  const t = useWords(TRIAL);
  const say = useSay();
  const show = useShow();
  const { counted, absent } = standings(blend);
  const failing = counted.filter(({ check }) => !check.holds).length;
  const nameOf = (id: string) => say(form.materials.get(id)?.name ?? id);
  return (
    <div class="stack">
      <Notice kind={failing === 0 ? 'good' : 'bad'}>
        <strong>{failing === 0 ? t.allHold(counted.length + absent.length) : t.someFail(failing)}</strong>
        {' · '}
        {t.costs(show.price(blend.costPerKg))}
      </Notice>
      <Gauges standings={counted} nameOf={nameOf} />
      {absent.length > 0 && (
        <details>
          <summary>{t.absent(absent.length)}</summary>
          <ul>
            {absent.map(({ limit }) => (
              <li key={limit.id}>
                {say(limit.says)}{' '}
                <span class="aside">
                  <Said text={limit.citation} />
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
      {blend.switchedOff.map(({ limit, reason }) => (
        <Notice key={limit.id} kind="bad">
          {t.off}: {say(limit.says)} {reason}
        </Notice>
      ))}
      {blend.cautions.length > 0 && (
        <details>
          <summary>{`${t.cautions} (${blend.cautions.length})`}</summary>
          <ul>
            {blend.cautions.map((caution) => (
              <li key={caution}>{say(caution)}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

function FitsNot({ form, answer }: { readonly form: ProductForm; readonly answer: NoBlend }) {
  const t = useWords(TRIAL);
  const say = useSay();
  const show = useShow();
  const { mark } = useDevice();
  const { conflict = [], repairs = [] } = answer.wayOut ?? {};
  return (
    <div class="stack">
      <Notice kind="bad">
        <p>
          <strong>{t.noBlend}</strong>
        </p>
        {answer.because.map(({ message }) => (
          <p key={message}>{say(message)}</p>
        ))}
      </Notice>
      {conflict.length > 0 && (
        <div>
          <h3>{t.fights}</h3>
          <ul>
            {conflict.map(({ says }) => (
              <li key={says}>{say(says)}</li>
            ))}
          </ul>
        </div>
      )}
      {repairs.length > 0 && (
        <div class="stack">
          <h3>{t.waysOut}</h3>
          {repairs.map((repair) => {
            const change = repaired(form.value, repair, mark);
            const price = repair.costPerKg === undefined ? '' : ` (${show.price(repair.costPerKg)})`;
            return change ? (
              <Button key={repair.says} onClick={() => form.set(change)}>
                {say(repair.says)}
                {price}
              </Button>
            ) : (
              <p key={repair.says}>
                {say(repair.says)}
                {price}
              </p>
            );
          })}
        </div>
      )}
    </div>
  );
}
