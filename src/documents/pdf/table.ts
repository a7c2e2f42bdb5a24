import type { Section } from './flow.ts';
import { type Ink, lineHeightPt, linesOf, type Style, widthPt } from './ink.ts';
import {
  type Align,
  beside,
  type Cell,
  lineAcross,
  linesPiece,
  type Piece,
  padded,
  paragraph,
  type Space,
} from './piece.ts';

/** A column of a table whose cells draw themselves. */
export interface Column {
  readonly title: string;
  readonly widthPt: number;
  readonly align?: Align;
}

const HEAD: Style = { font: 'condensed bold', sizePt: 7.5 };
const INSIDE = { topPt: 1.4, bottomPt: 1.4, leftPt: 4, rightPt: 4 };

/** How the texts of a table are set. */
interface Setting {
  readonly text: Style;
  readonly head: Style;
  readonly inside: Required<Space>;
}
const USUAL: Setting = { text: { font: 'condensed', sizePt: 7.5 }, head: HEAD, inside: INSIDE };
/** Small letters of 1.26 mm: for what is read at a desk. */
const FINE: Setting = {
  text: { font: 'condensed', sizePt: 6.5 },
  head: { font: 'condensed bold', sizePt: 6.5 },
  inside: { topPt: 0.8, bottomPt: 0.8, leftPt: 2.5, rightPt: 2.5 },
};

/** The head of a table: titles above a strong line. */
export function tableHead(ink: Ink, columns: readonly Column[], { head, inside } = USUAL): Piece {
  const piece = beside(
    columns.map(({ title, align, widthPt: width }) => ({
      cell: padded(paragraph(ink, title, head, align), inside),
      widthPt: width,
    })),
  );
  return underlined(ink, piece, totalPt(columns), 1);
}

/** A row of cells above a fine line. */
export function tableRow(
  ink: Ink,
  columns: readonly Column[],
  cells: readonly Cell[],
  { head, inside } = USUAL,
): Piece {
  const piece = beside(
    columns.map(({ widthPt: width }, index) => ({
      cell: padded(cells[index] ?? paragraph(ink, '', head), inside),
      widthPt: width,
    })),
  );
  return underlined(ink, piece, totalPt(columns), 0.4);
}

function underlined(ink: Ink, piece: Piece, lengthPt: number, linePt: number): Piece {
  return {
    heightPt: piece.heightPt,
    draw: (xPt, yPt) => {
      piece.draw(xPt, yPt);
      lineAcross(ink, xPt, yPt + piece.heightPt, lengthPt, linePt);
    },
  };
}

function totalPt(columns: readonly Column[]): number {
  return columns.reduce((sum, column) => sum + column.widthPt, 0);
}

/** A table of texts, as logs and reports have them. */
export interface TextTable {
  readonly titles: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Signs of a text that is not broken while there is room: a figure with its unit, a day with its time, an id. */
const WHOLE = 16;
/** Share of the page that one column may want for itself before others have got what they want. */
const WIDEST = 0.45;
const FIGURE = /^-?[\d.,]+( (lb|kg|oz|g|%|ppm|[A-Z]{3}))?$/;

/**
 * A table whose columns get room by what stands in them; a column that holds nothing but figures stands to the right.
 * @param mostPt height of a page: a row that is higher goes on in a row of its own.
 * @param isFine whether it is set in small type.
 */
export function textTable(
  ink: Ink,
  { titles, rows }: TextTable,
  roomPt: number,
  mostPt: number,
  isFine = false,
): Section {
  const setting = isFine ? FINE : USUAL;
  const widths = columnWidths(ink, titles, rows, roomPt, setting);
  const columns = titles.map((title, index): Column => {
    const texts = rows.map((row) => row[index] ?? '').filter(Boolean);
    const isFigures = texts.length > 0 && texts.every((text) => FIGURE.test(text));
    return { title, widthPt: widths[index] ?? 0, ...(isFigures && { align: 'right' }) };
  });
  return {
    head: tableHead(ink, columns, setting),
    rows: rows.flatMap((row) => textRows(ink, columns, row, mostPt, setting)),
  };
}

/** One row, or several where a cell has more lines than a page. */
function textRows(
  ink: Ink,
  columns: readonly Column[],
  row: readonly string[],
  mostPt: number,
  setting: Setting,
): Piece[] {
  const { text, inside } = setting;
  const cells = columns.map(({ widthPt: width }, index) =>
    linesOf(ink, row[index] ?? '', text, width - inside.leftPt - inside.rightPt),
  );
  const mostLines = Math.max(1, Math.floor(mostPt / lineHeightPt(text)) - 1);
  const lineCount = Math.max(1, ...cells.map((lines) => lines.length));
  return Array.from({ length: Math.ceil(lineCount / mostLines) }, (_, part) =>
    tableRow(
      ink,
      columns,
      cells.map((lines, index): Cell => {
        const own = lines.slice(part * mostLines, (part + 1) * mostLines);
        return (room) => linesPiece(ink, own, text, columns[index]?.align, room);
      }),
      setting,
    ),
  );
}

function columnWidths(
  ink: Ink,
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  roomPt: number,
  { text, head, inside }: Setting,
): number[] {
  const widestPt = roomPt * WIDEST;
  const sidesPt = inside.leftPt + inside.rightPt + 0.5;
  const wanted = titles.map((title, index) => {
    const texts = new Set(rows.map((row) => row[index] ?? ''));
    const most = (parts: Iterable<string>, style: Style) =>
      Math.max(0, ...[...parts].map((part) => widthPt(ink, part, style)));
    const words = new Set([...texts].flatMap((one) => one.split(/\s+/)));
    const whole = [...texts].filter((one) => one.length <= WHOLE);
    const leastPt = Math.max(most(words, text), most(whole, text), most(title.split(' '), head));
    return {
      leastPt: Math.min(leastPt, widestPt / 2) + sidesPt,
      naturalPt:
        Math.max(leastPt, Math.min(Math.max(most(texts, text), most([title], head)), widestPt)) + sidesPt,
    };
  });
  const leastPt = wanted.reduce((sum, one) => sum + one.leastPt, 0);
  const naturalPt = wanted.reduce((sum, one) => sum + one.naturalPt, 0);
  if (naturalPt <= roomPt) return wanted.map((one) => one.naturalPt + (roomPt - naturalPt) / wanted.length);
  if (leastPt >= roomPt) return wanted.map((one) => (one.leastPt / leastPt) * roomPt);
  const share = (roomPt - leastPt) / (naturalPt - leastPt);
  return wanted.map((one) => one.leastPt + (one.naturalPt - one.leastPt) * share);
}
