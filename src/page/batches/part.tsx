import type { ComponentChildren } from 'preact';
import { Notice } from '../parts/notice.tsx';
import { useSay } from '../words/say.ts';
import type { Batch } from './batch.ts';

/** A card with its heading. */
export function Part({
  title,
  hint,
  children,
}: {
  readonly title: string;
  readonly hint?: string;
  readonly children: ComponentChildren;
}) {
  return (
    <section class="card stack" aria-label={title}>
      <h2>{title}</h2>
      {hint !== undefined && <p class="hint">{hint}</p>}
      {children}
    </section>
  );
}

/** Where the batch is more than its limits say. */
export function Cautions({ batch }: { readonly batch: Batch }) {
  const say = useSay();
  return (
    <>
      {batch.cautions.map((caution) => (
        <Notice key={caution} kind="caution">
          {say(caution)}
        </Notice>
      ))}
    </>
  );
}
