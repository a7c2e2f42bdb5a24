import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { nameOfKey, plainOf } from './readable.ts';
import { RECORDS } from './words.ts';

/** The whole of what was sealed, field by field, by the names that the books use. */
export function Everything({ body }: { readonly body: unknown }) {
  const t = useWords(RECORDS);
  const [isOpen, setOpen] = useState(false);
  return (
    <details class="everything" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t.everything}</summary>
      <p class="hint">{t.everythingSays}</p>
      {isOpen && (
        <div lang="en">
          <Fields of={body} />
        </div>
      )}
    </details>
  );
}

function Fields({ of }: { readonly of: unknown }): ComponentChildren {
  const c = useWords(COMMON);
  const show = useShow();
  const plain = plainOf(of, {
    mass: (massKg) => show.mass(massKg),
    instant: show.instant,
    yes: c.yes,
    no: c.no,
    none: c.none,
  });
  if (plain !== undefined) return plain;
  if (Array.isArray(of)) {
    return (
      <ol>
        {of.map((one, at) => (
          <li key={at}>
            <Fields of={one} />
          </li>
        ))}
      </ol>
    );
  }
  return (
    <dl class="tree">
      {Object.entries(of as object).map(([key, value]) => (
        <div key={key}>
          <dt>{nameOfKey(key)}</dt>
          <dd>
            <Fields of={value} />
          </dd>
        </div>
      ))}
    </dl>
  );
}
