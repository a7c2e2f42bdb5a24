import type { TypedPlant } from '../plant/typed-plant.ts';
import { type Draft, useDraft } from '../service/draft.ts';
import { useDevice } from '../shell/device.ts';
import { useWords } from '../words/words.ts';
import { NOTHING_TYPED, type TypedStart, wholePlant } from './typed-start.ts';
import { START } from './words.ts';

export interface Start {
  readonly draft: Draft<TypedStart>;
  /** The plant with what is assumed. */
  readonly plant: TypedPlant;
  readonly setPlant: (change: Partial<TypedPlant>) => void;
}

/** What is typed of the first run; it survives a reload and can be left and taken up again. */
export function useStart(): Start {
  const draft = useDraft<TypedStart>('start', NOTHING_TYPED);
  const { language, mark } = useDevice();
  const t = useWords(START);
  const plant = wholePlant(draft.value.plant, {
    tag: navigator.language,
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    language,
    mark,
    scaleNames: t.scales.names,
  });
  return {
    draft,
    plant,
    setPlant: (change) => draft.set({ plant: { ...draft.value.plant, ...change } }),
  };
}
