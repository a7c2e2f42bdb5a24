import type { Db } from '../../store/open.ts';
import type { Writing } from '../../store/store.ts';

/** A write under way: its entry is not there to be read yet. */
export interface UnderWay {
  readonly entry: number;
  readonly person: string;
}

export function underWay({ entry, act }: Writing): UnderWay {
  return { entry, person: act.by.name };
}

/** Who made each entry, by the name as it was then. */
export async function personsOf(
  db: Db,
  entries: readonly number[],
  now?: UnderWay,
): Promise<(entry: number) => string> {
  const wanted = [...new Set(entries)];
  const rows =
    wanted.length === 0
      ? []
      : await db.selectFrom('entries').select(['seq', 'person']).where('seq', 'in', wanted).execute();
  const names = new Map(rows.map(({ seq, person }) => [seq, person]));
  if (now) names.set(now.entry, now.person);
  return (entry) => names.get(entry) ?? '';
}
