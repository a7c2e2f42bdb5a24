import { Choice, OneOf } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { useDevice } from '../shell/device.ts';
import { useWords } from '../words/words.ts';
import { currencies, timeZones } from './named.ts';
import type { TypedPlant } from './typed-plant.ts';
import { MARKETS, PLANT } from './words.ts';

export interface PlantFieldsProps {
  readonly typed: TypedPlant;
  readonly set: (change: Partial<TypedPlant>) => void;
  readonly fault: (...pointers: string[]) => string | undefined;
  readonly disabled?: boolean;
}

/** Fields of the plant that its settings and the first run share. */

export function WhoFields({ typed, set, fault, disabled = false }: PlantFieldsProps) {
  const t = useWords(PLANT);
  return (
    <div class="plant-pair">
      <TextField
        label={t.fields.name}
        value={typed.name}
        onValue={(name) => set({ name })}
        error={fault('/name')}
        disabled={disabled}
      />
      <TextField
        label={t.fields.establishment}
        hint={t.establishmentSays}
        value={typed.establishment}
        onValue={(establishment) => set({ establishment })}
        error={fault('/establishment')}
        disabled={disabled}
      />
    </div>
  );
}

export function MarketFields({ typed, set, fault, disabled = false }: PlantFieldsProps) {
  const t = useWords(PLANT);
  const { language } = useDevice();
  return (
    <div class="plant-pair">
      <Choice
        label={t.fields.jurisdiction}
        hint={t.jurisdictionSays}
        value={typed.jurisdiction}
        onValue={(jurisdiction) => set({ jurisdiction })}
        options={MARKETS.map((market) => ({ value: market, says: t.markets[market] }))}
        error={fault('/jurisdiction')}
        disabled={disabled}
      />
      <Choice
        label={t.fields.currency}
        hint={t.currencySays}
        value={typed.currency}
        onValue={(currency) => set({ currency })}
        options={currencies(typed.currency, language)}
        error={fault('/currency')}
        disabled={disabled}
      />
      <Choice
        label={t.fields.timeZone}
        hint={t.timeZoneSays}
        value={typed.timeZone}
        onValue={(timeZone) => set({ timeZone })}
        options={timeZones(typed.timeZone)}
        error={fault('/timeZone')}
        disabled={disabled}
      />
      <UnitsField typed={typed} set={set} fault={fault} disabled={disabled} />
    </div>
  );
}

export function UnitsField({ typed, set, disabled = false }: PlantFieldsProps) {
  const t = useWords(PLANT);
  return (
    <div class="plant-units">
      <fieldset disabled={disabled}>
        <OneOf
          label={t.fields.units}
          value={typed.units}
          onValue={(units) => set({ units: units as 'lb' | 'kg' })}
          options={[
            { value: 'lb', says: 'lb, oz' },
            { value: 'kg', says: 'kg, g' },
          ]}
        />
      </fieldset>
      <p class="hint">{t.unitsSays}</p>
    </div>
  );
}
