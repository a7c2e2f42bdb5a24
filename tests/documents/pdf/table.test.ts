import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pdfOf } from '../../../src/documents/pdf/document.ts';
import { type Ink, inkOf, linesOf, type Style, widthPt } from '../../../src/documents/pdf/ink.ts';
import { textTable } from '../../../src/documents/pdf/table.ts';

const STYLE: Style = { font: 'condensed', sizePt: 8 };

/** Looks at something while a PDF is open: what is measured needs its fonts. */
async function withInk(look: (ink: Ink) => void): Promise<void> {
  await pdfOf({ title: 'Measured', day: '2026-11-25', language: 'en', widthMm: 100, heightMm: 100 }, (pdf) =>
    look(inkOf(pdf)),
  );
}

describe('the lines of a text', () => {
  it('hold all of it in order, and each fits its room', async () => {
    const word = fc.string({ unit: fc.constantFrom(...'abcWé-./0%☐'), minLength: 1, maxLength: 30 });
    await withInk((ink) =>
      fc.assert(
        fc.property(fc.array(word, { maxLength: 12 }), fc.integer({ min: 15, max: 200 }), (words, roomPt) => {
          const lines = linesOf(ink, words.join(' '), STYLE, roomPt);
          expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
          for (const line of lines) expect(widthPt(ink, line, STYLE)).toBeLessThanOrEqual(roomPt + 1e-6);
        }),
        { numRuns: 60 },
      ),
    );
  });

  it('keep a percent sign with its figure', async () => {
    await withInk((ink) => {
      const roomPt = widthPt(ink, 'not more than 30 ', STYLE);
      expect(linesOf(ink, 'not more than 30 % of it', STYLE, roomPt)).toEqual([
        'not more than',
        '30 % of it',
      ]);
    });
  });
});

describe('a table of texts', () => {
  const ROOM_PT = 400;
  const MOST_PT = 100;

  it('takes the whole width, and no row is higher than a page allows', async () => {
    const text = fc.string({ unit: fc.constantFrom(...'ab 0'), maxLength: 600 });
    const rows = fc.array(fc.array(text, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 4 });
    await withInk((ink) =>
      fc.assert(
        fc.property(rows, (texts) => {
          const table = textTable(ink, { titles: ['One', 'Two', 'Three'], rows: texts }, ROOM_PT, MOST_PT);
          for (const { heightPt } of table.rows) expect(heightPt).toBeLessThanOrEqual(MOST_PT);
          expect(table.rows.length).toBeGreaterThanOrEqual(texts.length);
        }),
        { numRuns: 40 },
      ),
    );
  });
});
