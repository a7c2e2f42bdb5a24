import { useShow } from '../figures/show.ts';
import { to } from '../shell/place.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Batch, Line } from './batch.ts';
import { asOnScale } from './weigh/spots.ts';
import { BATCHES } from './words.ts';

/** Lines with what is in of each, in all loads together. */
export function LinesIn({ batch }: { readonly batch: Batch }) {
  return (
    <ul class="batch-lines">
      {batch.lines.map((line) => (
        <LineIn key={line.number} line={line} />
      ))}
    </ul>
  );
}

function LineIn({ line }: { readonly line: Line }) {
  const t = useWords(BATCHES);
  const show = useShow();
  const say = useSay();
  const { perLoad, loads } = line;
  const sum = (of: 'planned' | 'weighed') => loads.reduce((total, at) => total + at[of].kg, 0);
  const [planned, weighed] = [sum('planned'), sum('weighed')];
  const isDone = loads.every(({ rest }) => rest.kg === 0);
  const inUnit = (kg: number) => `${show.digits(asOnScale(kg, line))} ${perLoad.unit}`;
  return (
    <li>
      <span class="sign" aria-hidden="true">
        {isDone ? '✓' : line.number}
      </span>
      <span class="what">
        <strong>{say(line.material)}</strong>{' '}
        <span class="aside">
          {line.lotId !== undefined && <a href={to('stock', line.lotId)}>{line.lotId}</a>}{' '}
          {line.cure && <b class="batch-cure">{t.cure}</b>} {line.ofCorrection !== undefined && t.correction}
        </span>
      </span>
      <span class="figures">{t.of(inUnit(weighed), inUnit(planned))}</span>
      <progress max={planned} value={Math.min(planned, weighed)} aria-label={say(line.material)} />
    </li>
  );
}
