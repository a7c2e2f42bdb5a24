import { useWords } from '../words/words.ts';
import { chartLayout } from './chart-layout.ts';
import { CHART } from './chart-words.ts';
import type { Trim } from './trim.ts';

const FRAME = { width: 168, height: 48, left: 2, right: 2, top: 4, bottom: 4 };

/** The same chart, tiny: whether something is to be looked at. */
export function SmallChart({ trim }: { readonly trim: Trim }) {
  const t = useWords(CHART);
  const { chart, lines, points } = chartLayout(
    trim.lots.map(({ fatFraction }) => fatFraction * 100),
    { class: trim.classMeanFraction * 100, learned: trim.meanFraction * 100 },
    FRAME,
  );
  const odd = chart.points.filter(({ standing, inRun }) => standing === 'outside' || inRun).length;
  return (
    <>
      <svg viewBox={`0 0 ${FRAME.width} ${FRAME.height}`} aria-hidden="true" class="chart">
        {lines
          .filter(({ name }) => name === 'mean' || name.endsWith('3'))
          .map(({ name, y }) => (
            <line key={name} class={`line ${name}`} x1="0" x2={FRAME.width} y1={y} y2={y} />
          ))}
        <polyline class="trail" points={points.map(({ x, y }) => `${x},${y}`).join(' ')} />
        {points.map(({ x, y }, at) => (
          <circle key={x} class={`point ${chart.points[at]?.standing}`} cx={x} cy={y} r="2.5" />
        ))}
      </svg>
      <span class={odd === 0 ? 'calm' : 'odd'}>
        {odd === 0 ? `✓ ${t.nothingOdd}` : `✕ ${t.toLookAt(odd)}`}
      </span>
    </>
  );
}
