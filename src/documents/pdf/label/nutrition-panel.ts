import type { NutritionPanel, PanelRow } from '../../../labels/nutrition/panel.ts';
import type { FontName, Pdf } from '../document.ts';
import { type Block, beside, bordered, paragraph, stack } from './label-type.ts';

/**
 * A nutrition panel on paper. Sizes of the United States and Canada in points as 21 CFR 101.9(d) describes them,
 * simplified: 8 for nutrients, 6 for notes, calories large, heavy rules between the groups (from memory, verify).
 */
const PANEL_LEAST_WIDTH_MM = 40;

const POINT_MM = 25.4 / 72;
const NUTRIENTS = 8 * POINT_MM;
const SMALL = 6.3 * POINT_MM;
const HEAVY = 7 * POINT_MM;
const MIDDLE = 3 * POINT_MM;
const HAIR = 0.25 * POINT_MM;

export function panelBlock(pdf: Pdf, panel: NutritionPanel): Block {
  const inside = panel.format === 'eu table' ? table(pdf, panel) : facts(pdf, panel);
  return inBox(pdf, inside, PANEL_LEAST_WIDTH_MM);
}

/**
 * The panel of the United States where there is too little height for it: vitamins and minerals side by side, the
 * footnote at the right behind a line (9 CFR 317.309(d)(8), (d)(11)(i)).
 */
export function lowPanelBlock(pdf: Pdf, panel: NutritionPanel): Block {
  const group = panel.rows.findIndex(({ isFirstOfGroup }) => isFirstOfGroup);
  const at = group < 0 ? panel.rows.length : group;
  const main = facts(pdf, { ...panel, rows: panel.rows.slice(0, at), footnotes: [] });
  const vitamins = panel.rows
    .slice(at)
    .map(({ label, amount, dailyValue = '' }) => `${label} ${amount} ${dailyValue}`.trim());
  const left = stack(
    [main, ...(vitamins.length > 0 ? [paragraph(pdf, vitamins.join(' • '), { sizeMm: NUTRIENTS })] : [])],
    0.4,
  );
  const right = stack(
    panel.footnotes.map((note) => paragraph(pdf, note, { sizeMm: SMALL })),
    0.4,
  );
  const both = beside(left, right, LOW_SHARE, LOW_GAP_MM);
  const parted: Block = {
    ...both,
    draw(xMm, yMm, widthMm) {
      both.draw(xMm, yMm, widthMm);
      const lineMm = xMm + (widthMm - LOW_GAP_MM) * LOW_SHARE + LOW_GAP_MM / 2;
      pdf.rect(lineMm, yMm, HAIR, both.heightMm(widthMm)).fill('black');
    },
  };
  return inBox(pdf, parted, LOW_LEAST_WIDTH_MM);
}

/** Of its width, for all but the footnote. */
const LOW_SHARE = 0.72;
const LOW_GAP_MM = 2;
const LOW_LEAST_WIDTH_MM = 56;

function inBox(pdf: Pdf, inside: Block, leastWidthMm: number): Block {
  const framed = bordered(pdf, inside, { lineMm: 0.5 * POINT_MM, paddingMm: 1 });
  return {
    ...framed,
    heightMm: (widthMm) => (widthMm < leastWidthMm ? Number.POSITIVE_INFINITY : framed.heightMm(widthMm)),
  };
}

function facts(pdf: Pdf, panel: NutritionPanel): Block {
  const { serving, energy, columns, rows, footnotes, title } = panel;
  const isCanadian = panel.format === 'canada basic';
  const pair = (left: string, right: string, size: number, face: FontName = 'condensed bold') =>
    ends(pdf, { text: left, size, face }, { text: right, size, face });
  return stack(
    [
      filling(pdf, title),
      rule(pdf, HAIR),
      ...(serving?.count === undefined ? [] : [paragraph(pdf, serving.count, { sizeMm: NUTRIENTS })]),
      ...(serving
        ? [
            isCanadian
              ? paragraph(pdf, serving.size, { sizeMm: NUTRIENTS })
              : pair('Serving size', serving.size, NUTRIENTS),
          ]
        : []),
      rule(pdf, isCanadian ? MIDDLE : HEAVY),
      ...(isCanadian
        ? [pair(energy.label, energy.text, NUTRIENTS * 1.5)]
        : [
            paragraph(pdf, 'Amount per serving', { sizeMm: SMALL, font: 'condensed bold' }),
            ends(
              pdf,
              { text: energy.label, size: 14 * POINT_MM, face: 'condensed bold' },
              { text: energy.text, size: 20 * POINT_MM, face: 'condensed bold' },
            ),
          ]),
      rule(pdf, MIDDLE),
      ...columns.map((head) =>
        paragraph(pdf, head, { sizeMm: SMALL, font: 'condensed bold', align: 'right' }),
      ),
      ...rows.flatMap((row, index) => [
        rule(pdf, row.isFirstOfGroup ? (isCanadian ? MIDDLE : HEAVY) : HAIR),
        nutrientRow(pdf, row, isInGroup(rows, index)),
      ]),
      rule(pdf, isCanadian ? HAIR : HEAVY),
      ...footnotes.map((note) => paragraph(pdf, note, { sizeMm: SMALL })),
    ],
    0.2,
  );
}

/** Vitamins and minerals are not bold. */
function isInGroup(rows: readonly PanelRow[], index: number): boolean {
  return rows.slice(0, index + 1).some(({ isFirstOfGroup }) => isFirstOfGroup);
}

function nutrientRow(pdf: Pdf, { label, amount, dailyValue, level }: PanelRow, isVitamin: boolean): Block {
  const isBold = level === 0 && !isVitamin;
  const indent = level * 2.2;
  const left = paragraph(
    pdf,
    [
      { text: `${label} `, emphasized: isBold },
      { text: amount, emphasized: false },
    ],
    { sizeMm: NUTRIENTS },
  );
  const right = paragraph(pdf, dailyValue ?? '', {
    sizeMm: NUTRIENTS,
    font: isVitamin ? 'condensed' : 'condensed bold',
    align: 'right',
  });
  const share = (widthMm: number) => widthMm - indent - (dailyValue === undefined ? 0 : VALUE_MM);
  return {
    heightMm: (widthMm) => left.heightMm(share(widthMm)),
    draw(xMm, yMm, widthMm) {
      left.draw(xMm + indent, yMm, share(widthMm));
      right.draw(xMm + widthMm - VALUE_MM, yMm, VALUE_MM);
    },
  };
}

/** Room for '100%'. */
const VALUE_MM = 9;

/** Rows of label and figures: energy first, columns as they are headed. */
function table(pdf: Pdf, { title, energy, columns, rows, footnotes }: NutritionPanel): Block {
  const line = (label: string, amount: string, level = 0) => {
    const text = level > 0 ? `– ${label}` : label;
    return ends(
      pdf,
      { text, size: NUTRIENTS, face: 'condensed' },
      { text: amount, size: NUTRIENTS, face: 'condensed' },
    );
  };
  return stack(
    [
      ends(
        pdf,
        { text: title, size: NUTRIENTS, face: 'condensed bold' },
        { text: columns.join(' '), size: NUTRIENTS, face: 'condensed bold' },
      ),
      rule(pdf, MIDDLE / 2),
      line(energy.label, energy.text),
      ...rows.flatMap(({ label, amount, level }) => [rule(pdf, HAIR), line(label, amount, level)]),
      ...footnotes.flatMap((note) => [rule(pdf, HAIR), paragraph(pdf, note, { sizeMm: SMALL })]),
    ],
    0.4,
  );
}

interface End {
  readonly text: string;
  readonly size: number;
  readonly face: FontName;
}

/** A text at the left end and one at the right, on one line; the left one breaks where it must. */
function ends(pdf: Pdf, left: End, right: End): Block {
  const rightMm = pdf.font(right.face, right.size).widthOfString(right.text) + 0.2;
  const block = (end: End, align: 'left' | 'right') =>
    paragraph(pdf, end.text, { sizeMm: end.size, font: end.face, align });
  const [first, second] = [block(left, 'left'), block(right, 'right')];
  const LEFT_LEAST = 12;
  const widths = (widthMm: number) => {
    const r = Math.min(rightMm, widthMm - LEFT_LEAST);
    return [widthMm - r - 1, r] as const;
  };
  return {
    heightMm: (widthMm) => {
      const [l, r] = widths(widthMm);
      return Math.max(first.heightMm(l), second.heightMm(r));
    },
    draw(xMm, yMm, widthMm) {
      const [l, r] = widths(widthMm);
      const height = Math.max(first.heightMm(l), second.heightMm(r));
      first.draw(xMm, yMm + height - first.heightMm(l), l);
      second.draw(xMm + widthMm - r, yMm + height - second.heightMm(r), r);
    },
  };
}

/** A bold line as large as the width lets it be. */
function filling(pdf: Pdf, text: string): Block {
  const perMm = pdf.font('condensed bold', 1).widthOfString(text);
  const sizeAt = (widthMm: number) => Math.min(widthMm / perMm, MOST_TITLE) * 0.995;
  return {
    heightMm: (widthMm) =>
      paragraph(pdf, text, { sizeMm: sizeAt(widthMm), font: 'condensed bold' }).heightMm(widthMm),
    draw: (xMm, yMm, widthMm) =>
      paragraph(pdf, text, { sizeMm: sizeAt(widthMm), font: 'condensed bold' }).draw(xMm, yMm, widthMm),
  };
}

const MOST_TITLE = 9;

function rule(pdf: Pdf, thickMm: number): Block {
  return {
    heightMm: () => thickMm,
    draw: (xMm, yMm, widthMm) => {
      pdf.rect(xMm, yMm, widthMm, thickMm).fill('black');
    },
  };
}
