import { fixed, inUnit } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { OneOf } from '../parts/choice.tsx';
import { Facts } from '../parts/facts.tsx';
import { type Device, useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { DEVICE } from './device-words.ts';

/** What this device shows, with figures to see it by. */
export function ThisDevice() {
  const t = useWords(DEVICE);
  const device = useDevice();
  const { plant } = useHere();
  const looks: readonly Device['look'][] = ['as the device', 'light', 'dark'];
  return (
    <div class="stack">
      <p class="hint">{t.says}</p>
      <div class="plant-device">
        <section class="card stack">
          <OneOf
            label={t.language}
            value={device.language}
            onValue={(language) => device.set({ language: language as Device['language'] })}
            options={[
              { value: 'en', says: 'English' },
              { value: 'es', says: 'Español' },
            ]}
          />
          <OneOf
            label={t.units}
            value={device.units}
            onValue={(units) => device.set({ units: units as Device['units'] })}
            options={[
              { value: 'plant', says: t.asPlant(plant.units) },
              { value: 'lb', says: 'lb, oz' },
              { value: 'kg', says: 'kg, g' },
            ]}
          />
          <OneOf
            label={t.mark}
            value={device.mark}
            onValue={(mark) => device.set({ mark: mark as Device['mark'] })}
            options={[
              { value: '.', says: t.point },
              { value: ',', says: t.comma },
            ]}
          />
          <p class="hint">{t.markSays}</p>
          <OneOf
            label={t.look}
            value={device.look}
            onValue={(look) => device.set({ look: look as Device['look'] })}
            options={looks.map((look) => ({ value: look, says: t.looks[look] }))}
          />
        </section>
        <Example />
      </div>
    </div>
  );
}

/** Figures that are nobody's: they only show how figures look. */
function Example() {
  const t = useWords(DEVICE);
  const show = useShow();
  const { plant } = useHere();
  const smallKg = 0.3742;
  const rows: readonly (readonly [string, string])[] = [
    [t.weight, show.mass(141.7028, 1)],
    [t.small, `${show.digits(fixed(inUnit(smallKg, show.small), 1))} ${show.small}`],
    [t.price, show.price(6.8343)],
    [t.fat, show.percent(0.1934)],
    [t.money, show.money(1234.56)],
    [t.day, show.day(plant.today)],
  ];
  return (
    <section class="card stack">
      <h2>{t.example}</h2>
      <Facts look="plant-example" facts={rows} />
    </section>
  );
}
