import { useWords } from '../../words/words.ts';
import { WEIGH } from './words.ts';

const WIDTH = 380;
/** Where on the bar the target stands: what goes beyond it is seen too. */
const TARGET_AT = 0.86;

/** The line filling towards its target: what is in, and beyond it what is on the scale. */
export function Bar({
  plannedKg,
  inKg,
  addedKg,
  overKg,
  there,
  planned,
}: {
  readonly plannedKg: number;
  readonly inKg: number;
  readonly addedKg: number;
  readonly overKg: number;
  /** As texts, for whoever does not see the bar. */
  readonly there: string;
  readonly planned: string;
}) {
  const t = useWords(WEIGH);
  const at = (kg: number) => Math.min(1, Math.max(0, (kg / plannedKg) * TARGET_AT)) * WIDTH;
  const isOver = inKg + addedKg > plannedKg + overKg;
  return (
    <svg class="weigh-bar" viewBox={`0 0 ${WIDTH} 34`} role="img" aria-label={t.bar(there, planned)}>
      <rect class="track" x="0" y="6" width={WIDTH} height="22" rx="5" />
      <rect
        class={isOver ? 'added over' : 'added'}
        x="0"
        y="6"
        width={at(inKg + addedKg)}
        height="22"
        rx="5"
      />
      <rect class="in" x="0" y="6" width={at(inKg)} height="22" rx="5" />
      <path class="target" d={`M${TARGET_AT * WIDTH} 0v34`} />
    </svg>
  );
}
