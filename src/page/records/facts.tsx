import type { ComponentChildren } from 'preact';

/** Names and what they stand for; what is not there is left out. */
export function Facts({
  facts,
}: {
  readonly facts: readonly (readonly [name: string, says: ComponentChildren])[];
}) {
  return (
    <dl class="facts">
      {facts
        .filter(([, says]) => says !== undefined && says !== '')
        .map(([name, says]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{says}</dd>
          </div>
        ))}
    </dl>
  );
}
