/** Columns of text set under each other; numbers to the right. */
export interface TextColumn {
  readonly title: string;
  readonly align: 'left' | 'right';
}

export const left = (title: string): TextColumn => ({ title, align: 'left' });
export const right = (title: string): TextColumn => ({ title, align: 'right' });

/** Lines of text: the titles, then a line for each row; columns two spaces apart. */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string[] {
  const widths = columns.map(({ title }, index) =>
    Math.max(title.length, ...rows.map((row) => (row[index] ?? '').length)),
  );
  const line = (cells: readonly string[]) =>
    columns
      .map(({ align }, index) => {
        const cell = cells[index] ?? '';
        return align === 'right' ? cell.padStart(widths[index] ?? 0) : cell.padEnd(widths[index] ?? 0);
      })
      .join('  ')
      .trimEnd();
  return [line(columns.map(({ title }) => title)), ...rows.map(line)];
}
