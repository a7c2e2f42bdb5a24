import type { Paper } from '../../../batch/plant.ts';

/** Where the labels of a sheet lie: columns and rows, counted from the upper left corner. */
export interface LabelSheet {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  readonly leftMm: number;
  readonly topMm: number;
  /** From the left edge of one label to that of the next. */
  readonly pitchXMm: number;
  readonly pitchYMm: number;
}

/** Paper that labels are printed on: from a roll one by one, or many on a sheet. Described by its size alone. */
export interface LabelStock {
  readonly id: string;
  readonly says: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly sheet?: LabelSheet;
}

/** Common sizes (common practice); those in inches are what the trade calls 4 by 6, 4 by 3, 3 by 2. */
const ROLLS: readonly LabelStock[] = [
  roll('roll-102x152', 101.6, 152.4, '4 × 6 in'),
  roll('roll-102x127', 101.6, 127, '4 × 5 in'),
  roll('roll-102x102', 101.6, 101.6, '4 × 4 in'),
  roll('roll-102x76', 101.6, 76.2, '4 × 3 in'),
  roll('roll-76x51', 76.2, 50.8, '3 × 2 in'),
  roll('roll-58x40', 58, 40),
];

const SHEETS: readonly LabelStock[] = [
  sheet('letter-102x127', 'letter', [2, 2], [101.6, 127], { leftMm: 4, topMm: 12.7, pitchXMm: 106.3 }),
  sheet('letter-102x85', 'letter', [2, 3], [101.6, 84.67], { leftMm: 4, topMm: 12.7, pitchXMm: 106.3 }),
  sheet('letter-102x51', 'letter', [2, 5], [101.6, 50.8], { leftMm: 4, topMm: 12.7, pitchXMm: 106.3 }),
  sheet('a4-105x148', 'a4', [2, 2], [105, 148.5], { leftMm: 0, topMm: 0 }),
  sheet('a4-99x93', 'a4', [2, 3], [99.1, 93.1], { leftMm: 4.65, topMm: 8.85, pitchXMm: 101.6 }),
  sheet('a4-70x51', 'a4', [3, 5], [70, 50.8], { leftMm: 0, topMm: 21.5 }),
];

export const LABEL_STOCKS: readonly LabelStock[] = [...ROLLS, ...SHEETS];

function roll(id: string, widthMm: number, heightMm: number, inches?: string): LabelStock {
  return {
    id,
    says: `Roll, ${sizeText(widthMm, heightMm)}${inches ? ` (${inches})` : ''}`,
    widthMm,
    heightMm,
  };
}

function sheet(
  id: string,
  paper: Paper,
  [columns, rows]: readonly [number, number],
  [widthMm, heightMm]: readonly [number, number],
  place: { leftMm: number; topMm: number; pitchXMm?: number; pitchYMm?: number },
): LabelStock {
  const name = paper === 'a4' ? 'A4' : 'Letter';
  return {
    id,
    says: `${name} sheet of ${columns * rows}, ${columns} across and ${rows} down, ${sizeText(widthMm, heightMm)} each`,
    widthMm,
    heightMm,
    sheet: { paper, columns, rows, pitchXMm: widthMm, pitchYMm: heightMm, ...place },
  };
}

function sizeText(widthMm: number, heightMm: number): string {
  return `${widthMm} × ${heightMm} mm`;
}

export function labelStock(id: string): LabelStock | undefined {
  return LABEL_STOCKS.find((stock) => stock.id === id);
}
