import { pricePerUnit } from '../../units.ts';
import { massText } from '../figures/mass.ts';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { Notice } from '../parts/notice.tsx';
import { useDevice } from '../shell/device.ts';
import { to } from '../shell/place.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type Asking, type NoBlend, type Repair, withRepair } from './asking.ts';
import type { ProductSeen } from './product-seen.ts';
import { Targets } from './targets.tsx';
import { BLEND } from './words.ts';

/** Nothing fits: why, what fights with what, and the changes that lead to a blend, each a button. */
export function NoBlendView({
  answer,
  product,
  asking,
  onAsk,
}: {
  readonly answer: NoBlend;
  readonly product: ProductSeen;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
}) {
  const t = useWords(BLEND);
  const say = useSay();
  const { because, proven, wayOut, leftOut } = answer;
  return (
    <div class="blend-columns">
      <div class="stack">
        <Notice kind="bad" isUrgent>
          <h2>{t.noBlendTitle}</h2>
          {because.map(({ message }) => (
            <p key={message}>{say(message)}</p>
          ))}
          <p>{proven ? t.proven : t.notProven}</p>
        </Notice>
        {wayOut && (
          <section class="card stack" aria-labelledby="blend-ways">
            <h2 id="blend-ways">{t.waysOut}</h2>
            {wayOut.repairs.length === 0 && <p>{t.noWayOut}</p>}
            <ul class="blend-ways">
              {wayOut.repairs.map((repair) => (
                <li key={repair.says}>
                  <WayOut repair={repair} product={product} asking={asking} onAsk={onAsk} />
                </li>
              ))}
            </ul>
          </section>
        )}
      </div>
      <div class="stack">
        {wayOut && wayOut.conflict.length > 0 && (
          <section class="card stack">
            <h2>{t.fights}</h2>
            <ul class="blend-fights">
              {wayOut.conflict.map(({ kind, says }) => (
                <li key={says}>
                  <span class="blend-by">{t.kinds[kind]}</span> {say(says)}
                </li>
              ))}
            </ul>
          </section>
        )}
        <Targets product={product} asking={asking} onAsk={onAsk} />
        {leftOut.length > 0 && (
          <details class="card">
            <summary>
              {t.leftOut} ({leftOut.length})
            </summary>
            <ul>
              {leftOut.map(({ supplyId, material, because: why }) => (
                <li key={supplyId}>
                  <b>{supplyId}</b> {material}: {say(why)}
                </li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </div>
  );
}

function WayOut({
  repair,
  product,
  asking,
  onAsk,
}: {
  readonly repair: Repair;
  readonly product: ProductSeen;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
}) {
  const t = useWords(BLEND);
  const say = useSay();
  const show = useShow();
  const { mark } = useDevice();
  const then =
    repair.costPerKg === undefined
      ? ''
      : t.costsThen(`${show.money(pricePerUnit(repair.costPerKg, show.units))}/${show.units}`);
  const change = withRepair(asking, repair, show.units, (massKg) =>
    massText(massKg, show.units, mark).replace(` ${show.units}`, ''),
  );
  const text = (
    <span>
      {say(repair.says)} {then !== '' && <small>{then}</small>}
    </span>
  );
  if (change) return <Button onClick={() => onAsk(change)}>{text}</Button>;
  const bought = repair.changes.flatMap((each) => ('buyMaterialId' in each ? [each.buyMaterialId] : []))[0];
  return bought === undefined ? (
    <Go href={to('products', product.id)}>{text}</Go>
  ) : (
    <Go href={`${to('stock', 'receive')}?material=${encodeURIComponent(bought)}`}>
      <span>
        {say(repair.says)}{' '}
        <small>
          {t.receiveIt}
          {then !== '' && `, ${then}`}
        </small>
      </span>
    </Go>
  );
}
