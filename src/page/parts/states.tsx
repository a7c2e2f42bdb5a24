import type { ComponentChildren } from 'preact';
import type { Reading } from '../service/answers.ts';
import { Refused } from '../service/ask.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';
import { Notice, ProblemNotice } from './notice.tsx';

export function Waiting() {
  const t = useWords(COMMON);
  return (
    <p class="waiting" role="status">
      {t.waiting}
    </p>
  );
}

/** Nothing is here yet: what would be, and how it comes here. */
export function Nothing({ children }: { readonly children: ComponentChildren }) {
  return <div class="nothing">{children}</div>;
}

/**
 * What was read, once it is there: until then that it is waited for, or why it cannot be shown. An answer that is there
 * stays when a newer one could not be had, and that is said.
 */
export function Read<Body>({
  of,
  children,
}: {
  readonly of: Reading<Body>;
  readonly children: (body: Body) => ComponentChildren;
}) {
  const t = useWords(COMMON);
  const { body, error, again } = of;
  return (
    <>
      {error && (
        <div class="failed">
          {error instanceof Refused ? (
            <ProblemNotice error={error} />
          ) : (
            <Notice kind="caution">{t.unreachedReading}</Notice>
          )}
          <Button onClick={again}>{t.tryAgain}</Button>
        </div>
      )}
      {body !== undefined ? children(body) : !error && <Waiting />}
    </>
  );
}
