import { useState } from 'preact/hooks';
import { useWords, words } from '../words/words.ts';

const COPY = words({ copy: 'Copy', copied: 'Copied' }, { copy: 'Copiar', copied: 'Copiado' });

/** Something to copy by a tap; where the browser keeps its clipboard to itself, what is to be copied is marked. */
export function Copied({ label, text }: { readonly label: string; readonly text: string }) {
  const t = useWords(COPY);
  const [isCopied, setCopied] = useState(false);
  const copy = async (event: Event) => {
    const input = (event.currentTarget as HTMLElement | null)?.parentElement?.querySelector('input');
    input?.select();
    try {
      if (navigator.clipboard) await navigator.clipboard.writeText(text);
      else if (!document.execCommand('copy')) return;
      setCopied(true);
    } catch {
      // It is marked, and the keyboard copies it.
    }
  };
  return (
    <div class="plant-copy">
      <input readOnly value={text} aria-label={label} onFocus={(event) => event.currentTarget.select()} />
      <button type="button" class="button plain" onClick={copy}>
        {isCopied ? `✓ ${t.copied}` : t.copy}
      </button>
    </div>
  );
}
