import { TARGET_MEASURES } from '../../batch/product.ts';
import { Button } from '../parts/button.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { changedAt, without } from './form.ts';
import type { CertainDraft } from './house-draft.ts';
import type { HouseForm } from './house-form.ts';
import { OnlyFor } from './house-own.tsx';
import { HOUSE } from './house-words.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PickSearch } from './pick-search.tsx';
import { PRODUCTS } from './words.ts';

/** Limits that must hold with a probability, because the fat of lots is uncertain. */
export function CertainLimits({ form }: { readonly form: HouseForm }) {
  const t = useWords(HOUSE);
  const p = useWords(PRODUCTS);
  const say = useSay();
  const { value, set, fault, limits } = form;
  const { certainty } = value;
  const targets = [
    { id: 'house-label-lean-max', says: t.labelLean },
    ...TARGET_MEASURES.filter((measure) => measure !== 'cost per kg').flatMap((measure) => [
      { id: `house-${measure}-min`, says: t.least(p.measures[measure].toLowerCase()) },
      { id: `house-${measure}-max`, says: t.most(p.measures[measure].toLowerCase()) },
    ]),
  ];
  const picks = [
    ...targets,
    ...[...limits.values()].map(({ id, says, citation }) => ({ id, says: say(says), also: citation })),
  ];
  const saysOf = (id: string) => picks.find((pick) => pick.id === id)?.says ?? id;
  return (
    <PartOfForm title={t.certainty} says={t.certaintySays}>
      {certainty.map((rule, at) => {
        const says = saysOf(rule.limitId);
        const change = (of: Partial<CertainDraft>) => set({ certainty: changedAt(certainty, at, of) });
        return (
          <fieldset key={rule.limitId} class="products-rule">
            <legend>{says}</legend>
            <div class="pair">
              <NumberField
                label={t.sure}
                after="%"
                value={rule.confidence}
                onValue={(confidence) => change({ confidence })}
                error={fault(`/certainty/${at}/confidence`, `/certainty/${at}/limitId`)}
              />
            </div>
            <OnlyFor form={form} on={rule.products} onChange={(products) => change({ products })} />
            <Button
              kind="quiet"
              label={t.remove(says)}
              onClick={() => set({ certainty: without(certainty, at) })}
            >
              ✕
            </Button>
          </fieldset>
        );
      })}
      <PickSearch
        label={t.findCertain}
        picks={picks.filter(({ id }) => !certainty.some(({ limitId }) => limitId === id))}
        onPick={(limitId) => set({ certainty: [...certainty, { limitId, confidence: '95', products: [] }] })}
      />
    </PartOfForm>
  );
}
