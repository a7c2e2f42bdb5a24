/** A report that is printed, signed and kept: the page on a screen and the paper follow from the same data. */
export interface Report {
  readonly title: string;
  readonly plant: string;
  readonly establishment: string;
  /** Lines under the title, such as the days that it covers. */
  readonly lines: readonly string[];
  readonly parts: readonly ReportPart[];
  readonly notes: readonly string[];
}

/** One part of a report; the title stands above its lines, and these above its table. */
export interface ReportPart {
  readonly title?: string;
  readonly lines?: readonly string[];
  readonly table?: ReportTable;
}

export interface ReportTable {
  readonly titles: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What stands in place of a table without rows. */
  readonly none: string;
}

/** Who signs a report. */
export const SIGNATURES = ['Prepared by', 'Reviewed by'] as const;
