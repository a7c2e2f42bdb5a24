/** What is wrong with a store, found by comparing what it says of itself. */
export interface Finding {
  readonly kind: 'altered' | 'removed' | 'inserted' | 'does not add up' | 'chain broken';
  readonly table: string;
  /** The key of the row, its columns joined by a slash. */
  readonly key: string;
  /** Number of the entry that vouches for the row, or that is at fault itself. */
  readonly entry?: number;
  /** What is wrong, as a sentence for people. */
  readonly says: string;
}

export interface Findings {
  readonly add: (finding: Finding) => void;
  /** The first of them. */
  readonly listed: readonly Finding[];
  readonly count: () => number;
}

const LISTED = 200;

/** Collects findings; a store that is wrong all over is not listed in full, but counted. */
export function collectFindings(): Findings {
  const listed: Finding[] = [];
  let count = 0;
  return {
    listed,
    count: () => count,
    add: (finding) => {
      count += 1;
      if (listed.length < LISTED) listed.push(finding);
    },
  };
}
