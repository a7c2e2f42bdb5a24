import type { BatchSheet } from '../../batch-sheet.ts';
import type { Words } from '../../words/words.ts';
import type { Section } from '../flow.ts';
import type { Ink, Style } from '../ink.ts';
import {
  beside,
  type Cell,
  framedRows,
  lineAcross,
  type Piece,
  padded,
  paragraph,
  paragraphPieces,
  stacked,
} from '../piece.ts';

/** Parts of a sheet that any floor document may have: titles, cautions, lines to fill in. */

const TITLE: Style = { font: 'bold', sizePt: 9.5 };
const NOTE: Style = { font: 'condensed', sizePt: 7.5 };

export function sectionTitle(ink: Ink, text: string, widthPt: number, note = ''): Piece {
  return padded(stacked(paragraph(ink, text, TITLE), paragraph(ink, note, NOTE)), { bottomPt: 2 })(widthPt);
}

const CAUTION: Style = { font: 'condensed', sizePt: 8.5 };
const MARK: Style = { font: 'bold', sizePt: 9 };

/** Room for the mark before a caution. */
const MARK_PT = 9;

/** A caution with its mark. */
export function cautionCell(ink: Ink, text: string, style: Style): Cell {
  return (roomPt) =>
    beside([
      { cell: paragraph(ink, '!', MARK), widthPt: MARK_PT },
      { cell: paragraph(ink, text, style), widthPt: roomPt - MARK_PT },
    ]);
}

/** Cautions within a strong frame. */
export function cautionsPart(
  ink: Ink,
  cautions: readonly string[],
  { say, told }: Words,
  widthPt: number,
): Section[] {
  if (cautions.length === 0) return [];
  const roomPt = widthPt - 2 * INSIDE_PT;
  const marked = cautions.flatMap((caution) =>
    paragraphPieces(ink, told(caution), CAUTION, roomPt - MARK_PT).map((piece, part) =>
      beside([
        { cell: paragraph(ink, part === 0 ? '!' : '', MARK), widthPt: MARK_PT },
        { cell: () => piece, widthPt: roomPt - MARK_PT },
      ]),
    ),
  );
  const pieces = [paragraph(ink, say('CAUTIONS'), TITLE)(roomPt), ...marked];
  const rows = framedRows(ink, pieces, { linePt: 1.6, insidePt: INSIDE_PT, roomPt: widthPt });
  return [{ rows, together: true }];
}

const INSIDE_PT = 5;

const BLANK: Style = { font: 'condensed', sizePt: 8 };
const KNOWN: Style = { font: 'condensed bold', sizePt: 10 };
/** Room to write in by hand. */
const WRITING_PT = 17;
const GUTTER_PT = 16;
/** More lines than these stand three beside each other. */
const FEW_LINES = 8;

/** Lines to fill in, some beside each other, each with room to write. */
export function fillInPart(
  ink: Ink,
  { fillIn }: BatchSheet,
  { say, told }: Words,
  batchId: string | undefined,
  widthPt: number,
): Section[] {
  if (fillIn.length === 0) return [];
  const across = fillIn.length > FEW_LINES ? 3 : 2;
  const eachPt = (widthPt - GUTTER_PT * (across - 1)) / across;
  const known: Readonly<Record<string, string | undefined>> = { 'Batch number': batchId };
  const blank = (line: string): Cell => {
    const label = stacked(paragraph(ink, told(line), BLANK), paragraph(ink, known[line] ?? '', KNOWN));
    return (roomPt) => {
      const { heightPt, draw } = label(roomPt);
      const totalPt = Math.max(heightPt, heightPt + (known[line] === undefined ? WRITING_PT : 3));
      return {
        heightPt: totalPt + 3,
        draw: (xPt, yPt) => {
          draw(xPt, yPt);
          lineAcross(ink, xPt, yPt + totalPt, roomPt);
        },
      };
    };
  };
  const rows = Array.from({ length: Math.ceil(fillIn.length / across) }, (_, row) =>
    beside(
      fillIn.slice(row * across, (row + 1) * across).flatMap((line) => [
        { cell: blank(line), widthPt: eachPt },
        { cell: paragraph(ink, '', BLANK), widthPt: GUTTER_PT },
      ]),
    ),
  );
  return [{ title: sectionTitle(ink, say('FILL IN'), widthPt), rows, together: true }];
}
