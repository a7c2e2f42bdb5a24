import type { FieldIssue } from '../../tables/json.ts';

export interface LotDates {
  readonly receivedDate: string;
  readonly packedDate?: string | undefined;
  readonly useByDate?: string | undefined;
}

/** What is wrong with the days of a lot, as seen on a day. */
export function dateIssues({ receivedDate, packedDate, useByDate }: LotDates, today: string): FieldIssue[] {
  const issues: FieldIssue[] = [];
  const refuse = (field: keyof LotDates, message: string) => issues.push({ path: [field], message });
  if (receivedDate > today) refuse('receivedDate', `${receivedDate} is after today, ${today}; correct it`);
  if (packedDate !== undefined && packedDate > receivedDate) {
    refuse('packedDate', `${packedDate} is after receivedDate ${receivedDate}; correct one of the two`);
  }
  if (useByDate !== undefined && useByDate < receivedDate) {
    refuse('useByDate', `${useByDate} is before receivedDate ${receivedDate}; correct one of the two`);
  } else if (useByDate !== undefined && packedDate !== undefined && useByDate < packedDate) {
    refuse('useByDate', `${useByDate} is before packedDate ${packedDate}; correct one of the two`);
  }
  return issues;
}
