import { Refused } from '../../ledger/refused.ts';

/** @throws Refused when what is made today would be past its use-by date at once. */
export function refusePastUse(
  useByDate: string | undefined,
  today: string,
  path: readonly (string | number)[],
): void {
  if (useByDate === undefined || useByDate >= today) return;
  throw new Refused('unfit', `${useByDate} is past; today is ${today}. Correct the use-by date.`, path);
}
