import { pricePerUnit } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type Check, isBan, isUntouched, toShow, usedShare } from './room-order.ts';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

/** From here on a limit counts as reached: less room is less than a scale shows. */
const TIGHT = 0.995;

/** How near the blend is to each limit, what a limit costs, and who brings what it counts. */
export function Rooms({ blend, worth }: Pick<Viewed, 'blend' | 'worth'>) {
  const t = useWords(BLEND);
  const say = useSay();
  const figures = useFigures();
  const all = toShow(blend.checks);
  const shown = all.filter((check) => !isUntouched(check));
  const untouched = all.filter(isUntouched);
  const bans = blend.checks.filter(isBan);
  const holds = blend.checks.every((check) => check.holds);
  return (
    <section class="card stack">
      <Figure
        title={t.roomTitle}
        caption={holds ? `✓ ${t.allHold(blend.checks.length)}` : t.notAll}
        columns={[
          { says: t.limit, of: ({ limit }: Check) => say(limit.says), isName: true },
          { says: t.value, of: (check: Check) => figures(check).value, isNumber: true },
          { says: t.room, of: (check: Check) => figures(check).room, isNumber: true },
        ]}
        rows={all}
        keyOf={({ limit }: Check) => limit.id}
      >
        <ul class="blend-rooms">
          {shown.map((check) => (
            <Room key={check.limit.id} check={check} worth={worth} />
          ))}
        </ul>
      </Figure>
      {untouched.length > 0 && (
        <details>
          <summary>
            ✓ {t.untouched} {untouched.length}
          </summary>
          <ul class="blend-rooms">
            {untouched.map((check) => (
              <Room key={check.limit.id} check={check} worth={worth} />
            ))}
          </ul>
        </details>
      )}
      {bans.length > 0 && (
        <details>
          <summary>
            {bans.every(({ holds: each }) => each) ? '✓' : '✕'} {t.noneMay} {bans.length}
          </summary>
          <ul>
            {bans.map(({ limit, holds: each }) => (
              <li key={limit.id}>
                {each ? '✓' : '✕'} {say(limit.says)}{' '}
                <span class="aside">
                  <Said text={limit.citation} />
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
      {blend.laboratory.length > 0 && (
        <details>
          <summary>
            {t.laboratory} {blend.laboratory.length}
          </summary>
          <ul>
            {blend.laboratory.map(({ id, says, citation }) => (
              <li key={id}>
                {say(says)}{' '}
                <span class="aside">
                  <Said text={citation} />
                </span>
              </li>
            ))}
          </ul>
        </details>
      )}
      {blend.switchedOff.length > 0 && (
        <div>
          <p>
            <strong>{t.switchedOff}</strong>
          </p>
          <ul>
            {blend.switchedOff.map(({ limit, reason }) => (
              <li key={limit.id}>
                {say(limit.says)} <span class="aside">{reason}</span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}

function Room({ check, worth }: { readonly check: Check; readonly worth: Viewed['worth'] }) {
  const t = useWords(BLEND);
  const say = useSay();
  const show = useShow();
  const { limit, holds, contributions } = check;
  const used = usedShare(check);
  const figures = useFigures()(check);
  const price = worth?.limits.find(({ limitId }) => limitId === limit.id);
  const state = !holds ? 'broken' : used >= TIGHT ? 'tight' : 'roomy';
  return (
    <li>
      <details class="blend-room">
        <summary>
          <span class="blend-room-says">
            {say(limit.says)} <span class="blend-by">{t[limit.authority]}</span>
          </span>
          <span class={`blend-gauge ${state}`} aria-hidden="true">
            <span style={{ width: `${(used * 100).toFixed(1)}%` }} />
          </span>
          <span class="blend-room-value">
            {holds ? '✓' : '✕'} {figures.value}
            <span class="aside"> {state === 'tight' ? t.tight : `${t.room} ${figures.room}`}</span>
          </span>
        </summary>
        <p class="aside">
          <Said text={limit.citation} />
          {limit.note !== undefined && (
            <>
              {' '}
              · <Said text={limit.note} />
            </>
          )}
        </p>
        {price && (
          <p>
            {t.saves(
              `${show.money(pricePerUnit(price.savesPerKg, show.units), 3)}/${show.units}`,
              t.step[price.unit as keyof typeof t.step] ?? price.unit,
            )}
          </p>
        )}
        {contributions.length > 0 && (
          <>
            <p>
              <strong>{t.whoBrings}</strong>
            </p>
            <ul class="blend-who">
              {contributions.slice(0, 8).map(({ supplyId, massKg }) => (
                <li key={supplyId}>
                  <span>{supplyId}</span>
                  <span class="blend-gauge" aria-hidden="true">
                    <span
                      style={{
                        width: `${Math.min(100, (Math.abs(massKg) / largest(check)) * 100).toFixed(1)}%`,
                      }}
                    />
                  </span>
                  <span class="number">{show.mass(massKg)}</span>
                </li>
              ))}
            </ul>
          </>
        )}
      </details>
    </li>
  );
}

const largest = ({ contributions }: Check): number =>
  contributions.reduce((most, { massKg }) => Math.max(most, Math.abs(massKg)), 1e-12);

/** Value and room of a limit with their unit, printed as finely as the unit is read. */
function useFigures(): (check: Check) => { readonly value: string; readonly room: string } {
  const show = useShow();
  return ({ limit: { unit }, value, room }) => {
    if (unit === 'price per kg') {
      const text = (perKg: number) => `${show.money(pricePerUnit(perKg, show.units))}/${show.units}`;
      return { value: text(value), room: text(room) };
    }
    const decimals = unit === 'ppm' ? 0 : 2;
    const sign = unit === 'percent' ? ' %' : unit === 'ppm' ? ' ppm' : '';
    const text = (figure: number) => `${show.number(figure, decimals)}${sign}`;
    return { value: text(value), room: text(room) };
  };
}
