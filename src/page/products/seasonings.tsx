import type { LineLimitsAnswer } from '../../api/contract/line-limits.ts';
import { MEAT_KINDS } from '../../batch/material.ts';
import { SEASONING_BASES } from '../../batch/product.ts';
import { Button } from '../parts/button.tsx';
import { Choice, Tick } from '../parts/choice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { Nothing } from '../parts/states.tsx';
import { useDevice } from '../shell/device.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type LineDraft, newLine } from './draft.ts';
import { changedAt, type PartProps, without } from './form.ts';
import { LineMarks } from './line-marks.tsx';
import { MaterialSearch } from './material-search.tsx';
import { PartOfForm } from './part-of-form.tsx';
import { inOtherUnit, RATE_UNITS, type RateUnit } from './rates.ts';
import { PRODUCTS } from './words.ts';

interface Props extends PartProps {
  readonly limits: LineLimitsAnswer | undefined;
}

/** Everything that is no meat, line by line, with what the limits leave of each. */
export function Seasonings({ form, limits }: Props) {
  const t = useWords(PRODUCTS);
  const { value, set, materials } = form;
  const { seasoning } = value;
  const others = [...materials.values()].filter(
    ({ id, kind }) =>
      !(MEAT_KINDS as readonly string[]).includes(kind) &&
      kind !== 'casing' &&
      kind !== 'rework' &&
      !seasoning.some(({ materialId }) => materialId === id),
  );
  return (
    <PartOfForm title={t.seasoning}>
      {seasoning.length === 0 && (
        <Nothing>
          <p>{t.seasoningNone}</p>
        </Nothing>
      )}
      <ul class="products-lines">
        {seasoning.map((line, at) => (
          <li key={line.materialId}>
            <Line form={form} limits={limits} line={line} at={at} />
          </li>
        ))}
      </ul>
      <MaterialSearch
        label={t.findSeasoning}
        materials={others}
        onPick={(id) => set({ seasoning: [...seasoning, newLine(id)] })}
      />
    </PartOfForm>
  );
}

function Line({ form, limits, line, at }: Props & { readonly line: LineDraft; readonly at: number }) {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const { mark } = useDevice();
  const { value, set, fault, materials } = form;
  const material = materials.get(line.materialId);
  const name = say(material?.name ?? line.materialId);
  const change = (of: Partial<LineDraft>) => set({ seasoning: changedAt(value.seasoning, at, of) });
  const pointer = `/seasoning/${at}`;
  const own = (field: string) => ({ label: t.lineOf(field, name), isLabelHidden: true });
  const inUnit = (unit: RateUnit) => {
    const as = (typed: string) => inOtherUnit(typed, line.unit, unit, mark);
    change({ unit, rate: as(line.rate), min: as(line.min), max: as(line.max) });
  };
  const rates = line.isRange ? (['min', 'max'] as const) : (['rate'] as const);
  const labels = { rate: t.rate, min: t.least, max: t.most };
  const faultOf = {
    rate: fault(`${pointer}/fraction`, pointer),
    min: fault(`${pointer}/minFraction`, `${pointer}/fraction`, pointer),
    max: fault(`${pointer}/maxFraction`),
  };
  const found = limits?.lines.find(({ materialId }) => materialId === line.materialId);
  const misfit = fault(`${pointer}/materialId`);
  return (
    <fieldset class="products-line">
      <legend class="unseen">{name}</legend>
      <p class="products-line-name" aria-hidden="true">
        {name}
      </p>
      <div class="products-rate">
        {rates.map((end) => (
          <NumberField
            key={end}
            {...own(labels[end])}
            value={line[end]}
            onValue={(typed) => change({ [end]: typed })}
            error={faultOf[end]}
          />
        ))}
      </div>
      <Choice
        {...own(t.unit)}
        value={line.unit}
        onValue={(unit) => inUnit(unit as RateUnit)}
        options={RATE_UNITS.map((unit) => ({ value: unit, says: unit }))}
      />
      <Choice
        {...own(t.of)}
        value={line.basis}
        onValue={(basis) => change({ basis: basis as LineDraft['basis'] })}
        options={SEASONING_BASES.map((basis) => ({ value: basis, says: t.bases[basis] }))}
      />
      <Tick
        label={t.range}
        isOn={line.isRange}
        onChange={(isRange) =>
          change(isRange ? { isRange, min: line.rate, max: line.rate } : { isRange, rate: line.max })
        }
      />
      <Button
        kind="quiet"
        label={t.removeLine(name)}
        onClick={() => set({ seasoning: without(value.seasoning, at) })}
      >
        ✕
      </Button>
      {misfit && <p class="error">{misfit}</p>}
      <LineMarks line={line} material={material} limits={found?.limits ?? []} onChange={change} />
    </fieldset>
  );
}
