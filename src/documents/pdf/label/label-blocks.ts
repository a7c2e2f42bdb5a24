import type { PackLabel } from '../../../labels/packs/pack-label.ts';
import type { SafeHandling } from '../../../labels/packs/safe-handling.ts';
import type { Pdf } from '../document.ts';
import { type Block, beside, bordered, LEAST_SIZE_MM, paragraph, remembered, stack } from './label-type.ts';
import { drawPictogram } from './pictograms.ts';

/** The parts of a pack label as blocks. @param sizeMm of running text, never below the smallest. */

/** Name, lean pair and what stands with them, with room for the inspection legend at the right. */
export function headBlock(
  pdf: Pdf,
  label: PackLabel,
  { sizeMm, nameMm, legendMm }: { readonly sizeMm: number; readonly nameMm: number; readonly legendMm: Oval },
): Block {
  const { name, leanPair, qualifiers, claims, origin, inspection } = label;
  const keeping = [label.pieces, label.storage, label.handling].filter((text) => text !== undefined);
  const lines = stack(
    [
      paragraph(pdf, name, { sizeMm: nameMm, font: 'bold' }),
      // Both figures in one size, one face, one color (9 CFR 317.362(f)).
      ...(leanPair === undefined
        ? []
        : [paragraph(pdf, leanPair, { sizeMm: Math.max(sizeMm, nameMm * 0.62), font: 'bold' })]),
      ...[...claims, ...qualifiers, ...origin].map((text) =>
        paragraph(pdf, text, { sizeMm, font: 'condensed bold' }),
      ),
      paragraph(pdf, keeping.join(' · '), {
        sizeMm: Math.max(sizeMm, LEAST_SIZE_MM * 1.1),
        font: 'condensed bold',
      }),
    ],
    0.4,
  );
  if (inspection === undefined) return lines;
  const legend = legendBlock(pdf, { place: inspection, number: numberOf(label) }, legendMm);
  const room = (widthMm: number) => widthMm - legendMm.widthMm - 1.5;
  return {
    heightMm: (widthMm) => Math.max(lines.heightMm(room(widthMm)), legend.heightMm),
    draw(xMm, yMm, widthMm) {
      lines.draw(xMm, yMm, room(widthMm));
      legend.draw(xMm + widthMm - legendMm.widthMm, yMm);
    },
  };
}

function numberOf({ jurisdiction, plant }: PackLabel): string {
  return jurisdiction === 'us' || jurisdiction === 'ca' ? `EST. ${plant.establishment}` : plant.establishment;
}

/** A circle, or an oval. */
export interface Oval {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Of its width and height, for words: they are short above and below. */
const INSIDE_OVAL = 0.78;

/** The place that is left for the legend: the mark itself is the inspection service's to give. */
function legendBlock(
  pdf: Pdf,
  { place, number }: { readonly place: string; readonly number: string },
  { widthMm, heightMm }: Oval,
) {
  const style = { sizeMm: LEAST_SIZE_MM, align: 'center' } as const;
  const words = stack(
    [paragraph(pdf, place, style), paragraph(pdf, number, { ...style, font: 'condensed bold' })],
    0.3,
  );
  const inside = widthMm * INSIDE_OVAL;
  const wordsMm = words.heightMm(inside);
  return {
    /** Without end where its words do not fit into it. */
    heightMm: wordsMm <= heightMm * INSIDE_OVAL ? heightMm : Number.POSITIVE_INFINITY,
    draw(xMm: number, yMm: number) {
      const [x, y] = [xMm + widthMm / 2, yMm + heightMm / 2];
      pdf.lineWidth(0.25).ellipse(x, y, widthMm / 2 - 0.15, heightMm / 2 - 0.15);
      pdf.dash(0.8, { space: 0.6 }).stroke('black').undash();
      words.draw(x - inside / 2, y - wordsMm / 2, inside);
    },
  };
}

/** Running text in the order of a label; the nutrition panel comes beside it. */
export function textBlocks(pdf: Pdf, label: PackLabel, sizeMm: number): Block[] {
  const { ingredients, allergens, meatContent, plant } = label;
  const bold = { sizeMm, font: 'condensed bold' } as const;
  return [
    ...(ingredients.length === 0 ? [] : [paragraph(pdf, ingredients, { sizeMm })]),
    ...(allergens === undefined ? [] : [paragraph(pdf, allergens, bold)]),
    ...(meatContent === undefined ? [] : [paragraph(pdf, meatContent, { sizeMm })]),
    paragraph(pdf, [`${plant.name}`, ...plant.address].join(', '), { sizeMm }),
  ];
}

/** What the wrapping weighs, where the scale takes it off. */
export function tareBlocks(pdf: Pdf, { tare }: PackLabel, sizeMm: number): Block[] {
  return tare === undefined ? [] : [paragraph(pdf, tare, { sizeMm })];
}

/** Product and lot on the back: without them the allergens of one product could come onto the packs of another. */
export function identityBlock(pdf: Pdf, { name, lotId }: PackLabel, sizeMm: number): Block {
  return paragraph(pdf, `${name} · Lot ${lotId}`, { sizeMm: sizeMm * 1.1, font: 'condensed bold' });
}

/** Heading larger than the rest, a border, each statement beside its picture. */
export function safeHandlingBlock(
  pdf: Pdf,
  { heading, rationale, statements }: SafeHandling,
  sizeMm: number,
): Block {
  const pictureMm = Math.max(6, sizeMm * 2.6);
  const one = ({ text, pictogram }: SafeHandling['statements'][number]): Block => {
    const words = paragraph(pdf, text, { sizeMm });
    const room = (widthMm: number) => widthMm - pictureMm - 1;
    const heightMm = (widthMm: number) => Math.max(pictureMm, words.heightMm(room(widthMm)));
    return {
      heightMm,
      draw(xMm, yMm, widthMm) {
        const height = heightMm(widthMm);
        drawPictogram(pdf, pictogram, xMm, yMm + (height - pictureMm) / 2, pictureMm);
        words.draw(xMm + pictureMm + 1, yMm + (height - words.heightMm(room(widthMm))) / 2, room(widthMm));
      },
    };
  };
  const blocks = statements.map(one);
  const inside: Block = stack(
    [
      paragraph(pdf, heading, { sizeMm: sizeMm * 1.25, font: 'bold', align: 'center' }),
      paragraph(pdf, rationale, { sizeMm }),
      columnsOf(blocks, 0.6),
    ],
    0.5,
  );
  return bordered(pdf, inside, { lineMm: 0.3, paddingMm: 0.8 });
}

/** Statements in one column, in two or in four, each read downwards: whichever is lowest. */
function columnsOf(blocks: readonly Block[], gapMm: number): Block {
  const half = Math.ceil(blocks.length / 2);
  const [first, second] = [blocks.slice(0, half), blocks.slice(half)];
  const across = (row: readonly Block[], share: number): Block => {
    const [left, ...rest] = row;
    return left && rest.length > 0 ? beside(left, stack(rest, gapMm), share, GUTTER) : stack(row, gapMm);
  };
  const ways = [
    stack(blocks, gapMm),
    ...SHARES.map((share) => beside(stack(first, gapMm), stack(second, gapMm), share, GUTTER)),
    ...SHARES.map((share) => beside(across(first, 1 - share), across(second, 0.4), share, GUTTER)),
  ];
  const lowest = remembered((widthMm: number) =>
    ways.reduce((best, way) => (way.heightMm(widthMm) < best.heightMm(widthMm) ? way : best)),
  );
  return {
    heightMm: (widthMm) => lowest(widthMm).heightMm(widthMm),
    draw: (xMm, yMm, widthMm) => lowest(widthMm).draw(xMm, yMm, widthMm),
  };
}

const GUTTER = 2;
const SHARES = [0.5, 0.55, 0.6, 0.65];
