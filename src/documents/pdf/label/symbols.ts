import bwipjs from 'bwip-js';
import type { LabelCode, Symbology } from '../../../labels/packs/codes.ts';
import type { Pdf } from '../document.ts';

/** Codes drawn as rectangles in exact millimetres, with their quiet zones and the text that people read. */

export interface SymbolSize {
  /** Width of the narrowest bar, or of one cell. */
  readonly moduleMm: number;
  /** Of linear codes, above the text. */
  readonly barHeightMm: number;
}

export interface DrawnSymbol {
  /** With its quiet zones. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** Draws with its upper left corner here, in millimetres. */
  draw(pdf: Pdf, xMm: number, yMm: number): void;
}

/** X-dimension of UPC and EAN at 100 %; 80 to 200 % are allowed (GS1 General Specifications 5.2, from memory, verify). */
export const RETAIL_MODULE_MM = 0.33;
/** Height of their bars at 100 % (same source). */
export const RETAIL_BAR_MM = 22.85;

/** Quiet zones left and right in modules (GS1 General Specifications 5.2 to 5.6, from memory, verify). */
const QUIET: Readonly<Record<Symbology, readonly [left: number, right: number]>> = {
  'upc-a': [9, 9],
  'ean-13': [11, 7],
  'ean-8': [7, 7],
  'gs1-128': [10, 10],
  'gs1-datamatrix': [1, 1],
};

/** bwip-js calls them so. It refuses a wrong check digit, a wrong length, an impossible date. */
const ENCODERS: Readonly<Record<Symbology, string>> = {
  'upc-a': 'upca',
  'ean-13': 'ean13',
  'ean-8': 'ean8',
  'gs1-128': 'gs1-128',
  'gs1-datamatrix': 'gs1datamatrix',
};

/** @throws Error of the encoder when the digits are no such code. */
export function symbolOf(code: LabelCode, size: SymbolSize): DrawnSymbol {
  return code.symbology === 'gs1-datamatrix' ? matrix(code, size) : linear(code, size);
}

/** A layout tries several sizes of one code. */
const encodings = new WeakMap<LabelCode, unknown>();

function encoded(code: LabelCode): unknown {
  const known = encodings.get(code);
  if (known !== undefined) return known;
  const [encoding] = bwipjs.raw({ bcid: ENCODERS[code.symbology], text: code.data });
  encodings.set(code, encoding);
  return encoding;
}

function matrix(code: LabelCode, { moduleMm }: SymbolSize): DrawnSymbol {
  const { pixs, pixx, pixy } = encoded(code) as { pixs: readonly number[]; pixx: number; pixy: number };
  const [quiet] = QUIET[code.symbology];
  return {
    widthMm: (pixx + 2 * quiet) * moduleMm,
    heightMm: (pixy + 2 * quiet) * moduleMm,
    draw(pdf, xMm, yMm) {
      const left = xMm + quiet * moduleMm;
      const top = yMm + quiet * moduleMm;
      for (let row = 0; row < pixy; row += 1) {
        for (const [from, to] of runsOf(pixs.slice(row * pixx, (row + 1) * pixx))) {
          pdf.rect(left + from * moduleMm, top + row * moduleMm, (to - from) * moduleMm, moduleMm);
        }
      }
      pdf.fill('black');
    },
  };
}

/** Neighbors are one rectangle, so that no renderer leaves a hair between them. */
function runsOf(cells: readonly number[]): [from: number, to: number][] {
  const runs: [number, number][] = [];
  cells.forEach((cell, at) => {
    if (cell === 0) return;
    const last = runs.at(-1);
    if (last && last[1] === at) last[1] = at + 1;
    else runs.push([at, at + 1]);
  });
  return runs;
}

function linear(code: LabelCode, { moduleMm, barHeightMm }: SymbolSize): DrawnSymbol {
  // Bars and spaces in turn, in modules, a bar first.
  const { sbs } = encoded(code) as { sbs: readonly number[] };
  const [quietLeft, quietRight] = QUIET[code.symbology];
  const modules = sbs.reduce((total, width) => total + width, 0);
  const texts = textsOf(code, modules);
  const textMm = Math.max(LEAST_TEXT_MM, 8 * moduleMm);
  const lines = Math.max(...texts.map(({ line }) => line)) + 1;
  return {
    widthMm: (quietLeft + modules + quietRight) * moduleMm,
    heightMm: barHeightMm + lines * textMm * 1.15,
    draw(pdf, xMm, yMm) {
      const left = xMm + quietLeft * moduleMm;
      let at = 0;
      sbs.forEach((width, index) => {
        const isBar = index % 2 === 0;
        const isGuard = isBar && guards(code.symbology, at, modules);
        if (isBar) {
          pdf.rect(left + at * moduleMm, yMm, width * moduleMm, barHeightMm + (isGuard ? 5 * moduleMm : 0));
        }
        at += width;
      });
      pdf.fill('black');
      pdf.font(code.symbology === 'gs1-128' ? 'condensed' : 'mono');
      for (const { text, from, to, line } of texts) {
        const room = (to - from) * moduleMm;
        pdf.fontSize(textMm);
        pdf.fontSize(textMm * Math.min(1, room / pdf.widthOfString(text)));
        const x = left + from * moduleMm + (room - pdf.widthOfString(text)) / 2;
        pdf.text(text, x, yMm + barHeightMm + (line + 1) * textMm * 1.1, {
          lineBreak: false,
          baseline: 'alphabetic',
        });
      }
    },
  };
}

/** Smallest type under a code: capitals of 1.6 mm. */
const LEAST_TEXT_MM = 2.2;

/** The bars at both ends and in the middle of UPC and EAN are longer: they part the digits. */
function guards(symbology: Symbology, at: number, modules: number): boolean {
  if (symbology === 'gs1-128') return false;
  const inside = symbology === 'upc-a' ? 10 : 3;
  return at < inside || at >= modules - inside || Math.abs(at - (modules - 1) / 2) < 3;
}

interface PlacedText {
  readonly text: string;
  /** In modules from the first bar; below 0 and past the last in the quiet zones. */
  readonly from: number;
  readonly to: number;
  readonly line: number;
}

function textsOf({ symbology, data }: LabelCode, modules: number): PlacedText[] {
  const on = (text: string, from: number, to: number, line = 0) => ({ text, from, to, line });
  if (symbology === 'upc-a') {
    return [
      on(data.slice(0, 1), -8, -2),
      on(data.slice(1, 6), 11, 45),
      on(data.slice(6, 11), 50, 84),
      on(data.slice(11), 97, 103),
    ];
  }
  if (symbology === 'ean-13') {
    return [on(data.slice(0, 1), -9, -2), on(data.slice(1, 7), 4, 45), on(data.slice(7), 50, 91)];
  }
  if (symbology === 'ean-8') return [on(data.slice(0, 4), 4, 31), on(data.slice(4), 36, 63)];
  // Broken between element strings, never within one.
  const elements = data.split(/(?=\(\d{2,4}\))/);
  const half = Math.ceil(elements.length / 2);
  return [
    on(elements.slice(0, half).join(' '), 0, modules),
    on(elements.slice(half).join(' '), 0, modules, 1),
  ].filter(({ text }) => text !== '');
}
