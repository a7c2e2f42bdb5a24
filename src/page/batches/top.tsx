import { Tabs } from '../parts/tabs.tsx';
import { to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { BATCHES } from './words.ts';

const PARTS = ['batch', 'weigh', 'test', 'finish'] as const;

/** The places within one batch. */
export function BatchPlaces({ id, part }: { readonly id: string; readonly part: string | undefined }) {
  const t = useWords(BATCHES);
  const here = PARTS.find((one) => one === part) ?? 'batch';
  return (
    <Tabs
      label={t.within}
      tabs={PARTS.map((one) => ({
        address: one === 'batch' ? to('batches', id) : to('batches', id, one),
        says: t.places[one],
        isHere: one === here,
      }))}
    />
  );
}
