import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useDraft } from '../service/draft.ts';
import { type Act, useSending } from '../service/sending.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';

export interface Filling<Typed> {
  readonly typed: Typed;
  readonly set: (change: Partial<Typed>) => void;
  /** What the service says of a field, by its pointers, or else that it is needed and still empty. */
  readonly fault: (pointers: readonly string[], isMissing?: boolean) => string | undefined;
}

/** One thing that is done in a window of its own: what is typed is kept until it is done or given up. */
export function ActDialog<Typed extends object, Body>({
  title,
  name,
  initial,
  does,
  isGrave = false,
  act,
  onRefused,
  onDone,
  onClose,
  children,
}: {
  readonly title: string;
  /** Of the draft. */
  readonly name: string;
  readonly initial: Typed;
  /** The word on the button. */
  readonly does: string;
  readonly isGrave?: boolean;
  /** What is sent; undefined while something is missing. */
  readonly act: (typed: Typed) => Act | undefined;
  /** Reads anew what was refused, for somebody may have changed it. */
  readonly onRefused?: () => void;
  readonly onDone?: (body: Body) => void;
  readonly onClose: () => void;
  readonly children: (filling: Filling<Typed>) => ComponentChildren;
}) {
  const t = useWords(COMMON);
  const draft = useDraft(name, initial);
  const { send, isSending, error } = useSending(name);
  const faultOf = useFieldFault(error);
  const [isTried, setTried] = useState(false);
  const shown = useRef<string[]>([]);
  const fault = (pointers: readonly string[], isMissing = false) => {
    shown.current.push(...pointers);
    return faultOf(...pointers) ?? (isTried && isMissing ? t.needed : undefined);
  };
  const submit = async () => {
    setTried(true);
    const ready = act(draft.value);
    if (!ready) return;
    const answered = await send<Body>(ready);
    if (!answered) return onRefused?.();
    draft.clear();
    onClose();
    onDone?.(answered.body);
  };
  const giveUp = () => {
    draft.clear();
    onClose();
  };
  const told = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (error) told.current?.scrollIntoView({ block: 'nearest' });
  }, [error]);
  const fields = children({ typed: draft.value, set: draft.set, fault });
  return (
    <Dialog title={title} onClose={onClose}>
      <form
        class="form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        {fields}
        <div ref={told}>
          <ProblemNotice error={error} shownPointers={shown.current} />
        </div>
        <div class="actions">
          <Button onClick={giveUp}>{t.cancel}</Button>
          <Button kind={isGrave ? 'grave' : 'main'} type="submit" isBusy={isSending}>
            {does}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
