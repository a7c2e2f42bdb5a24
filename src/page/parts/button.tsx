import type { ComponentChildren } from 'preact';

type Kind = 'main' | 'plain' | 'grave' | 'quiet';

interface ButtonProps {
  /** main: what the place is for; grave: what cannot be taken back. */
  readonly kind?: Kind;
  /** A button is no submit button unless it says so. */
  readonly type?: 'button' | 'submit';
  readonly isBusy?: boolean;
  readonly disabled?: boolean;
  readonly onClick?: () => void;
  /** Said in place of the text, where the text alone says too little. */
  readonly label?: string;
  readonly title?: string;
  readonly lang?: string;
  /** For a button that stays pressed. */
  readonly isPressed?: boolean;
  readonly children: ComponentChildren;
}

export function Button({
  kind = 'plain',
  type = 'button',
  isBusy = false,
  label,
  isPressed,
  children,
  ...rest
}: ButtonProps) {
  return (
    <button
      type={type}
      class={`button ${kind}`}
      aria-busy={isBusy}
      {...(label !== undefined && { 'aria-label': label })}
      {...(isPressed !== undefined && { 'aria-pressed': isPressed })}
      {...rest}
    >
      {children}
    </button>
  );
}

/** A link that looks like a button, for what only leads somewhere. */
export function Go({
  kind = 'plain',
  href,
  children,
  ...rest
}: {
  readonly kind?: Kind;
  readonly href: string;
  /** Saves what it leads to under this name instead of going there. */
  readonly download?: string;
  readonly target?: string;
  readonly children: ComponentChildren;
}) {
  return (
    <a class={`button ${kind}`} href={href} {...rest}>
      {children}
    </a>
  );
}
