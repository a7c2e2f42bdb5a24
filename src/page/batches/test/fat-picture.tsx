import { useShow } from '../../figures/show.ts';
import { Figure } from '../../pictures/figure.tsx';
import { useWords } from '../../words/words.ts';
import { endsOf, type FatWindow } from './fat-window.ts';
import { TEST } from './words.ts';

const WIDTH = 250;

/** Where the fat is now, what is allowed, and where it would be. */
export function FatPicture({ window }: { readonly window: FatWindow }) {
  const t = useWords(TEST);
  const show = useShow();
  const [left, right] = endsOf(window);
  const x = (percent: number) => ((percent - left) / (right - left)) * WIDTH;
  const text = (percent: number | undefined) =>
    percent === undefined ? '–' : `${show.number(percent, 1)} %`;
  const { now, after, least, most } = window;
  const from = x(least ?? left);
  const to = x(most ?? right);
  const allowed = `${text(least)} – ${text(most)}`;
  const place = (percent: number) => Math.min(WIDTH - 42, Math.max(42, x(percent)));
  return (
    <Figure
      title={t.picture}
      columns={[
        { says: '', of: ({ name }: { name: string }) => name, isName: true },
        { says: '%', of: ({ is }: { is: string }) => is, isNumber: true },
      ]}
      rows={[
        { name: t.now, is: text(now) },
        { name: t.target, is: allowed },
        { name: t.after, is: text(after) },
      ]}
      keyOf={({ name }) => name}
    >
      <svg
        class="fat-picture"
        viewBox={`0 0 ${WIDTH} 92`}
        role="img"
        aria-label={t.pictureSays(text(now), allowed, text(after))}
      >
        <rect class="allowed" x={from} y="26" width={Math.max(2, to - from)} height="24" />
        <path class="axis" d={`M0 38h${WIDTH}`} />
        <path class="now" d={`M${x(now)} 22v32`} />
        <text x={place(now)} y="14">{`${t.now} ${text(now)}`}</text>
        <text class="allowed-text" x={Math.min(WIDTH - 104, Math.max(104, (from + to) / 2))} y="87">
          {`${t.target} ${allowed}`}
        </text>
        {after !== undefined && (
          <>
            <circle class="after" cx={x(after)} cy="38" r="7" />
            <text x={place(after)} y="68">{`${t.after} ${text(after)}`}</text>
          </>
        )}
      </svg>
    </Figure>
  );
}
