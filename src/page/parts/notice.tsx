import type { ComponentChildren } from 'preact';
import { Refused, type Unreached } from '../service/ask.ts';
import { ARRIVED_BEFORE } from '../service/sending.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';

/** The sign beside a message says the same as its colour. */
const SIGNS = { good: '✓', bad: '✕', caution: '!', note: 'i' } as const;

export function Notice({
  kind,
  children,
  isUrgent = false,
}: {
  readonly kind: keyof typeof SIGNS;
  readonly children: ComponentChildren;
  /** Read out at once. */
  readonly isUrgent?: boolean;
}) {
  return (
    <div class={`notice ${kind}`} {...(isUrgent ? { role: 'alert' } : {})}>
      <span class="sign" aria-hidden="true">
        {SIGNS[kind]}
      </span>
      <div>{children}</div>
    </div>
  );
}

/**
 * Why something was not done. Faults of fields that the form shows beside the field itself are left out here.
 * @param shownPointers pointers that the form has shown.
 */
export function ProblemNotice({
  error,
  shownPointers = [],
}: {
  readonly error: Refused | Unreached | undefined;
  readonly shownPointers?: readonly string[];
}) {
  const t = useWords(COMMON);
  const say = useSay();
  if (!error) return null;
  if (!(error instanceof Refused)) {
    return (
      <Notice kind="caution" isUrgent>
        {t.unreached}
      </Notice>
    );
  }
  if (error.kind === 'changed-meanwhile') {
    return (
      <Notice kind="caution" isUrgent>
        {t.changedMeanwhile}
      </Notice>
    );
  }
  if (error.kind === ARRIVED_BEFORE) {
    return (
      <Notice kind="caution" isUrgent>
        {t.arrivedBefore}
      </Notice>
    );
  }
  if (error.kind === 'not-logged-in') {
    return <Notice kind="caution">{t.loggedOut}</Notice>;
  }
  const { title, detail, errors = [] } = error.problem;
  const others = errors.filter(({ pointer }) => !shownPointers.includes(pointer));
  return (
    <Notice kind="bad" isUrgent>
      <p>
        <strong>
          {errors.length === 0
            ? say(detail)
            : others.length === 0
              ? t.seeFields
              : error.kind === 'cannot-be-used'
                ? t.cannotYet
                : say(title)}
        </strong>
      </p>
      {others.length > 0 && (
        <ul>
          {others.map(({ pointer, message }) => (
            <li key={pointer + message}>
              {isSentence(message) ? '' : nameOf(pointer)}
              {say(message)}
            </li>
          ))}
        </ul>
      )}
    </Notice>
  );
}

/** A whole sentence says itself what it is about. */
const isSentence = (message: string) => message.endsWith('.');

/** The field that a pointer leads to, as far as its name says something: '/cost/amount' is 'cost amount: '. */
function nameOf(pointer: string): string {
  const steps = pointer.split('/').filter((step) => step !== '');
  return steps.length === 0 ? '' : `${steps.join(' ')}: `;
}

/** What the service says of one field, for its form to show beside it. */
export function useFieldFault(
  error: Refused | Unreached | undefined,
): (...pointers: string[]) => string | undefined {
  const say = useSay();
  return (...pointers) => {
    if (!(error instanceof Refused)) return undefined;
    const found = error.problem.errors?.find(({ pointer }) => pointers.includes(pointer));
    return found && say(found.message);
  };
}
