import { ALLERGENS, MATERIAL_KINDS, SPECIES, SUBSTANCES } from '../../batch/material.ts';
import { idOf } from '../figures/id-of.ts';
import { Choice, Tick } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { useDevice } from '../shell/device.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { ActDialog, type Filling } from './act-dialog.tsx';
import {
  EMPTY_MATERIAL,
  FINER_PARTS,
  MAIN_PARTS,
  materialOf,
  type TypedMaterial,
  typedMaterial,
} from './material-input.ts';
import { MATERIAL } from './material-words.ts';
import type { MaterialAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** A material of the plant's own is added, alone or like another one, or written anew. */
export function MaterialDialog({
  like,
  isNew,
  onDone,
  onClose,
}: {
  readonly like: MaterialAnswer | undefined;
  readonly isNew: boolean;
  readonly onDone: () => void;
  readonly onClose: () => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const tell = useTell();
  const { mark } = useDevice();
  return (
    <ActDialog<TypedMaterial, MaterialAnswer>
      title={isNew ? w.newMaterial : (like?.name ?? '')}
      name={`material ${isNew ? 'like ' : ''}${like?.id ?? ''}`}
      initial={like ? typedMaterial(like, mark, isNew) : EMPTY_MATERIAL}
      does={t.saveChange}
      act={(typed) => {
        const ready = materialOf({ ...typed, id: typed.id || idOf(typed.name) }, like, mark);
        if ('wrong' in ready) return undefined;
        if (isNew) return { path: '/materials', body: ready.body };
        return {
          method: 'PUT',
          path: `/materials/${typed.id}`,
          body: ready.body,
          ...(like?.version !== undefined && { version: like.version }),
        };
      }}
      onRefused={onDone}
      onDone={({ name }) => {
        tell({ says: t.changed(name) });
        onDone();
      }}
      onClose={onClose}
    >
      {(filling) => (
        <>
          <Names filling={filling} isNew={isNew} />
          <Parts filling={filling} />
          <Carries filling={filling} />
        </>
      )}
    </ActDialog>
  );
}

function Names({
  filling: { typed, set, fault },
  isNew,
}: {
  readonly filling: Filling<TypedMaterial>;
  readonly isNew: boolean;
}) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const say = useSay();
  const options = (values: readonly string[]) => values.map((value) => ({ value, says: say(value) }));
  return (
    <>
      <TextField
        label={w.materialName}
        error={fault(['/name'])}
        value={typed.name}
        onValue={(name) => set({ name })}
      />
      <div class="pair">
        <TextField
          label={w.declaredName}
          hint={w.declaredHint}
          error={fault(['/declaredName'])}
          value={typed.declaredName}
          onValue={(declaredName) => set({ declaredName })}
        />
        {isNew && (
          <TextField
            label={w.materialId}
            hint={w.materialIdHint}
            error={fault(['/id'])}
            value={typed.id || idOf(typed.name)}
            onValue={(id) => set({ id })}
          />
        )}
      </div>
      <div class="pair">
        <Choice
          label={t.kind}
          error={fault(['/kind'])}
          value={typed.kind}
          onValue={(kind) => set({ kind })}
          options={options(MATERIAL_KINDS)}
        />
        <Choice
          label={w.species}
          error={fault(['/species'])}
          value={typed.species}
          onValue={(species) => set({ species })}
          options={[{ value: '', says: '–' }, ...options(SPECIES)]}
        />
      </div>
    </>
  );
}

function Parts({ filling: { typed, set, fault } }: { readonly filling: Filling<TypedMaterial> }) {
  const t = useWords(MATERIAL);
  const field = (name: keyof typeof t.parts) => (
    <NumberField
      key={name}
      label={t.parts[name]}
      after="%"
      error={fault([`/composition/${name}`])}
      value={typed.parts[name] ?? ''}
      onValue={(percent) => set({ parts: { ...typed.parts, [name]: percent } })}
    />
  );
  const whole = fault(['/composition']);
  return (
    <fieldset class="stack">
      <legend>{t.composition}</legend>
      <div class="pair stock-parts">{MAIN_PARTS.map(field)}</div>
      {whole && <p class="error">{whole}</p>}
      <details>
        <summary>{t.finerParts}</summary>
        <div class="pair stock-parts">{FINER_PARTS.map(field)}</div>
      </details>
    </fieldset>
  );
}

/** What it brings along that a rule counts, or that must be declared. */
function Carries({ filling: { typed, set, fault } }: { readonly filling: Filling<TypedMaterial> }) {
  const t = useWords(MATERIAL);
  const say = useSay();
  const there = Object.keys(typed.substances);
  return (
    <>
      <fieldset>
        <legend>{t.allergens}</legend>
        <div class="stock-ticks">
          {ALLERGENS.map((allergen) => (
            <Tick
              key={allergen}
              label={say(allergen)}
              isOn={typed.allergens.includes(allergen)}
              onChange={(isOn) =>
                set({
                  allergens: isOn
                    ? [...typed.allergens, allergen]
                    : typed.allergens.filter((each) => each !== allergen),
                })
              }
            />
          ))}
        </div>
      </fieldset>
      <div class="pair stock-parts">
        {there.map((name) => (
          <NumberField
            key={name}
            label={say(name)}
            after="%"
            error={fault([`/substances/${name}`])}
            value={typed.substances[name] ?? ''}
            onValue={(percent) => set({ substances: { ...typed.substances, [name]: percent } })}
          />
        ))}
      </div>
      <Choice
        label={t.addSubstance}
        hint={t.substanceHint}
        value=""
        onValue={(name) => set({ substances: { ...typed.substances, [name]: '' } })}
        options={[
          { value: '', says: '–' },
          ...SUBSTANCES.filter((name) => !there.includes(name)).map((value) => ({ value, says: say(value) })),
        ]}
      />
      <TextField
        label={t.subIngredients}
        hint={t.subIngredientsHint}
        isOptional
        error={fault(['/subIngredients'])}
        value={typed.subIngredients}
        onValue={(subIngredients) => set({ subIngredients })}
      />
      <div class="pair">
        <TextField
          label={t.madeIn}
          isOptional
          maxLength={2}
          error={fault(['/madeIn'])}
          value={typed.madeIn}
          onValue={(madeIn) => set({ madeIn })}
        />
        <TextField
          label={t.source}
          isOptional
          hint={t.sourceHint}
          error={fault(['/source'])}
          value={typed.source}
          onValue={(source) => set({ source })}
        />
      </div>
    </>
  );
}
