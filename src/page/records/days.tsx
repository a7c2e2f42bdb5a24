import { useState } from 'preact/hooks';
import { addDays } from '../figures/days.ts';
import { DayField } from '../parts/field.tsx';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { RECORDS } from './words.ts';

export interface DaySpan {
  readonly fromDay: string;
  readonly toDay: string;
  readonly set: (change: { fromDay?: string; toDay?: string }) => void;
}

/** Days up to today at the plant. @param back days before today that it starts with; no days at all when absent. */
export function useDays(back?: number): DaySpan {
  const { plant } = useHere();
  const [days, setDays] = useState(
    back === undefined
      ? { fromDay: '', toDay: '' }
      : { fromDay: addDays(plant.today, -back), toDay: plant.today },
  );
  return { ...days, set: (change) => setDays((before) => ({ ...before, ...change })) };
}

/** The days as they go into a query: a day that is not chosen is left out. */
export const daysAsked = ({ fromDay, toDay }: DaySpan) => ({
  fromDay: fromDay || undefined,
  toDay: toDay || undefined,
});

export function DayFields({ days }: { readonly days: DaySpan }) {
  const t = useWords(RECORDS);
  return (
    <>
      <DayField label={t.fromDay} value={days.fromDay} onValue={(fromDay) => days.set({ fromDay })} />
      <DayField label={t.toDay} value={days.toDay} onValue={(toDay) => days.set({ toDay })} />
    </>
  );
}
