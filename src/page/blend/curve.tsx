import { useEffect, useState } from 'preact/hooks';
import type { CurveAnswer } from '../../api/contract/curve.ts';
import { pricePerUnit } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { type Frame, ticks } from '../pictures/scale.ts';
import { useWork } from '../service/answers.ts';
import { useWords } from '../words/words.ts';
import type { BlendBody } from './asking.ts';
import { axesOf, type CurvePoint, costAt, fatAt, xOf, yOf } from './curve-shape.ts';
import { targetEnds, withBound } from './product-seen.ts';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

const FRAME: Frame = { width: 420, height: 230, left: 56, right: 14, top: 14, bottom: 40 };
/** Points of fat on either side of the product's own target. */
const REACH = 8;
const REST_MS = 400;

/** The least cost along the fat target, with the place where the blend stands now; a tap on it tries another. */
export function Curve({
  product,
  asking,
  onAsk,
  body,
}: Pick<Viewed, 'product' | 'asking' | 'onAsk' | 'body'>) {
  const t = useWords(BLEND);
  const show = useShow();
  const end = targetEnds(product).find(({ limitId }) => limitId === 'house-fat-max');
  const own =
    end?.own ?? (product.label?.leanPercent === undefined ? undefined : 100 - product.label.leanPercent);
  const range: readonly [number, number] | undefined =
    own === undefined ? undefined : [Math.max(1, own - REACH), Math.min(60, own + REACH)];
  const request = useResting(
    range && { blend: curveBody(body), along: { leanFrom: 100 - range[1], leanTo: 100 - range[0] } },
  );
  const { body: curve } = useWork<CurveAnswer>('/curves', request);
  if (!range || curve?.outcome !== 'curve' || own === undefined) return null;
  const points: CurvePoint[] = curve.points
    .map(({ at, costPerKg }) => ({ fat: 100 - at, cost: pricePerUnit(costPerKg, show.units) }))
    .sort((a, b) => a.fat - b.fat);
  if (points.length < 2) return null;
  const axes = axesOf(points, range);
  const x = (fat: number) => xOf(fat, axes, FRAME);
  const y = (cost: number) => yOf(cost, axes, FRAME);
  const now = asking.bounds['house-fat-max'] ?? own;
  const nowCost = costAt(points, now);
  const floor = FRAME.height - FRAME.bottom;
  const tryAt = (event: MouseEvent) => {
    if (!end) return;
    const { left, width } = (event.currentTarget as SVGElement).getBoundingClientRect();
    const fat = fatAt(((event.clientX - left) / width) * FRAME.width, axes, FRAME);
    onAsk({ bounds: withBound(product, asking.bounds, end, fat) });
  };
  const line = points.map(({ fat, cost }) => `${x(fat).toFixed(1)},${y(cost).toFixed(1)}`).join(' ');
  const nowSays =
    nowCost === undefined
      ? ''
      : `${t.curveNow}: ${show.number(now, 1)} %, ${show.money(nowCost)}/${show.units}`;
  return (
    <div class="card">
      <Figure
        title={t.curveTitle}
        caption={t.curveSays}
        columns={[
          { says: t.curveFat, of: ({ fat }: CurvePoint) => `${show.number(fat, 1)} %`, isName: true },
          { says: t.cost, of: ({ cost }: CurvePoint) => `${show.money(cost)}/${show.units}`, isNumber: true },
        ]}
        rows={points}
        keyOf={(_, index) => index}
      >
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: the buttons of the targets do the same by keyboard. */}
        <svg
          class="blend-curve"
          viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
          role="img"
          aria-label={`${t.curveTitle}. ${nowSays}`}
          onClick={tryAt}
        >
          <rect
            x={FRAME.left}
            y={FRAME.top}
            width={FRAME.width - FRAME.left - FRAME.right}
            height={floor - FRAME.top}
            class="ground"
          />
          {ticks(axes.cost, 5).map((cost) => (
            <g key={cost}>
              <line x1={FRAME.left} x2={FRAME.width - FRAME.right} y1={y(cost)} y2={y(cost)} class="grid" />
              <text x={FRAME.left - 6} y={y(cost) + 4} text-anchor="end">
                {show.money(cost)}
              </text>
            </g>
          ))}
          {ticks(range, 8).map((fat) => (
            <text key={fat} x={x(fat)} y={floor + 17} text-anchor="middle">
              {show.number(fat, 0)}
            </text>
          ))}
          <text x={(FRAME.left + FRAME.width - FRAME.right) / 2} y={FRAME.height - 5} text-anchor="middle">
            {t.curveFat}, %
          </text>
          <polyline points={line} class="line" />
          {points.slice(1, -1).map(({ fat, cost }) => (
            <circle key={fat} cx={x(fat)} cy={y(cost)} r="2.5" class="corner" />
          ))}
          {nowCost !== undefined && (
            <g class="now">
              <line x1={x(now)} x2={x(now)} y1={y(nowCost)} y2={floor} />
              <circle cx={x(now)} cy={y(nowCost)} r="7" />
              <text
                x={x(now) + (now > own ? -12 : 12)}
                y={y(nowCost) - 10}
                text-anchor={now > own ? 'end' : 'start'}
              >
                {show.money(nowCost)}
              </text>
            </g>
          )}
        </svg>
      </Figure>
      {(curve.feasible.from > 100 - range[1] + 0.05 || curve.feasible.to < 100 - range[0] - 0.05) && (
        <p class="hint">{t.curveBroken}</p>
      )}
    </div>
  );
}

/** The same blend without what a curve does not follow: wishes of the floor, and the fat targets that give way to it. */
function curveBody({ floor: _, trial, ...body }: BlendBody): BlendBody {
  const bounds = (trial?.bounds ?? []).filter(({ limitId }) => !/^house-(fat|label-lean)-/.test(limitId));
  const prices = trial?.prices ?? [];
  return bounds.length + prices.length > 0 ? { ...body, trial: { bounds, prices } } : body;
}

/** A request once it has rested: the curve follows more slowly than the blend. */
function useResting<Body>(body: Body): Body | undefined {
  const text = JSON.stringify(body);
  const [rested, setRested] = useState<{ text: string | undefined; body: Body }>();
  useEffect(() => {
    const timer = setTimeout(() => setRested({ text, body }), rested ? REST_MS : 0);
    return () => clearTimeout(timer);
  }, [text]);
  return rested?.body;
}
