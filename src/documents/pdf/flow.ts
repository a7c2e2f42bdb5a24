import type { Piece } from './piece.ts';

/** Pieces that belong together: a title, heads that stand again after a page break, and rows. */
export interface Section {
  readonly title?: Piece;
  readonly head?: Piece;
  /** None of them is ever split over two pages. */
  readonly rows: readonly Piece[];
  /** Kept on one page where it fits on one. */
  readonly together?: boolean;
  /** Starts a new page. */
  readonly onNewPage?: boolean;
}

/** Where pieces may stand on a page, from the upper edge. */
export interface Room {
  readonly topPt: number;
  readonly bottomPt: number;
}

/** A piece with its place: pages are counted from 0. */
export interface Placed {
  readonly piece: Piece;
  readonly page: number;
  readonly yPt: number;
}

/** Room between sections. */
const GAP_PT = 8;

/**
 * Finds the place of every piece, one below the other: rows stay whole, heads are repeated on each page that a section
 * goes on to, and a title with its head is never alone at the end of a page.
 */
export function flow(sections: readonly Section[], { topPt, bottomPt }: Room): Placed[] {
  const placed: Placed[] = [];
  let page = 0;
  let yPt = topPt;
  const put = (piece: Piece | undefined) => {
    if (!piece) return;
    placed.push({ piece, page, yPt });
    yPt += piece.heightPt;
  };
  const fits = (heightPt: number) => yPt + heightPt <= bottomPt + ROUNDING_PT;
  const turn = () => {
    page += 1;
    yPt = topPt;
  };
  for (const { title, head, rows, together = false, onNewPage = false } of sections) {
    const openingPt = heightOf(title) + heightOf(head);
    const wholePt = openingPt + rows.reduce((sum, row) => sum + row.heightPt, 0);
    const isWhole = together && wholePt <= bottomPt - topPt;
    if (placed.length > 0 && yPt > topPt) {
      yPt += GAP_PT;
      if (onNewPage || !fits(isWhole ? wholePt : openingPt + heightOf(rows[0]))) turn();
    }
    put(title);
    put(head);
    for (const [index, row] of rows.entries()) {
      if (index > 0 && !fits(row.heightPt)) {
        turn();
        put(head);
      }
      put(row);
    }
  }
  return placed;
}

/** What sums of heights may be off by. */
const ROUNDING_PT = 1e-6;

function heightOf(piece: Piece | undefined): number {
  return piece?.heightPt ?? 0;
}
