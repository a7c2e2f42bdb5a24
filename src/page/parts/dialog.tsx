import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { Button } from './button.tsx';

/** A window over the page that is answered before the page goes on. Escape closes it; the focus goes back to what opened it. */
export function Dialog({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}) {
  const own = useRef<HTMLDialogElement>(null);
  const id = useId();
  const opener = useRef(document.activeElement);
  useEffect(() => {
    const dialog = own.current;
    if (dialog && !dialog.open) dialog.showModal();
    return () => {
      dialog?.close();
      if (opener.current instanceof HTMLElement) opener.current.focus({ preventScroll: true });
    };
  }, []);
  return (
    <dialog
      ref={own}
      class="dialog"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={id}>{title}</h2>
      {children}
    </dialog>
  );
}

/** Asks before what cannot be taken back. */
export function Confirm({
  title,
  says,
  does,
  isGrave = true,
  isBusy = false,
  onYes,
  onClose,
  children,
}: {
  readonly title: string;
  readonly says: ComponentChildren;
  /** The word on the button: what is done, not 'OK'. */
  readonly does: string;
  readonly isGrave?: boolean;
  readonly isBusy?: boolean;
  readonly onYes: () => void;
  readonly onClose: () => void;
  readonly children?: ComponentChildren;
}) {
  const t = useWords(COMMON);
  return (
    <Dialog title={title} onClose={onClose}>
      <div class="says">{says}</div>
      {children}
      <div class="actions">
        <Button onClick={onClose}>{t.cancel}</Button>
        <Button kind={isGrave ? 'grave' : 'main'} isBusy={isBusy} onClick={onYes}>
          {does}
        </Button>
      </div>
    </Dialog>
  );
}
