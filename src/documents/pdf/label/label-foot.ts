import type { LabelCode } from '../../../labels/packs/codes.ts';
import { netWeightHeightMm } from '../../../labels/packs/net-weight.ts';
import type { PackLabel } from '../../../labels/packs/pack-label.ts';
import type { Pdf } from '../document.ts';
import type { LabelStock } from './label-stock.ts';
import { type Block, beside, CAPITAL, paragraph, stack } from './label-type.ts';
import { type DrawnSymbol, RETAIL_BAR_MM, RETAIL_MODULE_MM, type SymbolSize, symbolOf } from './symbols.ts';

/** How large the codes are drawn, from the most that is asked for to the least that scanners take. */
interface CodeSizes {
  readonly retail: SymbolSize;
  readonly long: SymbolSize;
  readonly matrix: SymbolSize;
}

/**
 * UPC and EAN from 100 % down to 80 %, with lower bars where the label is low (common practice); GS1-128 at the 0.25 mm
 * and DataMatrix at the 0.38 mm below which they must not go (GS1 General Specifications 5.12, from memory, verify).
 */
const CODE_SIZES: readonly CodeSizes[] = [
  sizes(1, RETAIL_BAR_MM, [0.33, 16], 0.5),
  sizes(1, 15, [0.25, 12], 0.45),
  sizes(0.8, 11, [0.25, 9], 0.38),
  sizes(0.8, 8, [0.25, 8], 0.38),
];

function sizes(
  magnification: number,
  barHeightMm: number,
  [longModuleMm, longBarMm]: readonly [number, number],
  cellMm: number,
): CodeSizes {
  return {
    retail: { moduleMm: RETAIL_MODULE_MM * magnification, barHeightMm },
    long: { moduleMm: longModuleMm, barHeightMm: longBarMm },
    matrix: { moduleMm: cellMm, barHeightMm: 0 },
  };
}

/**
 * Ways to fill the foot of a label, the roomiest first: dates, lot, price and net weight at the left, the codes beside
 * them or above. The net weight is the lowest, within the bottom 30 % of the panel (9 CFR 317.2(h)(3)).
 */
export function feetOf(pdf: Pdf, label: PackLabel, stock: LabelStock, sizeMm: number): Block[] {
  // Grams go onto a line of their own where the weight is too long for one.
  const ways = [[label.netWeight.text], label.netWeight.text.split(/ (?=\()/)].map((net) => {
    const { made, sold } = wordBlocks(pdf, label, stock, { sizeMm, net });
    const halves = SHARES.map((share) => beside(stack(made, 0.3), stack(sold, 0.3), share, 1.5, true));
    return { all: stack([...made, ...sold], 0.3), halves };
  });
  const symbols = CODE_SIZES.map((codes) => {
    const drawn = label.codes.map((code) => ({ code, symbol: symbolOf(code, sizeFor(code, codes)) }));
    const isLong = ({ code }: (typeof drawn)[number]) => code.symbology === 'gs1-128';
    return {
      long: drawn.filter(isLong).map(({ symbol }) => symbolRow(pdf, [symbol])),
      short: drawn.filter((one) => !isLong(one)).map(({ symbol }) => symbol),
    };
  });
  return ways.flatMap(({ all, halves }) =>
    symbols.flatMap(({ long, short }) => [
      stack([...long, withCodes(pdf, all, short)], 0.8),
      ...(short.length > 0
        ? [...halves, all].map((below) => stack([...long, symbolRow(pdf, short), below], 0.8))
        : []),
    ]),
  );
}

/** Of the width, for what tells when it was made. */
const SHARES = [0.5, 0.47, 0.44, 0.4, 0.36];

function sizeFor({ symbology }: LabelCode, { retail, long, matrix }: CodeSizes): SymbolSize {
  if (symbology === 'gs1-128') return long;
  return symbology === 'gs1-datamatrix' ? matrix : retail;
}

/** What tells when it was made, and what it is sold by. */
function wordBlocks(
  pdf: Pdf,
  label: PackLabel,
  stock: LabelStock,
  { sizeMm, net }: { readonly sizeMm: number; readonly net: readonly string[] },
): { readonly made: Block[]; readonly sold: Block[] } {
  const { dates, lotId, price, netWeight, jurisdiction } = label;
  const leastMm = netWeightHeightMm(stock.widthMm * stock.heightMm, netWeight.printed, jurisdiction);
  const netMm = Math.max(leastMm / CAPITAL, sizeMm * 1.3);
  const bold = 'condensed bold';
  return {
    made: [
      ...dates.map(({ says, text }) =>
        paragraph(pdf, `${says} ${text}`, { sizeMm, font: bold, isWhole: true }),
      ),
      paragraph(pdf, `Lot ${lotId}`, { sizeMm, isWhole: true }),
    ],
    sold: [
      ...(price
        ? [
            paragraph(pdf, `Unit price ${price.unit}`, { sizeMm }),
            paragraph(pdf, `Total price ${price.total}`, {
              sizeMm: Math.max(netMm, sizeMm * 1.4),
              font: bold,
              isWhole: true,
            }),
          ]
        : []),
      ...net.map((line) => paragraph(pdf, line, { sizeMm: netMm, font: bold, isWhole: true })),
    ],
  };
}

/** Words at the left, codes at the right, all standing on one line. */
function withCodes(pdf: Pdf, words: Block, symbols: readonly DrawnSymbol[]): Block {
  const GAP = 1;
  const codesMm = symbols.reduce((total, { widthMm }) => total + widthMm + GAP, 0);
  const heightMm = (widthMm: number) =>
    widthMm <= codesMm
      ? Number.POSITIVE_INFINITY
      : Math.max(words.heightMm(widthMm - codesMm), ...symbols.map((symbol) => symbol.heightMm));
  return {
    heightMm,
    draw(xMm, yMm, widthMm) {
      const base = yMm + heightMm(widthMm);
      const room = widthMm - codesMm;
      words.draw(xMm, base - words.heightMm(room), room);
      let x = xMm + widthMm;
      for (const symbol of symbols) {
        x -= symbol.widthMm;
        symbol.draw(pdf, x, base - symbol.heightMm);
        x -= GAP;
      }
    },
  };
}

function symbolRow(pdf: Pdf, symbols: readonly DrawnSymbol[]): Block {
  const takenMm = symbols.reduce((total, { widthMm }) => total + widthMm, 0);
  const heightMm = Math.max(...symbols.map((symbol) => symbol.heightMm));
  return {
    heightMm: (widthMm) => (takenMm > widthMm ? Number.POSITIVE_INFINITY : heightMm),
    draw(xMm, yMm, widthMm) {
      const gap = (widthMm - takenMm) / (symbols.length + 1);
      let x = xMm + gap;
      for (const symbol of symbols) {
        symbol.draw(pdf, x, yMm + heightMm - symbol.heightMm);
        x += symbol.widthMm + gap;
      }
    },
  };
}
