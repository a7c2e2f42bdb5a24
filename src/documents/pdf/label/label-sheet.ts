import { PAPER_MM, type Pdf } from '../document.ts';
import type { LabelStock } from './label-stock.ts';
import { inMm } from './label-type.ts';

/** Where each label of a sheet begins, row by row. A stock without a sheet has one label. */
export function cellsOf({ sheet }: LabelStock): { readonly xMm: number; readonly yMm: number }[] {
  if (!sheet) return [{ xMm: 0, yMm: 0 }];
  const { columns, rows, leftMm, topMm, pitchXMm, pitchYMm } = sheet;
  return Array.from({ length: columns * rows }, (_, at) => ({
    xMm: leftMm + (at % columns) * pitchXMm,
    yMm: topMm + Math.floor(at / columns) * pitchYMm,
  }));
}

/** Hair lines along the edges of the labels, right across the sheet. */
export function cutGuides(pdf: Pdf, stock: LabelStock): void {
  if (!stock.sheet) return;
  const paper = PAPER_MM[stock.sheet.paper];
  inMm(pdf, () => {
    pdf.lineWidth(0.1).strokeColor('gray');
    for (const { xMm, yMm } of cellsOf(stock)) {
      for (const x of [xMm, xMm + stock.widthMm]) pdf.moveTo(x, 0).lineTo(x, paper.heightMm);
      for (const y of [yMm, yMm + stock.heightMm]) pdf.moveTo(0, y).lineTo(paper.widthMm, y);
    }
    pdf.stroke().strokeColor('black');
  });
}
