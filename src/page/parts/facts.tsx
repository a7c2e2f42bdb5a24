import type { ComponentChildren } from 'preact';

/** Names and what they stand for; what is not there is left out. */
export function Facts({
  facts,
  look = 'facts',
}: {
  readonly facts: readonly (readonly [name: string, says: ComponentChildren])[];
  /** Class of the list, where it is to look otherwise. */
  readonly look?: string;
}) {
  return (
    <dl class={look}>
      {facts
        .filter(([, says]) => says !== undefined && says !== false && says !== '')
        .map(([name, says]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{says}</dd>
          </div>
        ))}
    </dl>
  );
}
