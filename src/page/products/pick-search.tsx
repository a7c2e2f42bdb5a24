import { useState } from 'preact/hooks';
import { matching } from '../figures/search.ts';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { useWords } from '../words/words.ts';
import { PRODUCTS } from './words.ts';

const MOST_SHOWN = 8;

export interface Pick {
  readonly id: string;
  readonly says: string;
  /** What it is found by besides. */
  readonly also?: string;
}

/** Finds one of many by part of what it is called; a tap takes it. */
export function PickSearch({
  label,
  picks,
  onPick,
}: {
  readonly label: string;
  readonly picks: readonly Pick[];
  readonly onPick: (id: string) => void;
}) {
  const t = useWords(PRODUCTS);
  const [typed, setTyped] = useState('');
  const found = matching(picks, typed, ({ id, says, also = '' }) => `${says} ${id} ${also}`);
  return (
    <div class="products-search">
      <TextField label={label} hint={t.findHint} type="search" value={typed} onValue={setTyped} />
      {typed.trim() !== '' && (
        <div class="row wrap">
          <p role="status" class={found.length > 0 ? 'unseen' : ''}>
            {found.length > 0 ? found.length : t.notFound}
          </p>
          {found.slice(0, MOST_SHOWN).map(({ id, says }) => (
            <Button
              key={id}
              onClick={() => {
                onPick(id);
                setTyped('');
              }}
            >
              {says}
            </Button>
          ))}
        </div>
      )}
    </div>
  );
}
