import type { Run } from '../../../labels/ingredients/runs.ts';
import { type FontName, type Pdf, PT_PER_MM } from '../document.ts';

/** Type and blocks of a label: everything in millimetres from the upper left corner. */

/** Heights of the fonts as shares of their size, read from their tables (OS/2 sCapHeight and sxHeight). */
export const CAPITAL = 0.729;
const SMALL_LETTER = 0.547;

/**
 * Smallest size of any text on a label: capitals of 1/16 in (9 CFR 381.125(b)(1), 317.2(l)) and small letters of 1.2 mm
 * (Regulation (EU) No 1169/2011 Art. 13(2), from memory, verify), whichever is larger.
 */
export const LEAST_SIZE_MM = Math.max(25.4 / 16 / CAPITAL, 1.2 / SMALL_LETTER);

const LINE = 1.18;

/** Draws with millimetres as units. */
export function inMm(pdf: Pdf, draw: () => void): void {
  pdf.save();
  pdf.scale(PT_PER_MM);
  draw();
  pdf.restore();
}

/** A part of a label that takes any width and then says how high it is; without end where it does not fit at all. */
export interface Block {
  heightMm(widthMm: number): number;
  draw(xMm: number, yMm: number, widthMm: number): void;
}

export interface TypeStyle {
  readonly sizeMm: number;
  readonly font?: FontName;
  readonly bold?: FontName;
  readonly align?: 'left' | 'right' | 'center';
  /** Stands on one line or does not fit. */
  readonly isWhole?: boolean;
}

/** A paragraph, broken between words alone. */
export function paragraph(pdf: Pdf, text: string | readonly Run[], style: TypeStyle): Block {
  const { sizeMm, font = 'condensed', bold = 'condensed bold', align = 'left', isWhole = false } = style;
  const words = wordsOf(pdf, typeof text === 'string' ? [{ text, emphasized: false }] : text, {
    sizeMm,
    font,
    bold,
  });
  const space = unitWidth(pdf, font, ' ') * sizeMm;
  const linesAt = remembered((widthMm: number) => {
    const lines = linesOf(words, widthMm, space);
    return isWhole && lines && lines.length > 1 ? undefined : lines;
  });
  return {
    heightMm: (widthMm) => (linesAt(widthMm)?.length ?? Number.POSITIVE_INFINITY) * sizeMm * LINE,
    draw(xMm, yMm, widthMm) {
      (linesAt(widthMm) ?? []).forEach((line, index) => {
        const gap = widthMm - widthOf(line, space);
        let x = xMm + (align === 'left' ? 0 : align === 'right' ? gap : gap / 2);
        for (const { text: piece, face } of stretches(line)) {
          pdf.font(face, sizeMm).text(piece, x, yMm + sizeMm * (0.93 + index * LINE), {
            lineBreak: false,
            baseline: 'alphabetic',
          });
          x += pdf.widthOfString(piece);
        }
      });
    },
  };
}

interface Piece {
  readonly text: string;
  readonly face: FontName;
  readonly widthMm: number;
}
type Word = readonly Piece[];

function wordsOf(
  pdf: Pdf,
  runs: readonly Run[],
  { sizeMm, font, bold }: { readonly sizeMm: number; readonly font: FontName; readonly bold: FontName },
): Word[] {
  const words: Piece[][] = [[]];
  for (const { text, emphasized } of runs) {
    const face = emphasized ? bold : font;
    text.split(/\s+/).forEach((part, index) => {
      if (index > 0) words.push([]);
      if (part === '') return;
      words.at(-1)?.push({ text: part, face, widthMm: unitWidth(pdf, face, part) * sizeMm });
    });
  }
  return words.filter((word) => word.length > 0);
}

/** Widths at size 1, which a layout asks for again at every size it tries. */
const unitWidths = new WeakMap<Pdf, Map<string, number>>();

function unitWidth(pdf: Pdf, face: FontName, text: string): number {
  const known = unitWidths.get(pdf) ?? new Map<string, number>();
  unitWidths.set(pdf, known);
  const key = `${face}\n${text}`;
  const found = known.get(key) ?? pdf.font(face, 1).widthOfString(text);
  known.set(key, found);
  return found;
}

/** Undefined when a single word is too wide. */
function linesOf(words: readonly Word[], widthMm: number, space: number): Word[][] | undefined {
  const lines: Word[][] = [];
  let taken = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const wide = widthOf([word], space);
    if (wide > widthMm) return undefined;
    if (taken + space + wide > widthMm) {
      lines.push([word]);
      taken = wide;
    } else {
      lines.at(-1)?.push(word);
      taken += space + wide;
    }
  }
  return lines;
}

function widthOf(line: readonly Word[], space: number): number {
  const words = line.flat().reduce((total, { widthMm }) => total + widthMm, 0);
  return words + space * (line.length - 1);
}

/** Neighbors of one face are written at once. */
function stretches(line: readonly Word[]): { text: string; face: FontName }[] {
  const done: { text: string; face: FontName }[] = [];
  line.forEach((word, index) => {
    word.forEach(({ text, face }, at) => {
      const before = index > 0 && at === 0 ? ' ' : '';
      const last = done.at(-1);
      if (last?.face === face) last.text += `${before}${text}`;
      else {
        if (last && before) last.text += before;
        done.push({ text, face });
      }
    });
  });
  return done;
}

/** Heights and lines are asked for again and again while a layout is sought. */
export function remembered<Result>(work: (widthMm: number) => Result): (widthMm: number) => Result {
  const known = new Map<number, Result>();
  return (widthMm) => {
    const found = known.get(widthMm);
    if (found !== undefined) return found;
    const result = work(widthMm);
    known.set(widthMm, result);
    return result;
  };
}

/** Blocks one below the other. */
export function stack(blocks: readonly Block[], gapMm: number): Block {
  return {
    heightMm: remembered(
      (widthMm) =>
        blocks.reduce((total, block) => total + block.heightMm(widthMm), 0) +
        gapMm * Math.max(0, blocks.length - 1),
    ),
    draw(xMm, yMm, widthMm) {
      let y = yMm;
      for (const block of blocks) {
        block.draw(xMm, y, widthMm);
        y += block.heightMm(widthMm) + gapMm;
      }
    },
  };
}

/**
 * Two blocks side by side.
 * @param share of the width that the first one takes, without the gap.
 * @param isStanding whether they stand on one line and do not hang from one.
 */
export function beside(first: Block, second: Block, share: number, gapMm: number, isStanding = false): Block {
  const widths = (widthMm: number) => {
    const left = (widthMm - gapMm) * share;
    return [left, widthMm - gapMm - left] as const;
  };
  const heightMm = remembered((widthMm: number) => {
    const [left, right] = widths(widthMm);
    return Math.max(first.heightMm(left), second.heightMm(right));
  });
  return {
    heightMm,
    draw(xMm, yMm, widthMm) {
      const [left, right] = widths(widthMm);
      const height = isStanding ? heightMm(widthMm) : 0;
      first.draw(xMm, yMm + Math.max(0, height - first.heightMm(left)), left);
      second.draw(xMm + left + gapMm, yMm + Math.max(0, height - second.heightMm(right)), right);
    },
  };
}

/** A border around a block. */
export function bordered(
  pdf: Pdf,
  block: Block,
  { lineMm, paddingMm }: { lineMm: number; paddingMm: number },
): Block {
  const inset = lineMm + paddingMm;
  return {
    heightMm: (widthMm) => block.heightMm(widthMm - 2 * inset) + 2 * inset,
    draw(xMm, yMm, widthMm) {
      const heightMm = block.heightMm(widthMm - 2 * inset) + 2 * inset;
      pdf
        .lineWidth(lineMm)
        .rect(xMm + lineMm / 2, yMm + lineMm / 2, widthMm - lineMm, heightMm - lineMm)
        .stroke('black');
      block.draw(xMm + inset, yMm + inset, widthMm - 2 * inset);
    },
  };
}
