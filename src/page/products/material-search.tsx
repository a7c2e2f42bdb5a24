import type { MaterialAnswer } from '../../api/contract/resources.ts';
import { useSay } from '../words/say.ts';
import { PickSearch } from './pick-search.tsx';

/** Finds a material by part of its name, in either language, or of its kind. */
export function MaterialSearch({
  label,
  materials,
  onPick,
}: {
  readonly label: string;
  readonly materials: readonly MaterialAnswer[];
  readonly onPick: (id: string) => void;
}) {
  const say = useSay();
  const picks = materials.map(({ id, name, kind }) => ({ id, says: say(name), also: `${name} ${kind}` }));
  return <PickSearch label={label} picks={picks} onPick={onPick} />;
}
