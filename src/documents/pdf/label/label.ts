import type { PackLabel } from '../../../labels/packs/pack-label.ts';
import { PAPER_MM, type Pdf, pdfOf } from '../document.ts';
import { laidOut } from './label-layout.ts';
import type { LabelPart } from './label-part.ts';
import { cellsOf, cutGuides } from './label-sheet.ts';
import type { LabelStock } from './label-stock.ts';

export interface LabelPrint {
  readonly stock: LabelStock;
  /** 'whole' when absent. */
  readonly part?: LabelPart | undefined;
  readonly copies: number;
  /** Of a sheet that was begun: the label to start at, 1 for the first. */
  readonly start?: number;
  /** Fine lines between the labels of a sheet, for paper that is cut by hand. */
  readonly cutGuides?: boolean;
}

/**
 * A label as PDF: one to a page of the exact size of the stock, or on sheets.
 * @throws LabelRefused when it does not fit.
 */
export function packLabelPdf(label: PackLabel, print: LabelPrint): Promise<Uint8Array> {
  const { stock } = print;
  const parts = {
    title: `${label.name}, lot ${label.lotId}`,
    day: label.dates.find(({ says }) => says === 'Packed')?.day ?? label.dates[0]?.day ?? '2000-01-01',
    language: 'en',
  };
  const size = stock.sheet ? PAPER_MM[stock.sheet.paper] : stock;
  return pdfOf({ ...parts, widthMm: size.widthMm, heightMm: size.heightMm }, (pdf) =>
    stock.sheet ? onSheets(pdf, label, print) : onRoll(pdf, label, print),
  );
}

function onRoll(pdf: Pdf, label: PackLabel, { stock, part = 'whole', copies }: LabelPrint): void {
  const draw = laidOut(pdf, label, stock, part);
  for (let copy = 0; copy < copies; copy += 1) {
    if (copy > 0) pdf.addPage();
    draw(0, 0);
  }
}

function onSheets(
  pdf: Pdf,
  label: PackLabel,
  { stock, part = 'whole', copies, start = 1, cutGuides: guides }: LabelPrint,
): void {
  const draw = laidOut(pdf, label, stock, part);
  const cells = cellsOf(stock);
  for (let copy = 0; copy < copies; copy += 1) {
    const at = (start - 1 + copy) % cells.length;
    if (copy > 0 && at === 0) pdf.addPage();
    if (guides && (copy === 0 || at === 0)) cutGuides(pdf, stock);
    const cell = cells[at];
    if (cell) draw(cell.xMm, cell.yMm);
  }
}
