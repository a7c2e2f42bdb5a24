import { useMemo } from 'preact/hooks';
import { type Reading, useAnswer } from '../service/answers.ts';
import { useAll } from '../service/whole-list.ts';
import { useHere } from '../shell/plant.ts';
import type { Known } from './lot-facts.ts';
import type { LotAnswer, MaterialAnswer, TrimItem } from './stock-types.ts';

export const useLots = (query: string | undefined): Reading<readonly LotAnswer[]> =>
  useAll<LotAnswer>(query === undefined ? undefined : `/lots${query}`);

/** What lots are read with, once for the section: there are many materials, and they seldom change. */
export function useKnown(): Reading<Known> {
  const { today } = useHere().plant;
  const materials = useAll<MaterialAnswer>('/materials', true);
  const trim = useAnswer<{ items: TrimItem[] }>('/trim');
  const body = useMemo(
    () =>
      materials.body &&
      trim.body && {
        materials: new Map(materials.body.map((material) => [material.id, material])),
        trim: trim.body.items,
        today,
      },
    [materials.body, trim.body, today],
  );
  const error = materials.error ?? trim.error;
  return {
    ...(body && { body }),
    ...(error && { error }),
    isWaiting: materials.isWaiting || trim.isWaiting,
    again: () => {
      materials.again();
      trim.again();
    },
  };
}
