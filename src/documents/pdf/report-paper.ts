import type { Paper } from '../../batch/plant.ts';
import { type Report, type ReportPart, SIGNATURES } from '../report.ts';
import type { Section } from './flow.ts';
import type { Ink, Style } from './ink.ts';
import { framedPages, type Sheet } from './page-frame.ts';
import { beside, lineAcross, type Piece, padded, paragraph, paragraphPieces, stacked } from './piece.ts';
import { sectionTitle } from './sheet/floor-parts.ts';
import { textTable } from './table.ts';

export interface ReportPrinted {
  readonly paper: Paper;
  readonly isLandscape: boolean;
  /** YYYY-MM-DD: the day that the file says it was made. */
  readonly day: string;
  /** SHA-256 of the document in the record, where it is kept there. */
  readonly hash?: string;
}

const TITLE: Style = { font: 'bold', sizePt: 15 };
const TEXT: Style = { font: 'condensed', sizePt: 8.5 };
const SMALL: Style = { font: 'condensed', sizePt: 7.5 };

/** A report on paper, in English as inspectors read it, with lines to sign. */
export function reportPaper(report: Report, printed: ReportPrinted): Promise<Uint8Array> {
  const { title, plant, establishment, lines, parts, notes } = report;
  return framedPages({ ...printed, language: 'en', plant, establishment, title }, (ink, sheet) => [
    {
      rows: [
        padded(paragraph(ink, title, TITLE), { bottomPt: 2 })(sheet.widthPt),
        ...texts(ink, lines, TEXT, sheet),
      ],
    },
    ...parts.flatMap((part) => partSections(ink, part, sheet)),
    // Signatures alone on a page would be signatures under nothing.
    { rows: [...texts(ink, notes, SMALL, sheet), signatures(ink, sheet.widthPt)], together: true },
  ]);
}

function texts(ink: Ink, lines: readonly string[], style: Style, { widthPt }: Sheet): Piece[] {
  return lines.flatMap((line) => paragraphPieces(ink, line, style, widthPt));
}

/** A part whose title and lines stay with the first row of its table. */
function partSections(ink: Ink, { title, lines = [], table }: ReportPart, sheet: Sheet): Section[] {
  const heading: Section = {
    ...(title !== undefined && { title: sectionTitle(ink, title, sheet.widthPt) }),
    rows: texts(ink, lines, TEXT, sheet),
  };
  if (!table) return [heading];
  if (table.rows.length === 0) return [{ ...heading, rows: texts(ink, [...lines, table.none], TEXT, sheet) }];
  const headingPiece = [...(heading.title ? [heading.title] : []), ...heading.rows];
  return [
    {
      ...textTable(ink, table, sheet.widthPt, sheet.heightPt / 2),
      ...(headingPiece.length > 0 && {
        title: stacked(...headingPiece.map((piece) => () => piece))(sheet.widthPt),
      }),
    },
  ];
}

const SIGNING_PT = 30;

function signatures(ink: Ink, widthPt: number): Piece {
  const eachPt = widthPt / SIGNATURES.length;
  return beside(
    SIGNATURES.map((who) => ({
      widthPt: eachPt,
      cell: () => ({
        heightPt: SIGNING_PT,
        draw: (xPt: number, yPt: number) => {
          lineAcross(ink, xPt, yPt + SIGNING_PT - 11, eachPt - 16);
          paragraph(ink, `${who}, date`, SMALL)(eachPt).draw(xPt, yPt + SIGNING_PT - 10);
        },
      }),
    })),
  );
}
