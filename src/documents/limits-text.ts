/** Limits of one or more standards, as listed for a person. */
export interface LimitsList {
  readonly says: string;
  readonly edition: string;
  readonly standards: readonly {
    readonly says: string;
    readonly citation: string;
    readonly limits: readonly {
      readonly says: string;
      readonly citation: string;
      readonly read: string;
      readonly note?: string | undefined;
    }[];
  }[];
}

/** The limits as plain text, with the mark of how each figure was read. */
export function limitsText({ says, edition, standards }: LimitsList): string {
  return [
    `${says}: ${edition}`,
    ...standards.flatMap((standard) => [
      '',
      `${standard.says} (${standard.citation})`,
      ...standard.limits.map(({ says: sentence, citation, read, note }) => {
        const mark = read === 'official' ? '' : ` [${read}]`;
        return `  - ${sentence} ${citation}${mark}${note ? ` (${note})` : ''}`;
      }),
    ]),
    '',
    'Marks: [secondary] read in a text that quotes the rule, [from memory] not yet read: look at the rule itself.',
  ].join('\n');
}
