import { sourceOf } from '../rules/limit.ts';

/** Limits of one or more standards, as listed for a person. */
export interface LimitsList {
  readonly says: string;
  readonly edition: string;
  readonly standards: readonly {
    readonly says: string;
    readonly citation: string;
    readonly limits: readonly {
      readonly says: string;
      readonly numerator?: string;
      readonly basis?: string;
      readonly sense?: 'max' | 'min' | 'target' | 'present';
      readonly bound?: number;
      readonly unit?: string;
      readonly citation: string;
      readonly read: string;
      readonly note?: string | undefined;
      readonly inForce?:
        | { readonly from?: string | undefined; readonly until?: string | undefined }
        | undefined;
    }[];
    readonly switchedOff?: readonly {
      readonly limit: LimitsList['standards'][number]['limits'][number];
      readonly reason: string;
    }[];
    readonly laboratory: LimitsList['standards'][number]['limits'];
  }[];
}

/** The limits as plain text, with the mark of how each figure was read. */
export function limitsText({ says, edition, standards }: LimitsList): string {
  return [
    `${says}: ${edition}`,
    ...standards.flatMap((standard) => [
      '',
      `${standard.says} (${standard.citation})`,
      ...standard.limits.map(limitLine),
      ...(standard.switchedOff ?? []).map(
        ({ limit, reason }) => `${limitLine(limit)} SWITCHED OFF BY THE HOUSE: ${reason}`,
      ),
      ...(standard.laboratory.length > 0 ? ['  Needs a laboratory test, which no formula can replace:'] : []),
      ...standard.laboratory.map(limitLine),
    ]),
    '',
    'Marks: [secondary] read in a text that quotes the rule, [from memory] not yet read: look at the rule itself.',
  ].join('\n');
}

function limitLine({
  says,
  citation,
  read,
  inForce,
  note,
}: LimitsList['standards'][number]['limits'][number]): string {
  const from = inForce?.from ? `, from ${inForce.from}` : '';
  const until = inForce?.until ? `, until the day before ${inForce.until}` : '';
  return `  - ${says} ${sourceOf({ citation: `${citation}${from}${until}`, read })}${note ? ` (${note})` : ''}`;
}
