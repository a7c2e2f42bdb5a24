import { useWords } from '../words/words.ts';
import { type BatchState, STAGES, stageOf } from './batch.ts';
import { BATCHES } from './words.ts';

const STEP = 22;

/** How far a batch is: a step filled for each stage that it reached, and its state in words. */
export function Stage({
  state,
  lines,
}: {
  readonly state: BatchState;
  readonly lines?: { readonly begun: number; readonly all: number } | undefined;
}) {
  const t = useWords(BATCHES);
  const at = stageOf(state);
  const width = STAGES.length * STEP;
  return (
    <span class={`batch-stage ${state}`}>
      <svg viewBox={`0 0 ${width} 16`} width={width} height="16" aria-hidden="true">
        {STAGES.map((stage, index) => (
          <rect
            key={stage}
            class={index <= at ? 'reached' : ''}
            x={index * STEP + 1}
            y="2"
            width={STEP - 4}
            height="12"
            rx="3"
          />
        ))}
      </svg>
      <strong>{t.states[state]}</strong>
      {lines && <span class="aside">{t.begun(lines.begun, lines.all)}</span>}
    </span>
  );
}
