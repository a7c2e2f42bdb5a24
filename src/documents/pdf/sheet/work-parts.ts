import { fixed } from '../../../units.ts';
import type { BatchSheet, PickLine, WeighLine } from '../../batch-sheet.ts';
import { boxesText } from '../../batch-sheet-text.ts';
import { CURE_CAUTION } from '../../standing-cautions.ts';
import { plateText } from '../../words/plate.ts';
import type { Words } from '../../words/words.ts';
import type { Section } from '../flow.ts';
import { type Ink, type Style, widthPt as textPt, write } from '../ink.ts';
import { beside, type Cell, framed, type Piece, padded, paragraph, stacked } from '../piece.ts';
import { type Column, tableHead, tableRow } from '../table.ts';
import { cautionCell, sectionTitle } from './floor-parts.ts';
import {
  type Loads,
  loadBoxes,
  loadBoxesPt,
  loadRows,
  stepBoxes,
  stepBoxesPt,
  tickBox,
} from './tick-boxes.ts';

/** What the floor does: fetch, weigh, grind and mix, with a box for everything that is done. */

const NAME: Style = { font: 'condensed bold', sizePt: 10 };
const SMALL: Style = { font: 'condensed', sizePt: 7 };
const TEXT: Style = { font: 'condensed', sizePt: 9 };
const STEP: Style = { font: 'condensed', sizePt: 10 };
const LOUD: Style = { font: 'condensed bold', sizePt: 9 };
const FETCH: Style = { font: 'condensed bold', sizePt: 11.5 };
const BOX_PT = 19;
const NUMBER_PT = 22;

/** Columns of so many points; the one without a width takes what is left. */
function columnsIn(
  roomPt: number,
  columns: readonly (Omit<Column, 'widthPt'> & { widthPt?: number })[],
): Column[] {
  const takenPt = columns.reduce((sum, { widthPt = 0 }) => sum + widthPt, 0);
  return columns.map((column) => ({ ...column, widthPt: column.widthPt ?? roomPt - takenPt }));
}

export function pickPart(ink: Ink, sheet: BatchSheet, { say }: Words, widthPt: number): Section[] {
  if (sheet.pick.length === 0) return [];
  const columns = columnsIn(widthPt, [
    { title: '', widthPt: BOX_PT },
    { title: say('Lot'), widthPt: 80 },
    { title: say('Material') },
    { title: say('fetch'), widthPt: 74, align: 'right' },
    { title: say('boxes'), widthPt: 68 },
    { title: say('use by'), widthPt: 58 },
    { title: say('place'), widthPt: 72 },
  ]);
  const row = (line: PickLine): Cell[] => [
    tickBox(ink),
    paragraph(ink, line.lotId, NAME),
    stacked(
      paragraph(ink, line.material, TEXT),
      paragraph(ink, line.state === 'frozen' ? say('frozen: temper first') : '', LOUD),
      paragraph(ink, supplierText(line, say), SMALL),
    ),
    paragraph(ink, line.fetch, FETCH, 'right'),
    paragraph(ink, line.boxes ? boxesText(line.boxes, sheet.units) : '', TEXT),
    paragraph(ink, line.useByDate ?? '', TEXT),
    paragraph(ink, line.location ?? '', TEXT),
  ];
  return [
    {
      title: sectionTitle(ink, say('LOTS TO PICK (whole batch)'), widthPt),
      head: tableHead(ink, columns),
      rows: sheet.pick.map((line) => tableRow(ink, columns, row(line))),
    },
  ];
}

function supplierText({ supplierEstablishment, supplierLot }: PickLine, say: Words['say']): string {
  return [
    ...(supplierEstablishment === undefined ? [] : [`${say('from Est.')} ${supplierEstablishment}`]),
    ...(supplierLot === undefined ? [] : [`${say('their lot')} ${supplierLot}`]),
  ].join(', ');
}

export function weighPart(ink: Ink, sheet: BatchSheet, words: Words, widthPt: number): Section[] {
  const { say } = words;
  const { loads } = sheet.batch;
  const columns = columnsIn(widthPt, [
    { title: '', widthPt: BOX_PT },
    { title: '#', widthPt: NUMBER_PT, align: 'right' },
    { title: say('Material') },
    ...(loads === 1
      ? [{ title: say('weigh'), widthPt: 95, align: 'right' } as const, { title: '', widthPt: 54 }]
      : [{ title: say('weigh'), widthPt: 116, align: 'right' } as const]),
    {
      title: say(loads === 1 ? 'What was weighed' : 'What was weighed, each load'),
      widthPt: loadBoxesPt(loads) + 10,
    },
  ]);
  const title =
    loads === 1
      ? say('WEIGH INTO EACH LOAD (1 load)')
      : say('WEIGH INTO EACH LOAD ({count} equal loads)', { count: loads });
  const besideLine = (line: WeighLine) =>
    sheet.cautions.filter(
      (caution) => (line.cure && caution === CURE_CAUTION) || isAboutWeight(caution, line),
    );
  // A sheet that was stored before lines told which of them is the cure.
  const isUntold = sheet.cautions.includes(CURE_CAUTION) && !sheet.weigh.some(({ cure }) => cure);
  return [
    {
      title: sectionTitle(ink, title, widthPt),
      head: tableHead(ink, columns),
      rows: [
        ...(isUntold ? [padded(strongCaution(ink, words.told(CURE_CAUTION)), { topPt: 2 })(widthPt)] : []),
        ...sheet.weigh.flatMap((line) =>
          loadRows(loads).map((some) => {
            const row = tableRow(ink, columns, weighCells(ink, sheet, line, some, words));
            return withCautions(ink, row, besideLine(line).map(words.told), widthPt);
          }),
        ),
      ],
    },
  ];
}

/** A caution about what the scale can show of this very weight. */
function isAboutWeight(caution: string, { material, weight, unit }: WeighLine): boolean {
  return caution.startsWith(`${material}: ${weight} ${unit} is only `);
}

function withCautions(ink: Ink, row: Piece, cautions: readonly string[], widthPt: number): Piece {
  if (cautions.length === 0) return row;
  const below = cautions.map((text) =>
    padded(strongCaution(ink, text), { topPt: 2, bottomPt: 3, leftPt: BOX_PT + NUMBER_PT }),
  );
  return stacked(() => row, ...below)(widthPt);
}

function strongCaution(ink: Ink, text: string): Cell {
  return framed(ink, cautionCell(ink, text, LOUD), 1.2, 3);
}

function weighCells(
  ink: Ink,
  { batch }: BatchSheet,
  line: WeighLine,
  some: Loads,
  { say, told }: Words,
): Cell[] {
  // The weight once more in the other system: scales of both stand on one floor.
  const other = line.unit === 'lb' || line.unit === 'oz' ? 'kg' : 'lb';
  const drafts = line.drafts > 1 ? `, ${say('in {count} drafts', { count: line.drafts })}` : '';
  const asked = line.asked === undefined ? '' : ` · ${say('asked')}: ${told(line.asked)}`;
  const lot = line.lotId === undefined ? say('no lot kept') : `${say('Lot')} ${line.lotId}`;
  const how = `${say('on')} ${line.scale}${drafts}${asked}`;
  const figure = bigFigure(ink, line.weight, line.unit);
  const also = `(${fixed(line.perLoad[other], 4)} ${other})`;
  // One load leaves room across: a low row, so that the whole table stands on the first page.
  const isLow = batch.loads === 1;
  return [
    tickBox(ink),
    paragraph(ink, String(line.number), NAME, 'right'),
    isLow
      ? stacked(nameAndLot(ink, line.material, lot), paragraph(ink, how, SMALL))
      : stacked(paragraph(ink, line.material, NAME), paragraph(ink, `${lot} · ${how}`, SMALL)),
    ...(isLow
      ? [figure, padded(paragraph(ink, also, SMALL), { topPt: 7 })]
      : [stacked(figure, paragraph(ink, also, SMALL, 'right'))]),
    loadBoxes(ink, some, isLow),
  ];
}

/** The lot behind the name where both have room on one line, or else below it. */
function nameAndLot(ink: Ink, name: string, lot: string): Cell {
  const GAP_PT = 8;
  return (roomPt) => {
    const namePt = textPt(ink, name, NAME) + GAP_PT;
    const named = paragraph(ink, name, NAME);
    const lotted = paragraph(ink, lot, SMALL);
    if (namePt + textPt(ink, lot, SMALL) > roomPt) return stacked(named, lotted)(roomPt);
    return beside([
      { cell: named, widthPt: namePt },
      { cell: padded(lotted, { topPt: 2.5 }), widthPt: roomPt - namePt },
    ]);
  };
}

const BIG_PT = 19;
const UNIT: Style = { font: 'condensed bold', sizePt: 11 };

/** A weight to be read across the table, as large as the column allows. */
function bigFigure(ink: Ink, figure: string, unit: string): Cell {
  return (roomPt) => {
    const unitPt = textPt(ink, ` ${unit}`, UNIT);
    const widthAt = (sizePt: number) => textPt(ink, figure, { font: 'bold', sizePt });
    const sizePt = Math.min(BIG_PT, (BIG_PT * (roomPt - unitPt)) / widthAt(BIG_PT));
    const style: Style = { font: 'bold', sizePt };
    return {
      heightPt: BIG_PT * 1.02,
      draw: (xPt, yPt) => {
        const leftPt = xPt + roomPt - unitPt - widthAt(sizePt);
        write(ink, figure, leftPt, yPt - 2 + (BIG_PT - sizePt) * 0.8, style);
        write(ink, ` ${unit}`, leftPt + widthAt(sizePt), yPt - 2 + (BIG_PT - UNIT.sizePt) * 0.9, UNIT);
      },
    };
  };
}

export function workPart(
  ink: Ink,
  { grindPlates, mixing, stuffInto, batch }: BatchSheet,
  { say, told }: Words,
  widthPt: number,
): Section[] {
  const steps = mixing.map(told);
  const all = stuffInto === undefined ? steps : [...steps, say('Stuff into {casing}', { casing: stuffInto })];
  const boxesPt = stepBoxesPt(batch.loads);
  const numbered = all.map((step, index) =>
    padded(
      (roomPt) =>
        beside([
          { cell: stepBoxes(ink, batch.loads), widthPt: boxesPt },
          {
            cell: padded(paragraph(ink, `${index + 1}. ${step}`, STEP), { topPt: 1 }),
            widthPt: roomPt - boxesPt,
          },
        ]),
      { bottomPt: 3 },
    )(widthPt),
  );
  const plates = grindPlates.map((plate) => `☐ ${plateText(plate, say)}`).join(' → ');
  const rows = [
    ...(plates === ''
      ? []
      : [padded(paragraph(ink, `${say('Plates')}: ${plates}`, STEP), { bottomPt: 4 })(widthPt)]),
    ...numbered,
  ];
  return rows.length === 0
    ? []
    : [{ title: sectionTitle(ink, say('GRIND AND MIX'), widthPt), rows, together: true }];
}
