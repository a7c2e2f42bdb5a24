import { Choice } from '../parts/choice.tsx';
import { useAnswer } from '../service/answers.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { PlantFieldsProps } from './market-fields.tsx';
import type { LabelStocks } from './plant-types.ts';
import type { TypedPlant } from './typed-plant.ts';
import { PLANT } from './words.ts';

/** What the plant prints on, and in which language. */
export function PrintingFields({ typed, set, fault, disabled = false }: PlantFieldsProps) {
  const t = useWords(PLANT);
  const say = useSay();
  const stocks = useAnswer<LabelStocks>('/label-stocks').body?.items ?? [];
  const known = stocks.map(({ id, says }) => ({ value: id, says: say(says) }));
  return (
    <div class="plant-pair">
      <Choice
        label={t.fields.paper}
        value={typed.paper}
        onValue={(paper) => set({ paper })}
        options={[
          { value: '', says: t.byDefault },
          { value: 'letter', says: t.papers.letter },
          { value: 'a4', says: t.papers.a4 },
        ]}
        error={fault('/printing/paper')}
        disabled={disabled}
      />
      <Choice
        label={t.fields.language}
        value={typed.language}
        onValue={(language) => set({ language })}
        options={[
          { value: '', says: t.byDefault },
          { value: 'en', says: t.languages.en },
          { value: 'es', says: t.languages.es },
        ]}
        error={fault('/printing/language')}
        disabled={disabled}
      />
      <Choice
        label={t.fields.labelStock}
        value={typed.labelStock}
        onValue={(labelStock) => set({ labelStock })}
        options={[
          { value: '', says: t.notSet },
          ...(known.some(({ value }) => value === typed.labelStock) || typed.labelStock === ''
            ? []
            : [{ value: typed.labelStock, says: typed.labelStock }]),
          ...known,
        ]}
        error={fault('/printing/labelStock')}
        disabled={disabled}
      />
      <Choice
        label={t.fields.priceCode}
        hint={t.priceCodeSays}
        value={typed.priceCode}
        onValue={(priceCode) => set({ priceCode: priceCode as TypedPlant['priceCode'] })}
        options={(['none', 'five digits', 'four digits'] as const).map((value) => ({
          value,
          says: t.priceCodes[value],
        }))}
        error={fault('/printing/priceCode')}
        disabled={disabled}
      />
    </div>
  );
}
