import type { FontName, Pdf } from './document.ts';

/** A font at a size, in points. */
export interface Style {
  readonly font: FontName;
  readonly sizePt: number;
}

/** What text is measured and written with; it remembers signs that no font has. */
export interface Ink {
  readonly pdf: Pdf;
  /** Signs that were asked for and are shown as a square. */
  readonly missing: Set<string>;
}

export function inkOf(pdf: Pdf): Ink {
  return { pdf, missing: new Set() };
}

/** Room from one line to the next, as a multiple of the size. */
const LINE_SPACING = 1.22;
/** In DejaVu and in no text of the trade: stands for a sign that the font lacks. */
export const NO_SIGN = '□';

export function lineHeightPt({ sizePt }: Style): number {
  return sizePt * LINE_SPACING;
}

export function widthPt(ink: Ink, text: string, { font, sizePt }: Style): number {
  return ink.pdf.font(font).fontSize(sizePt).widthOfString(text);
}

/** Writes one line as it is. @param text as `linesOf` gave it. */
export function write(ink: Ink, text: string, xPt: number, yPt: number, { font, sizePt }: Style): void {
  if (text !== '') ink.pdf.font(font).fontSize(sizePt).text(text, xPt, yPt, { lineBreak: false });
}

/** A percent sign stays with its figure. */
const BREAK = / (?!%)/;

/** The lines of a text in a width: broken at spaces, and within a word that is wider than a line. */
export function linesOf(ink: Ink, text: string, style: Style, roomPt: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of shown(ink, text, style).split(BREAK)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthPt(ink, longer, style) <= roomPt) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = brokenWord(ink, word, style, roomPt);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  return [...lines, line];
}

function brokenWord(ink: Ink, word: string, style: Style, roomPt: number): string[] {
  if (widthPt(ink, word, style) <= roomPt) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const sign of word) {
    if (piece !== '' && widthPt(ink, piece + sign, style) > roomPt) {
      pieces.push(piece);
      piece = '';
    }
    piece += sign;
  }
  return [...pieces, piece];
}

/** The text on one line, with a square for each sign that the font lacks: it would be left out in silence. */
export function shown(ink: Ink, text: string, { font }: Style): string {
  const has = signsOf(ink.pdf, font);
  const oneLine = text.replace(/\s+/gu, ' ').trim();
  return [...oneLine]
    .map((sign) => {
      if (has(sign)) return sign;
      ink.missing.add(sign);
      return NO_SIGN;
    })
    .join('');
}

/** The font in hand, as pdfkit keeps it beside what its types tell. */
interface InHand {
  readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } };
}

function signsOf(pdf: Pdf, font: FontName): (sign: string) => boolean {
  const inHand = (pdf.font(font) as unknown as InHand)._font.font;
  return (sign) => inHand.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0);
}
