import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { RECORDS } from './words.ts';

/** How the figures above were counted, in the words of the service. */
export function WhatCounts({ notes }: { readonly notes: readonly string[] }) {
  const t = useWords(RECORDS);
  const say = useSay();
  return (
    <details>
      <summary>{t.whatCounts}</summary>
      <ul>
        {notes.map((note) => (
          <li key={note}>{say(note)}</li>
        ))}
      </ul>
    </details>
  );
}
