import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flow, type Section } from '../../../src/documents/pdf/flow.ts';
import type { Piece } from '../../../src/documents/pdf/piece.ts';

const ROOM = { topPt: 40, bottomPt: 240 };
const piece = (heightPt: number): Piece => ({ heightPt, draw: () => {} });
const height = fc.integer({ min: 1, max: 60 }).map(piece);

const anySection: fc.Arbitrary<Section> = fc.record(
  {
    title: height,
    head: height,
    rows: fc.array(height, { minLength: 1, maxLength: 12 }),
    together: fc.boolean(),
    onNewPage: fc.boolean(),
  },
  { requiredKeys: ['rows'] },
);

describe('pieces on pages', () => {
  it('are all there, in order, whole and within the page', () => {
    fc.assert(
      fc.property(fc.array(anySection, { minLength: 1, maxLength: 6 }), (sections) => {
        const placed = flow(sections, ROOM);
        const rows = sections.flatMap((section) => section.rows);
        expect(placed.filter(({ piece: one }) => rows.includes(one)).map(({ piece: one }) => one)).toEqual(
          rows,
        );
        let [page, endPt] = [0, ROOM.topPt];
        for (const one of placed) {
          if (one.page > page) [page, endPt] = [page + 1, ROOM.topPt];
          expect(one.page).toBe(page);
          expect(one.yPt).toBeGreaterThanOrEqual(endPt);
          endPt = one.yPt + one.piece.heightPt;
          expect(endPt).toBeLessThanOrEqual(ROOM.bottomPt + 1e-6);
        }
      }),
    );
  });

  it('have their head above them on every page, and a title never stands without a row under it', () => {
    fc.assert(
      fc.property(fc.array(anySection, { minLength: 1, maxLength: 6 }), (sections) => {
        const placed = flow(sections, ROOM);
        for (const { title, head, rows } of sections) {
          const pages = new Set(
            placed.filter(({ piece: one }) => rows.includes(one)).map(({ page }) => page),
          );
          const pagesOf = (wanted: Piece | undefined) =>
            placed.filter(({ piece: one }) => one === wanted).map(({ page }) => page);
          if (head) expect(pagesOf(head)).toEqual([...pages]);
          if (title) expect(pagesOf(title)).toEqual([...pages].slice(0, 1));
        }
      }),
    );
  });

  it('of a section that stays together share a page when they fit on one', () => {
    const rows = [piece(60), piece(60), piece(60)];
    const placed = flow([{ rows: [piece(50)] }, { title: piece(10), rows, together: true }], ROOM);
    expect(placed.map(({ page }) => page)).toEqual([0, 1, 1, 1, 1]);
  });
});
