import type { ComponentChildren } from 'preact';
import { Button, Go } from '../parts/button.tsx';
import { to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { STEPS, type Step } from './typed-start.ts';
import { START } from './words.ts';

/** One step: where it stands among the others, what is asked, and the way on and back. */
export function StepFrame({
  step,
  title,
  says,
  does,
  isBusy = false,
  isBegun,
  onNext,
  children,
}: {
  readonly step: Step;
  readonly title: string;
  readonly says?: string;
  /** The word on the button that goes on. */
  readonly does?: string;
  readonly isBusy?: boolean;
  /** Once the plant is begun there is no way back before it. */
  readonly isBegun: boolean;
  readonly onNext: () => void;
  readonly children: ComponentChildren;
}) {
  const t = useWords(START);
  const at = STEPS.indexOf(step);
  const before = STEPS[at - 1];
  return (
    <form
      class="form start-step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        onNext();
      }}
    >
      <nav aria-label={t.progress}>
        <ol class="start-steps">
          {STEPS.map((each, index) => {
            const isOpen = index < at && !isBegun;
            const mark = index < at || (isBegun && each !== 'lots') ? '✓' : String(index + 1);
            return (
              <li
                key={each}
                class={index === at ? 'here' : ''}
                {...(index === at && { 'aria-current': 'step' })}
              >
                {isOpen ? (
                  <a href={to('start', each)}>
                    <b>{mark}</b> {t.steps[each]}
                  </a>
                ) : (
                  <span>
                    <b>{mark}</b> {t.steps[each]}
                  </span>
                )}
              </li>
            );
          })}
        </ol>
      </nav>
      <p class="start-where">{t.step(at + 1, t.steps[step])}</p>
      <div>
        <h1>{title}</h1>
        {says && <p class="start-says">{says}</p>}
      </div>
      {children}
      <div class="actions">
        {!isBegun && <Go href={before ? to('start', before) : to('start')}>{t.back}</Go>}
        <Button kind="main" type="submit" isBusy={isBusy}>
          {does ?? t.next}
        </Button>
      </div>
    </form>
  );
}
