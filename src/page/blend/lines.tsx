import { useState } from 'preact/hooks';
import { pricePerUnit } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { MassField } from '../parts/number-field.tsx';
import { Table } from '../parts/table.tsx';
import { useDevice } from '../shell/device.ts';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Asking } from './asking.ts';
import { meatLines } from './blend-bar.tsx';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

/** What is weighed of what, with the lots that can be left out and the prices that can be tried. */
export function Lines({ blend, worth, asking, onAsk }: Pick<Viewed, 'blend' | 'worth' | 'asking' | 'onAsk'>) {
  const t = useWords(BLEND);
  const show = useShow();
  const say = useSay();
  const [pricing, setPricing] = useState<{ lotId: string; perKg: number }>();
  const meat = new Set(meatLines(blend));
  const exclude = (lotId: string) => onAsk({ excluded: [...asking.excluded, lotId] });
  const unused = worth?.notUsed ?? [];
  return (
    <div class="stack">
      <Table
        caption={t.barTitle}
        rows={blend.lines}
        keyOf={({ supplyId }) => supplyId}
        columns={[
          {
            says: t.lot,
            isName: true,
            of: ({ lotId, material }) => (
              <>
                {lotId && <a href={to('stock', lotId)}>{lotId}</a>} <span class="aside">{material}</span>
              </>
            ),
          },
          {
            says: t.perLoad,
            isNumber: true,
            of: ({ weight, mass }) => (
              <>
                <strong>
                  {show.digits(weight.text)} {weight.unit}
                </strong>
                {/* The scale decides the unit; who reads in the other system has both. */}
                {isOfOtherSystem(weight.unit, show.units) && (
                  <small class="blend-other">{show.mass(mass.kg / blend.loads)}</small>
                )}
              </>
            ),
          },
          ...(blend.loads > 1
            ? [
                {
                  says: t.whole,
                  isNumber: true,
                  isExtra: true,
                  of: ({ mass }: (typeof blend.lines)[number]) => show.mass(mass.kg),
                },
              ]
            : []),
          {
            says: t.price,
            isNumber: true,
            of: ({ lotId, cost, mass }) => {
              const perKg = cost / mass.kg;
              return lotId === undefined ? (
                <span class="aside">{show.price(perKg)}</span>
              ) : (
                <span class="blend-price">
                  <Button
                    kind="quiet"
                    label={`${show.price(perKg)}: ${t.tryPrice(lotId)}`}
                    onClick={() => setPricing({ lotId, perKg })}
                  >
                    {show.price(perKg)}
                  </Button>
                </span>
              );
            },
          },
          {
            says: <span class="unseen">{t.leaveOut}</span>,
            of: (line) =>
              line.lotId !== undefined &&
              meat.has(line) && (
                <Button
                  kind="quiet"
                  label={t.leaveOutLot(line.lotId)}
                  onClick={() => exclude(line.lotId ?? '')}
                >
                  ✕
                </Button>
              ),
          },
        ]}
      />
      {asking.excluded.length > 0 && (
        <p class="row wrap">
          {t.leftOutByYou}
          {asking.excluded.map((lotId) => (
            <Button
              key={lotId}
              label={t.takeBack(lotId)}
              onClick={() => onAsk({ excluded: asking.excluded.filter((each) => each !== lotId) })}
            >
              {lotId} ↩
            </Button>
          ))}
        </p>
      )}
      {unused.length > 0 && (
        <details>
          <summary>{t.notUsed(unused.length)}</summary>
          <ul class="blend-unused">
            {unused.map(({ supplyId, material, costPerKg, wouldEnterBelowPerKg }) => (
              <li key={supplyId}>
                <span>
                  <b>{supplyId}</b> <span class="aside">{material}</span>
                  <br />
                  {wouldEnterBelowPerKg === undefined
                    ? t.neverEnters
                    : t.entersBelow(show.price(wouldEnterBelowPerKg))}
                </span>
                <Button
                  kind="quiet"
                  label={`${show.price(costPerKg)}: ${t.tryPrice(supplyId)}`}
                  onClick={() => setPricing({ lotId: supplyId, perKg: costPerKg })}
                >
                  {show.price(costPerKg)}
                </Button>
              </li>
            ))}
          </ul>
        </details>
      )}
      {blend.leftOut.length > 0 && (
        <details>
          <summary>
            {t.leftOut} ({blend.leftOut.length})
          </summary>
          <ul>
            {blend.leftOut.map(({ supplyId, material, because }) => (
              <li key={supplyId}>
                <b>{supplyId}</b> {material}: {say(because)}
              </li>
            ))}
          </ul>
        </details>
      )}
      {pricing && (
        <TryPrice
          {...pricing}
          onClose={() => setPricing(undefined)}
          onPrice={(cost) => {
            onAsk({ prices: { ...asking.prices, [pricing.lotId]: cost } });
            setPricing(undefined);
          }}
        />
      )}
    </div>
  );
}

function TryPrice({
  lotId,
  perKg,
  onClose,
  onPrice,
}: {
  readonly lotId: string;
  readonly perKg: number;
  readonly onClose: () => void;
  readonly onPrice: (cost: Asking['prices'][string]) => void;
}) {
  const t = useWords(COMMON);
  const own = useWords(BLEND);
  const { mark } = useDevice();
  const { units, number, currency } = useShow();
  const [typed, setTyped] = useState({
    text: number(pricePerUnit(perKg, units), 2),
    unit: units as 'lb' | 'kg' | 'oz' | 'g',
  });
  const parsed = parseMass(typed.text, typed.unit, mark);
  const submit = (event: Event) => {
    event.preventDefault();
    if (parsed.kind === 'mass' && parsed.value >= 0) {
      onPrice({ amount: parsed.value, per: parsed.unit === 'kg' ? 'kg' : 'lb' });
    }
  };
  return (
    <Dialog title={own.tryPrice(lotId)} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <MassField
          label={t.price}
          value={typed}
          onValue={setTyped}
          units={['lb', 'kg']}
          isPer
          before={currency}
        />
        <div class="actions">
          <Button onClick={onClose}>{t.cancel}</Button>
          <Button kind="main" type="submit">
            {own.tryIt}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

/** Grams are on the scales of every plant: only pounds and ounces to kilograms, and kilograms to pounds. */
function isOfOtherSystem(unit: string, units: 'lb' | 'kg'): boolean {
  return units === 'kg' ? unit === 'lb' || unit === 'oz' : unit === 'kg';
}
