import { to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { RECORDS } from './words.ts';

/** To a lot, or that there is none. */
export function LotLink({ id }: { readonly id: string | undefined }) {
  const t = useWords(RECORDS);
  if (id === undefined) return <>{t.noLot}</>;
  return (
    <a class="tap" href={to('stock', id)}>
      {id}
    </a>
  );
}
