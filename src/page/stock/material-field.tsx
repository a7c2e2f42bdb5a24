import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import type { Known } from './lot-facts.ts';
import { materialsFor } from './pick-material.ts';
import { RECEIPT } from './receipt-words.ts';
import type { LotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

const SHOWN = 8;

/** A material, found by a few letters; what came last stands first. */
export function MaterialField({
  known,
  lots,
  supplier,
  value,
  onValue,
  error,
}: {
  readonly known: Known;
  readonly lots: readonly LotAnswer[];
  readonly supplier?: string | undefined;
  /** Its id; empty until one is chosen. */
  readonly value: string;
  readonly onValue: (materialId: string) => void;
  readonly error?: string | undefined;
}) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const c = useWords(COMMON);
  const [search, setSearch] = useState('');
  if (value !== '') {
    return (
      <div class="stock-chosen">
        <span class="stock-chosen-says">
          <span class="aside">{c.material}</span>
          <strong>{known.materials.get(value)?.name ?? value}</strong>
        </span>
        <Button onClick={() => onValue('')} label={w.anotherMaterial}>
          {c.change}
        </Button>
        {error && <p class="error">{error}</p>}
      </div>
    );
  }
  const found = materialsFor(search, known.materials.values(), lots, supplier, SHOWN);
  return (
    <div class="stock-picker">
      <TextField
        type="search"
        label={c.material}
        hint={w.materialHint}
        error={error}
        value={search}
        onValue={setSearch}
      />
      <ul>
        {found.map(({ id, name }) => (
          <li key={id}>
            <Button
              onClick={() => {
                onValue(id);
                setSearch('');
              }}
            >
              {name}
            </Button>
          </li>
        ))}
      </ul>
      {found.length === 0 && <p class="hint">{t.noMaterial(search)}</p>}
    </div>
  );
}
