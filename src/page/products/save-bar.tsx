import type { ComponentChildren } from 'preact';
import { Button } from '../parts/button.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import type { Draft } from '../service/draft.ts';
import type { Sending } from '../service/sending.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { PRODUCTS } from './words.ts';

/** Saves what is typed, at the foot of a long form: what stands in the way of it, and how to go back. */
export function SaveBar({
  draft,
  sending,
  conflict,
  isUnreadable,
  isSaveable = true,
  back,
  onMine,
  onSave,
  children,
}: {
  readonly draft: Pick<Draft<object>, 'clear' | 'isTouched'>;
  readonly sending: Sending;
  /** What somebody else has saved meanwhile. */
  readonly conflict: string | false | undefined;
  readonly isUnreadable: boolean;
  /** Whether there is anything to save. */
  readonly isSaveable?: boolean;
  readonly back: string;
  /** Keeps what is typed, over what the other saved. */
  readonly onMine: () => void;
  /** Absent for whoever may not. */
  readonly onSave: (() => void) | false;
  readonly children?: ComponentChildren;
}) {
  const t = useWords(PRODUCTS);
  const c = useWords(COMMON);
  return (
    <div class="products-save">
      {conflict ? (
        <Notice kind="caution" isUrgent>
          <p>{conflict}</p>
          <div class="row wrap">
            <Button onClick={onMine}>{t.conflictMine}</Button>
            <Button onClick={draft.clear}>{t.conflictTheirs}</Button>
          </div>
        </Notice>
      ) : (
        <ProblemNotice error={sending.error} />
      )}
      {isUnreadable && <Notice kind="bad">{t.unreadable}</Notice>}
      <div class="row wrap">
        {onSave && (
          <Button
            kind="main"
            isBusy={sending.isSending}
            disabled={Boolean(conflict) || !isSaveable}
            onClick={onSave}
          >
            {c.save}
          </Button>
        )}
        {draft.isTouched && (
          <>
            <Button
              onClick={() => {
                draft.clear();
                sending.forget();
              }}
            >
              {back}
            </Button>
            <span class="aside">{t.changedHere}</span>
          </>
        )}
        {children}
      </div>
    </div>
  );
}
