import { type Ink, type Style, widthPt, write } from '../ink.ts';
import { type Cell, lineAcross } from '../piece.ts';

const BOX: Style = { font: 'regular', sizePt: 15 };
const SMALL_BOX: Style = { font: 'regular', sizePt: 12 };
const NUMBER: Style = { font: 'condensed bold', sizePt: 7 };

/** An empty box to tick, as a sign that text readers find too. */
export function tickBox(ink: Ink): Cell {
  return () => ({ heightPt: 15, draw: (xPt, yPt) => write(ink, '☐', xPt, yPt - 1.5, BOX) });
}

/** Room for what was weighed into one load: at least so wide, at most so wide. */
const ROOM_PT = { least: 54, most: 76, height: 21 };

/** How wide a column is that holds the boxes of so many loads, side by side as far as there is room. */
export function loadBoxesPt(loads: number): number {
  return Math.min(loads, 4) * ROOM_PT.least + (loads === 1 ? ROOM_PT.most - ROOM_PT.least : 0);
}

/** Boxes of so many loads fit on every paper; a line of more loads takes rows more. */
const MOST_LOADS = 48;

/** Loads in turn, as many as have their boxes in one row of the table. */
export function loadRows(loads: number): Loads[] {
  return Array.from({ length: Math.ceil(loads / MOST_LOADS) }, (_, row) => ({
    first: row * MOST_LOADS + 1,
    last: Math.min(loads, (row + 1) * MOST_LOADS),
  }));
}

export interface Loads {
  readonly first: number;
  readonly last: number;
}

/** For each load a box and a line to write the weight on that the scale showed. @param isOnly no number then. */
export function loadBoxes(ink: Ink, { first, last }: Loads, isOnly: boolean): Cell {
  const count = last - first + 1;
  return (roomPt) => {
    const across = Math.max(1, Math.min(count, Math.floor(roomPt / ROOM_PT.least)));
    const stepPt = roomPt / across;
    return {
      heightPt: Math.ceil(count / across) * ROOM_PT.height,
      draw: (xPt, yPt) => {
        for (let at = 0; at < count; at++) {
          const leftPt = xPt + (at % across) * stepPt;
          const topPt = yPt + Math.floor(at / across) * ROOM_PT.height;
          const number = isOnly ? '' : String(first + at);
          write(ink, number, leftPt, topPt + 4, NUMBER);
          const boxPt = leftPt + (isOnly ? 0 : 3 + Math.max(7, widthPt(ink, number, NUMBER)));
          write(ink, '☐', boxPt, topPt - 1, BOX);
          const linePt = boxPt + 14;
          lineAcross(ink, linePt, topPt + ROOM_PT.height - 4, leftPt + stepPt - linePt - 3);
        }
      },
    };
  };
}

/** One small box for each load, for a step that is done once with each. */
export function stepBoxes(ink: Ink, loads: number): Cell {
  const eachPt = 26;
  return (roomPt) => {
    const across = Math.max(1, Math.min(loads, Math.floor(roomPt / eachPt)));
    return {
      heightPt: Math.ceil(loads / across) * 15,
      draw: (xPt, yPt) => {
        for (let load = 0; load < loads; load++) {
          const leftPt = xPt + (load % across) * eachPt;
          const topPt = yPt + Math.floor(load / across) * 15;
          const number = loads === 1 ? '' : String(load + 1);
          write(ink, number, leftPt, topPt + 3, NUMBER);
          write(ink, '☐', leftPt + widthPt(ink, number, NUMBER) + 1, topPt - 0.5, SMALL_BOX);
        }
      },
    };
  };
}

/** How wide the boxes of a step are for so many loads. */
export function stepBoxesPt(loads: number): number {
  return Math.min(loads, loads > MOST_LOADS ? 12 : 6) * 26 + 6;
}
