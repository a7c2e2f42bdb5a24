import type { ComponentChildren } from 'preact';
import { type Column, Table } from '../parts/table.tsx';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';

/**
 * A picture with its heading, and the same figures as a table for whoever does not see it or wants the numbers.
 * @param children the picture: an svg with role="img" and its own aria-label, or buttons that say what they are.
 */
export function Figure<Row>({
  title,
  caption,
  children,
  columns,
  rows,
  keyOf,
}: {
  readonly title: string;
  readonly caption?: ComponentChildren;
  readonly children: ComponentChildren;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row, index: number) => string | number;
}) {
  const t = useWords(COMMON);
  return (
    <figure class="figure">
      <h2>{title}</h2>
      {caption && <p class="hint">{caption}</p>}
      {children}
      <details class="as-table">
        <summary>
          {t.asTable}
          <span class="unseen">: {title}</span>
        </summary>
        <Table caption={title} columns={columns} rows={rows} keyOf={keyOf} />
      </details>
    </figure>
  );
}
