import { Button } from '../parts/button.tsx';
import { useWords } from '../words/words.ts';
import { standings } from './standing.ts';
import { TRIAL } from './trial-words.ts';
import type { Trial } from './use-trial.ts';

/** Where the limits stand below the form, how they are in a word; a tap goes there. */
export function State({ trial }: { readonly trial: Trial }) {
  const t = useWords(TRIAL);
  const { waits, work } = trial;
  const says = () => {
    if (waits) return '…';
    if (work.error) return `✕ ${t.faults}`;
    if (!work.body || work.isWaiting) return t.waiting;
    if (work.body.outcome === 'no blend') return `✕ ${t.noBlend}`;
    const { counted, absent } = standings(work.body);
    const failing = counted.filter(({ check }) => !check.holds).length;
    return failing > 0 ? `✕ ${t.someFail(failing)}` : `✓ ${t.allHold(counted.length + absent.length)}`;
  };
  return (
    <div class="products-state">
      <Button
        kind="quiet"
        onClick={() => document.getElementById('products-live')?.scrollIntoView({ block: 'start' })}
      >
        {says()}
      </Button>
    </div>
  );
}
