import { massKgOf, parseMass } from '../figures/mass.ts';
import { parseNumber } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { Choice, OneOf } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { useDevice } from '../shell/device.ts';
import { useWords } from '../words/words.ts';
import { boxList, type TypedReceipt } from './receipt.ts';
import type { Fill } from './receipt-fields.tsx';
import { RECEIPT } from './receipt-words.ts';
import { STOCK } from './words.ts';

const UNITS = ['lb', 'kg'] as const;

/** How much came: all of it, boxes of one weight, or boxes one by one. */
export function WeightFields({ fill }: { readonly fill: Fill }) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const { typed, set } = fill;
  return (
    <fieldset class="stack">
      <OneOf
        label={t.weight}
        value={typed.how}
        onValue={(how) => set({ how: how as TypedReceipt['how'] })}
        options={(['boxes', 'total', 'list'] as const).map((value) => ({ value, says: w.weighed[value] }))}
      />
      {typed.how === 'total' && (
        <MassField
          label={w.totalWeight}
          error={fill.fault('weight', '/mass/value', '/mass')}
          value={typed.total}
          onValue={(total) => set({ total })}
        />
      )}
      {typed.how === 'boxes' && <Boxes fill={fill} />}
      {typed.how === 'list' && <List fill={fill} />}
    </fieldset>
  );
}

function Boxes({ fill: { typed, suggested, set, fault } }: { readonly fill: Fill }) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const show = useShow();
  const { mark } = useDevice();
  const box = typed.box ?? suggested.box;
  const [count, one] = [parseNumber(typed.count, mark), parseMass(box.text, box.unit, mark)];
  return (
    <>
      <div class="pair">
        <NumberField
          label={w.boxes}
          error={fault('count', '/boxes/count', '/boxes')}
          value={typed.count}
          onValue={(text) => set({ count: text })}
        />
        <MassField
          label={t.boxWeight}
          error={fault('box', '/boxes/mass/value', '/boxes/mass')}
          value={box}
          onValue={(value) => set({ box: value })}
        />
      </div>
      {count.kind === 'number' && one.kind === 'mass' && (
        <p class="stock-adds" role="status">
          = {show.mass(count.value * massKgOf(one.value, one.unit))}
        </p>
      )}
    </>
  );
}

function List({ fill: { typed, set, fault } }: { readonly fill: Fill }) {
  const t = useWords(RECEIPT);
  const { mark } = useDevice();
  const show = useShow();
  const { count, sum, wrong } = boxList(typed.list, mark);
  const said = fault('weight', '/mass/value', '/mass');
  return (
    <>
      <div class="stock-list">
        <TextField
          label={t.boxList}
          hint={t.boxListHint}
          error={wrong === undefined ? said : t.wrongBox(wrong)}
          value={typed.list}
          onValue={(list) => set({ list })}
        />
        <Choice
          label={t.unit}
          value={typed.listUnit}
          onValue={(unit) => set({ listUnit: unit === 'kg' ? 'kg' : 'lb' })}
          options={UNITS.map((value) => ({ value, says: value }))}
        />
      </div>
      <p class="stock-adds" role="status">
        {t.boxesAdd(count, `${show.digits(sum)} ${typed.listUnit}`)}
      </p>
    </>
  );
}
