import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';

/** One part of the product form, with its heading. */
export function PartOfForm({
  title,
  says,
  children,
}: {
  readonly title: string;
  readonly says?: string;
  readonly children: ComponentChildren;
}) {
  const id = useId();
  return (
    <section class="card form" aria-labelledby={id}>
      <div>
        <h2 id={id}>{title}</h2>
        {says && <p class="hint">{says}</p>}
      </div>
      {children}
    </section>
  );
}
