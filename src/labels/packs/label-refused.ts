/** Why a label cannot be made, in words for the person who wants it: what is missing or wrong, and what to do. */
export class LabelRefused extends Error {
  /** Everything that stands in the way, a sentence each. */
  readonly faults: readonly string[];

  constructor(faults: readonly string[]) {
    super(faults.join(' '));
    this.name = 'LabelRefused';
    this.faults = faults;
  }
}
