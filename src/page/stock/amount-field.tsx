import { useShow } from '../figures/show.ts';
import { OneOf } from '../parts/choice.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { useWords } from '../words/words.ts';
import type { TypedAmount } from './amount.ts';
import { LOT } from './lot-words.ts';
import type { LotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** How much of a lot leaves it. */
export function AmountField({
  lot,
  value,
  onValue,
  fault,
}: {
  readonly lot: LotAnswer;
  readonly value: TypedAmount;
  readonly onValue: (value: TypedAmount) => void;
  readonly fault: string | undefined;
}) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const hint = w.isFree(show.mass(lot.free.kg));
  return (
    <>
      <OneOf
        label={w.howMuch}
        value={value.how}
        onValue={(how) => onValue({ ...value, how: how as TypedAmount['how'] })}
        options={[
          { value: 'mass', says: w.aWeight },
          ...(lot.packs ? [{ value: 'packs', says: w.packs }] : []),
          { value: 'all', says: w.allFree(show.mass(lot.free.kg)) },
        ]}
      />
      {value.how === 'mass' && (
        <MassField
          label={t.weight}
          hint={hint}
          error={fault}
          value={value.mass}
          onValue={(mass) => onValue({ ...value, mass })}
        />
      )}
      {value.how === 'packs' && (
        <NumberField
          label={w.packs}
          hint={lot.packs ? w.isFree(t.packCount(lot.packs.onHand)) : hint}
          error={fault}
          value={value.packs}
          onValue={(packs) => onValue({ ...value, packs })}
        />
      )}
      {value.how === 'all' && fault && <p class="error">{fault}</p>}
    </>
  );
}

/** An amount that nobody has typed yet. */
export function emptyAmount(lot: LotAnswer, unit: 'lb' | 'kg'): TypedAmount {
  return { how: lot.packs ? 'packs' : 'mass', mass: { text: '', unit }, packs: '' };
}
