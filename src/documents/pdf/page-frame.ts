import type { Language, Paper } from '../../batch/plant.ts';
import { wordsIn } from '../words/words.ts';
import { PAPER_MM, PT_PER_MM, pdfOf } from './document.ts';
import { flow, type Section } from './flow.ts';
import { type Ink, inkOf, type Style, shown, widthPt, write } from './ink.ts';
import { lineAcross } from './piece.ts';

/** How a document is printed. */
export interface Printed {
  readonly paper: Paper;
  readonly language: Language;
}

/** What stands on every page around the content. */
export interface Frame extends Printed {
  readonly isLandscape?: boolean;
  readonly plant: string;
  readonly establishment: string;
  /** What kind of document it is. */
  readonly title: string;
  /** What it is about, such as a product or some days. */
  readonly subject?: string;
  /** YYYY-MM-DD: the day that the file says it was made. */
  readonly day: string;
  /** SHA-256 of the document in the record: short on each page, whole on the first. */
  readonly hash?: string;
}

/** The room between the header and the footer. */
export interface Sheet {
  readonly widthPt: number;
  readonly heightPt: number;
}

/** A usual printer prints to within 6 mm of the edge; a binder needs more. */
const EDGE_PT = 10 * PT_PER_MM;
const HEADER_PT = 18;
const FOOTER_PT = 26;
const SMALL: Style = { font: 'regular', sizePt: 7 };
const SMALL_BOLD: Style = { font: 'bold', sizePt: 7.5 };
const TINY: Style = { font: 'mono', sizePt: 6 };
/** Signs of a hash that tell two documents of a plant apart. */
const SHORT_HASH = 12;

/** A document over as many pages as it needs, each with its frame. @returns the same bytes for the same content. */
export function framedPages(
  frame: Frame,
  contentOf: (ink: Ink, sheet: Sheet) => readonly Section[],
): Promise<Uint8Array> {
  const { paper, isLandscape = false } = frame;
  const { widthMm, heightMm } = PAPER_MM[paper];
  const [acrossMm, downMm] = isLandscape ? [heightMm, widthMm] : [widthMm, heightMm];
  const sheet = {
    widthPt: acrossMm * PT_PER_MM - 2 * EDGE_PT,
    heightPt: downMm * PT_PER_MM - 2 * EDGE_PT - HEADER_PT - FOOTER_PT,
  };
  const title = [frame.title, frame.subject].filter(Boolean).join(', ');
  const parts = { title, day: frame.day, language: frame.language, widthMm: acrossMm, heightMm: downMm };
  return pdfOf(parts, (pdf) => {
    const ink = inkOf(pdf);
    const topPt = EDGE_PT + HEADER_PT;
    const placed = flow(contentOf(ink, sheet), { topPt, bottomPt: topPt + sheet.heightPt });
    const pages = (placed.at(-1)?.page ?? 0) + 1;
    for (let page = 0; page < pages; page++) {
      if (page > 0) pdf.addPage();
      for (const one of placed) if (one.page === page) one.piece.draw(EDGE_PT, one.yPt);
    }
    for (let page = 0; page < pages; page++) {
      pdf.switchToPage(page);
      drawFrame(ink, frame, sheet, page, pages);
    }
  });
}

function drawFrame(
  ink: Ink,
  frame: Frame,
  { widthPt: acrossPt, heightPt }: Sheet,
  page: number,
  pages: number,
) {
  const { say } = wordsIn(frame.language);
  const { plant, establishment, title, subject = '', hash } = frame;
  const whose = `${plant}, Est. ${establishment}`;
  const inRoom = (text: string, style: Style, roomPt: number) => clipped(ink, text, style, roomPt);
  write(ink, inRoom(whose, SMALL_BOLD, acrossPt * 0.45), EDGE_PT, EDGE_PT, SMALL_BOLD);
  const about = inRoom([title, subject].filter(Boolean).join(' · '), SMALL, acrossPt * 0.53);
  write(ink, about, EDGE_PT + acrossPt - widthPt(ink, about, SMALL), EDGE_PT, SMALL);
  lineAcross(ink, EDGE_PT, EDGE_PT + 11, acrossPt, 0.7);

  const footPt = EDGE_PT + HEADER_PT + heightPt + FOOTER_PT - 18;
  lineAcross(ink, EDGE_PT, footPt - 3, acrossPt, 0.7);
  const left = [
    ...(hash === undefined ? [] : [say('Document {hash}', { hash: hash.slice(0, SHORT_HASH) })]),
    say('printed in English'),
  ].join(' · ');
  write(ink, left, EDGE_PT, footPt, SMALL);
  const count = say('page {page} of {pages}', { page: page + 1, pages });
  write(ink, count, EDGE_PT + acrossPt - widthPt(ink, count, SMALL_BOLD), footPt, SMALL_BOLD);
  if (hash !== undefined && page === 0) {
    write(ink, say('SHA-256 of the document: {hash}', { hash }), EDGE_PT, footPt + 10, TINY);
  }
  if (ink.missing.size > 0) {
    const note = say('The sign □ stands for one that this paper cannot show: look at the screen.');
    write(ink, note, EDGE_PT + acrossPt - widthPt(ink, note, { ...SMALL, sizePt: 6 }), footPt + 10, {
      ...SMALL,
      sizePt: 6,
    });
  }
}

/** As much of a text as fits on one line. */
function clipped(ink: Ink, text: string, style: Style, roomPt: number): string {
  const whole = shown(ink, text, style);
  if (widthPt(ink, whole, style) <= roomPt) return whole;
  const signs = [...whole];
  while (signs.length > 0 && widthPt(ink, `${signs.join('')}…`, style) > roomPt) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}
