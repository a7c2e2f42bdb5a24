import { type Ink, lineHeightPt, linesOf, type Style, widthPt, write } from './ink.ts';

/** Something with a height that is drawn from its upper left corner, in points. */
export interface Piece {
  readonly heightPt: number;
  readonly draw: (xPt: number, yPt: number) => void;
}

/** A piece for a width that is known later, such as that of a column. */
export type Cell = (roomPt: number) => Piece;

export const NOTHING: Piece = { heightPt: 0, draw: () => {} };

export type Align = 'left' | 'right';

/** A text over as many lines as it needs. */
export function paragraph(ink: Ink, text: string, style: Style, align: Align = 'left'): Cell {
  return (roomPt) => {
    if (text === '') return NOTHING;
    return linesPiece(ink, linesOf(ink, text, style, roomPt), style, align, roomPt);
  };
}

/** A text that may be longer than a page, as pieces that pages can break between. */
export function paragraphPieces(ink: Ink, text: string, style: Style, roomPt: number): Piece[] {
  const lines = linesOf(ink, text, style, roomPt);
  return Array.from({ length: Math.ceil(lines.length / MOST_LINES) }, (_, part) =>
    linesPiece(ink, lines.slice(part * MOST_LINES, (part + 1) * MOST_LINES), style),
  );
}

/** Lines that stay together; fits on every paper, in every style. */
const MOST_LINES = 20;

export function linesPiece(
  ink: Ink,
  lines: readonly string[],
  style: Style,
  align: Align = 'left',
  roomPt = 0,
): Piece {
  const stepPt = lineHeightPt(style);
  return {
    heightPt: lines.length * stepPt,
    draw: (xPt, yPt) => {
      lines.forEach((line, index) => {
        const indentPt = align === 'right' ? roomPt - widthPt(ink, line, style) : 0;
        write(ink, line, xPt + indentPt, yPt + index * stepPt, style);
      });
    },
  };
}

/** One above the other. */
export function stacked(...cells: readonly Cell[]): Cell {
  return (roomPt) => {
    const pieces = cells.map((cell) => cell(roomPt));
    return {
      heightPt: pieces.reduce((sum, { heightPt }) => sum + heightPt, 0),
      draw: (xPt, yPt) => {
        let topPt = yPt;
        for (const { heightPt, draw } of pieces) {
          draw(xPt, topPt);
          topPt += heightPt;
        }
      },
    };
  };
}

/** Side by side, each in its width. */
export function beside(parts: readonly { readonly cell: Cell; readonly widthPt: number }[]): Piece {
  const pieces = parts.map((part) => part.cell(part.widthPt));
  return {
    heightPt: Math.max(0, ...pieces.map(({ heightPt }) => heightPt)),
    draw: (xPt, yPt) => {
      let leftPt = xPt;
      pieces.forEach(({ draw }, index) => {
        draw(leftPt, yPt);
        leftPt += parts[index]?.widthPt ?? 0;
      });
    },
  };
}

export interface Space {
  readonly topPt?: number;
  readonly bottomPt?: number;
  readonly leftPt?: number;
  readonly rightPt?: number;
}

/** With empty room around it. */
export function padded(cell: Cell, { topPt = 0, bottomPt = 0, leftPt = 0, rightPt = 0 }: Space): Cell {
  return (roomPt) => {
    const { heightPt, draw } = cell(roomPt - leftPt - rightPt);
    return {
      heightPt: heightPt + topPt + bottomPt,
      draw: (xPt, yPt) => draw(xPt + leftPt, yPt + topPt),
    };
  };
}

/** Within a frame of lines. */
export function framed(ink: Ink, cell: Cell, linePt: number, insidePt: number): Cell {
  return (roomPt) => {
    const pieces = framedRows(ink, [cell(roomPt - 2 * insidePt)], { linePt, insidePt, roomPt });
    return stacked(...pieces.map((piece) => () => piece))(roomPt);
  };
}

interface FrameOf {
  readonly linePt: number;
  readonly insidePt: number;
  readonly roomPt: number;
}

/** Rows within one frame, which stays open where a page ends between them. @param pieces at least one. */
export function framedRows(
  ink: Ink,
  pieces: readonly Piece[],
  { linePt, insidePt, roomPt }: FrameOf,
): Piece[] {
  return pieces.map((piece, index) => {
    const isFirst = index === 0;
    const isLast = index === pieces.length - 1;
    const topPt = isFirst ? insidePt : 0;
    const heightPt = topPt + piece.heightPt + (isLast ? insidePt : 1);
    return {
      heightPt,
      draw: (xPt, yPt) => {
        piece.draw(xPt + insidePt, yPt + topPt);
        const { pdf } = ink;
        pdf.lineWidth(linePt).lineCap('square');
        for (const sidePt of [xPt, xPt + roomPt]) {
          pdf
            .moveTo(sidePt, yPt)
            .lineTo(sidePt, yPt + heightPt)
            .stroke();
        }
        if (isFirst) lineAcross(ink, xPt, yPt, roomPt, linePt);
        if (isLast) lineAcross(ink, xPt, yPt + heightPt, roomPt, linePt);
        pdf.lineCap('butt');
      },
    };
  });
}

/** A line across, as light as a pencil's where it only guides the eye. */
export function lineAcross(ink: Ink, xPt: number, yPt: number, lengthPt: number, linePt = 0.5): void {
  ink.pdf
    .lineWidth(linePt)
    .moveTo(xPt, yPt)
    .lineTo(xPt + lengthPt, yPt)
    .stroke();
}
