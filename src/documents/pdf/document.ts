import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import type { Paper } from '../../batch/plant.ts';

/** Points to the millimetre: a point is 1/72 in, an inch is 25.4 mm. */
export const PT_PER_MM = 72 / 25.4;

/** Widths and heights of papers in millimetres (ISO 216; ANSI/ASME Y14.1 A is 8.5 by 11 in). */
export const PAPER_MM: Readonly<Record<Paper, { readonly widthMm: number; readonly heightMm: number }>> = {
  letter: { widthMm: 215.9, heightMm: 279.4 },
  a4: { widthMm: 210, heightMm: 297 },
};

export type Pdf = PDFKit.PDFDocument;

export interface PdfParts {
  readonly title: string;
  /** YYYY-MM-DD: the day that the file says it was made. The same parts give the same bytes on any day. */
  readonly day: string;
  readonly language: string;
  readonly widthMm: number;
  readonly heightMm: number;
}

const FONT_FILES = {
  regular: 'DejaVuSans.ttf',
  bold: 'DejaVuSans-Bold.ttf',
  condensed: 'DejaVuSansCondensed.ttf',
  'condensed bold': 'DejaVuSansCondensed-Bold.ttf',
  mono: 'DejaVuSansMono.ttf',
} as const;
export type FontName = keyof typeof FONT_FILES;

const requireFile = createRequire(import.meta.url);
const fonts = new Map<FontName, Buffer>();

/** The fonts have every sign that a sheet needs: the fonts built into PDF print wrong signs for ≤ and → in silence. */
function fontFile(name: FontName): Buffer {
  const known = fonts.get(name);
  if (known) return known;
  const file = readFileSync(requireFile.resolve(`dejavu-fonts-ttf/ttf/${FONT_FILES[name]}`));
  fonts.set(name, file);
  return file;
}

/**
 * A PDF drawn by hand: fonts embedded, no page yet added beyond the first, every page kept until the end so that it
 * can be numbered.
 * @param draw adds pages and draws; the origin is the upper left corner, in points.
 * @returns the same bytes for the same parts and drawing.
 */
export async function pdfOf(parts: PdfParts, draw: (pdf: Pdf) => void): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    size: [parts.widthMm * PT_PER_MM, parts.heightMm * PT_PER_MM],
    margin: 0,
    bufferPages: true,
    lang: parts.language,
    displayTitle: true,
    info: {
      Title: parts.title,
      CreationDate: new Date(`${parts.day}T00:00:00Z`),
      Producer: 'meatblock',
      Creator: 'meatblock',
    },
  });
  for (const name of Object.keys(FONT_FILES) as FontName[]) pdf.registerFont(name, fontFile(name));
  const chunks: Buffer[] = [];
  const ended = new Promise<void>((resolve, reject) => {
    pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
    pdf.on('end', resolve);
    pdf.on('error', reject);
  });
  pdf.font('regular');
  draw(pdf);
  pdf.end();
  await ended;
  return Buffer.concat(chunks);
}
