import { Button } from '../parts/button.tsx';
import { go, to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { startSeen } from './first-time.ts';
import type { Step } from './typed-start.ts';
import { START } from './words.ts';

/** Two ways in: to try it at once, or to set up one's own plant. */
export function Welcome({ resumesAt }: { readonly resumesAt: Step | undefined }) {
  const t = useWords(START);
  return (
    <div class="start-welcome">
      <h1>{t.title}</h1>
      <p class="start-lead">{t.says}</p>
      <div class="start-ways">
        <section class="card">
          <Blend />
          <h2>{t.try}</h2>
          <p>{t.trySays}</p>
          <Button
            kind="main"
            onClick={() => {
              startSeen();
              go('#/blend');
            }}
          >
            {t.try}
          </Button>
        </section>
        <section class="card">
          <Scale />
          <h2>{t.own}</h2>
          <p>{resumesAt ? t.goOnSays : t.ownSays}</p>
          <Button kind={resumesAt ? 'main' : 'plain'} onClick={() => go(to('start', resumesAt ?? 'plant'))}>
            {resumesAt ? t.goOn : t.own}
          </Button>
        </section>
      </div>
      <p class="hint">{t.later}</p>
    </div>
  );
}

/** A bar of a batch: lean, less lean, fat. */
function Blend() {
  return (
    <svg viewBox="0 0 240 56" aria-hidden="true">
      <path class="lean" d="M8 8h112v40H8z" />
      <path class="mixed" d="M120 8h64v40h-64z" />
      <path class="fat" d="M184 8h48v40h-48z" />
      <path class="line" d="M8 8h224v40H8zM120 8v40M184 8v40" />
    </svg>
  );
}

/** A plate on its scale. */
function Scale() {
  return (
    <svg viewBox="0 0 240 56" aria-hidden="true">
      <path class="lean" d="M76 16h88l-8-10H84z" />
      <path class="line" d="M60 16h120M120 16v10M72 50h96l-10-24H82zM106 44l14-11" />
    </svg>
  );
}
