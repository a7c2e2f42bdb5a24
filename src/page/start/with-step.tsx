import { useShow } from '../figures/show.ts';
import { Choice, Tick } from '../parts/choice.tsx';
import { Notice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Recipe } from './first-lots.ts';
import type { StepProps } from './steps.tsx';
import { START } from './words.ts';

interface Rules {
  readonly standards: readonly {
    readonly productClass: string;
    readonly says: string;
    readonly cooking: readonly string[];
  }[];
}

/** Recipes that are taken where nothing was chosen. */
export const FIRST_PRODUCT = 'ground-beef-80-20';

export const chosenProducts = (typed: readonly string[] | undefined, recipes: readonly Recipe[]): string[] =>
  recipes.map(({ id }) => id).filter((id) => (typed ?? [FIRST_PRODUCT]).includes(id));

/** Empty with some recipes, or with everything of the demonstration. */
export function WithStep({
  start: { draft, plant },
  fault,
  standsStillAt,
}: StepProps & { readonly standsStillAt: string | undefined }) {
  const t = useWords(START).with;
  const show = useShow();
  const { keeps } = draft.value;
  const recipes = useAnswer<{ readonly items: readonly Recipe[] }>('/products?limit=500');
  return (
    <>
      <fieldset class="start-choices">
        <legend class="unseen">{t.title}</legend>
        <Way
          isOn={keeps === 'products'}
          says={t.empty}
          more={t.emptySays}
          onPick={() => draft.set({ keeps: 'products' })}
        />
        {standsStillAt !== undefined && (
          <Way
            isOn={keeps === 'all'}
            says={t.all}
            more={t.allSays(show.day(standsStillAt))}
            onPick={() => draft.set({ keeps: 'all' })}
          />
        )}
      </fieldset>
      {keeps === 'products' && (
        <Read of={recipes}>
          {({ items }) => (
            <section class="card stack">
              <h2>{t.products}</h2>
              <p class="hint">{t.productsSay}</p>
              <Recipes
                recipes={items}
                chosen={chosenProducts(draft.value.products, items)}
                onChosen={(products) => draft.set({ products })}
                market={plant.jurisdiction}
                classes={draft.value.classes}
                onClasses={(classes) => draft.set({ classes })}
                fault={fault}
              />
              <p class="hint">{t.prices}</p>
            </section>
          )}
        </Read>
      )}
    </>
  );
}

function Way({
  isOn,
  says,
  more,
  onPick,
}: {
  readonly isOn: boolean;
  readonly says: string;
  readonly more: string;
  readonly onPick: () => void;
}) {
  return (
    <label class={`card start-choice ${isOn ? 'on' : ''}`}>
      <input type="radio" name="start-with" checked={isOn} onChange={onPick} />
      <span>
        <strong>{says}</strong>
        <span class="hint">{more}</span>
      </span>
    </label>
  );
}

function Recipes({
  recipes,
  chosen,
  onChosen,
  market,
  classes,
  onClasses,
  fault,
}: {
  readonly recipes: readonly Recipe[];
  readonly chosen: readonly string[];
  readonly onChosen: (chosen: string[]) => void;
  readonly market: string;
  readonly classes: Readonly<Record<string, string>>;
  readonly onClasses: (classes: Readonly<Record<string, string>>) => void;
  readonly fault: StepProps['fault'];
}) {
  const t = useWords(START).with;
  const say = useSay();
  const isElsewhere = recipes.some(({ standard }) => standard.jurisdiction !== market);
  const rules = useAnswer<Rules>(isElsewhere ? `/rules?jurisdiction=${market}` : undefined).body;
  return (
    <>
      {isElsewhere && <Notice kind="caution">{t.otherMarket}</Notice>}
      <ul class="start-recipes">
        {recipes.map(({ id, name, standard, process }) => {
          const isOn = chosen.includes(id);
          const fitting = (rules?.standards ?? []).filter(({ cooking }) => cooking.includes(process.cooking));
          return (
            <li key={id}>
              <Tick
                label={name}
                isOn={isOn}
                onChange={(isNow) => onChosen(isNow ? [...chosen, id] : chosen.filter((each) => each !== id))}
              />
              {isOn && standard.jurisdiction !== market && (
                <Choice
                  label={t.standard(name)}
                  isLabelHidden
                  value={classes[id] ?? ''}
                  onValue={(productClass) => onClasses({ ...classes, [id]: productClass })}
                  options={[
                    { value: '', says: t.asWritten },
                    ...fitting.map(({ productClass, says }) => ({ value: productClass, says: say(says) })),
                  ]}
                  error={fault(`/keeps/products/${chosen.indexOf(id)}/productClass`)}
                />
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}
