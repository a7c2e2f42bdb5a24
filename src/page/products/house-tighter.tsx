import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useLimitFigures } from '../rules/limit-figure.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { changedAt, without } from './form.ts';
import type { HouseForm } from './house-form.ts';
import { HOUSE } from './house-words.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PickSearch } from './pick-search.tsx';

interface Props {
  readonly form: HouseForm;
}

/** Limits of the law that the plant does not hold, with its reason: a warning, and a way back. */
export function SwitchedOff({ form }: Props) {
  const t = useWords(HOUSE);
  const say = useSay();
  const { value, set, limits } = form;
  return (
    <PartOfForm title={t.off}>
      {value.switchedOff.length === 0 ? (
        <p>{t.offNone}</p>
      ) : (
        <Notice kind="bad">
          <p>{t.offSays}</p>
          <ul>
            {value.switchedOff.map(({ limitId, reason, products }, at) => (
              <li key={limitId}>
                <strong>{say(limits.get(limitId)?.says ?? limitId)}</strong>{' '}
                <Said text={limits.get(limitId)?.citation ?? ''} />. {t.because} {reason}
                {products && ` (${t.onlyFor(products.join(', '))})`}{' '}
                <Button onClick={() => set({ switchedOff: [...without(value.switchedOff, at)] })}>
                  {t.hold}
                </Button>
              </li>
            ))}
          </ul>
        </Notice>
      )}
    </PartOfForm>
  );
}

/** Bounds further inside those of the law. */
export function TighterLimits({ form }: Props) {
  const t = useWords(HOUSE);
  const say = useSay();
  const { bound } = useLimitFigures();
  const { value, set, fault, limits } = form;
  const { tighter } = value;
  const open = [...limits.values()].filter(
    ({ id, sense, bound }) =>
      (sense === 'max' || sense === 'min') && bound > 0 && !tighter.some(({ limitId }) => limitId === id),
  );
  return (
    <PartOfForm title={t.tighter} says={t.tighterSays}>
      {tighter.map((rule, at) => {
        const limit = limits.get(rule.limitId);
        const says = say(limit?.says ?? rule.limitId);
        const change = (of: Partial<typeof rule>) => set({ tighter: changedAt(tighter, at, of) });
        return (
          <fieldset key={rule.limitId} class="products-rule">
            <legend>{says}</legend>
            <p class="hint">
              {limit && (
                <>
                  {t.theLaw(bound(limit))} · <Said text={limit.citation} />
                </>
              )}
              {fault(`/tighter/${at}/limitId`)}
            </p>
            <div class="pair">
              <NumberField
                label={t.bound}
                after={limit?.unit === 'percent' ? '%' : (limit?.unit ?? '')}
                value={rule.bound}
                onValue={(typed) => change({ bound: typed })}
                error={fault(`/tighter/${at}/bound`)}
              />
              <TextField
                label={t.reason}
                isOptional
                value={rule.reason}
                onValue={(reason) => change({ reason })}
                error={fault(`/tighter/${at}/reason`)}
              />
            </div>
            <Button
              kind="quiet"
              label={t.remove(says)}
              onClick={() => set({ tighter: without(tighter, at) })}
            >
              ✕
            </Button>
          </fieldset>
        );
      })}
      <PickSearch
        label={t.findLimit}
        picks={open.map(({ id, says, citation }) => ({ id, says: say(says), also: citation }))}
        onPick={(limitId) => set({ tighter: [...tighter, { limitId, bound: '', reason: '' }] })}
      />
    </PartOfForm>
  );
}
