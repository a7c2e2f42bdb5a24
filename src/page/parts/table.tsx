import type { ComponentChildren } from 'preact';

export interface Column<Row> {
  readonly says: ComponentChildren;
  readonly of: (row: Row) => ComponentChildren;
  readonly isNumber?: boolean;
  /** Names the row, for screen readers and on a phone. */
  readonly isName?: boolean;
  /** Left out where the screen is narrow. */
  readonly isExtra?: boolean;
}

/** Rows with named columns; wide ones scroll within themselves. */
export function Table<Row>({
  caption,
  columns,
  rows,
  keyOf,
  isCaptionSeen = false,
}: {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row, index: number) => string | number;
  readonly isCaptionSeen?: boolean;
}) {
  const looks = ({ isNumber, isExtra }: Column<Row>) =>
    [isNumber && 'number', isExtra && 'extra'].filter(Boolean).join(' ');
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <section class="table" tabIndex={0} aria-label={caption}>
      <table>
        <caption class={isCaptionSeen ? '' : 'unseen'}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column, index) => (
              <th key={index} scope="col" class={looks(column)}>
                {column.says}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, at) => (
            <tr key={keyOf(row, at)}>
              {columns.map((column, index) =>
                column.isName ? (
                  <th key={index} scope="row" class={looks(column)}>
                    {column.of(row)}
                  </th>
                ) : (
                  <td key={index} class={looks(column)}>
                    {column.of(row)}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
