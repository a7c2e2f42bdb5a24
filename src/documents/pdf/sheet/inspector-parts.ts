import { sourceOf } from '../../../rules/limit.ts';
import { fixed } from '../../../units.ts';
import type { BatchSheet } from '../../batch-sheet.ts';
import { noneOf, proofRows } from '../../proof-rows.ts';
import type { Phrase, Words } from '../../words/words.ts';
import type { Section } from '../flow.ts';
import { type Ink, type Style, widthPt as textPt } from '../ink.ts';
import { beside, type Cell, type Piece, padded, paragraph, paragraphPieces, stacked } from '../piece.ts';
import { textTable } from '../table.ts';

interface Room {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly withCost: boolean;
}

const TEXT: Style = { font: 'condensed', sizePt: 7 };
const SMALL: Style = { font: 'condensed', sizePt: 6.3 };
const PART: Style = { font: 'bold', sizePt: 10 };
const TITLE: Style = { font: 'bold', sizePt: 8 };

function sectionTitle(ink: Ink, text: string, widthPt: number): Piece {
  return padded(paragraph(ink, text, TITLE), { bottomPt: 1 })(widthPt);
}

/** What the inspector and the file want to see: every limit with its figure, its bound and where it stands. */
export function inspectorParts(ink: Ink, sheet: BatchSheet, words: Words, room: Room): Section[] {
  const { say, told } = words;
  const { widthPt, withCost } = room;
  const texts = (title: Phrase, lines: readonly string[], roomPt = widthPt): Section[] =>
    lines.length === 0
      ? []
      : [
          {
            title: sectionTitle(ink, say(title), roomPt),
            rows: lines.flatMap((line) => paragraphPieces(ink, line, TEXT, roomPt)),
          },
        ];
  const notes = (roomPt: number) => [
    ...texts(
      'NEEDS A LABORATORY TEST (not shown by the weights)',
      sheet.laboratory.map((line) => `☐ ${line.says} (${sourceOf(line)})`),
      roomPt,
    ),
    ...texts(
      'LEFT OUT',
      sheet.leftOut.map(({ supplyId, material, because }) => `${supplyId}  ${material}: ${told(because)}`),
      roomPt,
    ),
    ...texts('HOW SURE, as far as the fat of the lots is known', sheet.howSure, roomPt),
  ];
  const language =
    words.language === 'en' ? '' : say('Limits and citations stand in English, as they were read.');
  const [first, ...rest] = limitParts(ink, sheet, words, room);
  const opening: Cell = stacked(
    (roomPt) => besideTitle(ink, say('FOR THE INSPECTOR AND THE FILE'), language, roomPt),
    () => first?.title ?? paragraph(ink, '', TEXT)(widthPt),
  );
  return [
    { ...(first ?? { rows: [] }), title: opening(widthPt) },
    ...rest,
    ...texts(
      'SWITCHED OFF BY THE HOUSE',
      sheet.switchedOff.map(
        ({ says, citation, reason, found }) => `${says} (${citation}) Reason: ${reason} Found: ${found}.`,
      ),
    ),
    ...withNotes((roomPt) => makeupPart(ink, sheet, words, { ...room, widthPt: roomPt }), notes, widthPt),
    ...(withCost ? texts('COST', costLines(sheet, words)) : []),
  ];
}

/** A note on the line of the title. */
function besideTitle(ink: Ink, title: string, note: string, roomPt: number): Piece {
  const titlePt = textPt(ink, title, PART) + 10;
  return beside([
    { cell: paragraph(ink, title, PART), widthPt: titlePt },
    { cell: padded(paragraph(ink, note, TEXT), { topPt: 3 }), widthPt: roomPt - titlePt },
  ]);
}

/** Shares of the width for the make-up and for the notes beside it. */
const MAKEUP = 0.34;
const BETWEEN = 0.03;
/** Higher notes stand below: a row is never split over two pages. */
const MOST_BESIDE_PT = 130;

/** The make-up, a low table, with the notes to its right where they are short, or else below it. */
function withNotes(
  makeup: (roomPt: number) => Section,
  notes: (roomPt: number) => Section[],
  widthPt: number,
): Section[] {
  const notesPt = widthPt * (1 - MAKEUP - BETWEEN);
  const right = onePiece(notes(notesPt), notesPt);
  if (right.heightPt > MOST_BESIDE_PT) return [makeup(widthPt / 2), ...notes(widthPt)];
  const left = onePiece([makeup(widthPt * MAKEUP)], widthPt * MAKEUP);
  return [
    {
      rows: [
        beside([
          { cell: () => left, widthPt: widthPt * (MAKEUP + BETWEEN) },
          { cell: () => right, widthPt: notesPt },
        ]),
      ],
    },
  ];
}

/** Sections one below the other that stay together. */
function onePiece(sections: readonly Section[], roomPt: number): Piece {
  const pieces = sections.map(({ title, head, rows }, index) =>
    padded(stacked(...[title, head, ...rows].flatMap((piece) => (piece ? [() => piece] : []))), {
      topPt: index > 0 ? 6 : 0,
    }),
  );
  return stacked(...pieces)(roomPt);
}

function limitParts(
  ink: Ink,
  sheet: BatchSheet,
  { say }: Words,
  { widthPt, heightPt, withCost }: Room,
): Section[] {
  const { touched, absent } = proofRows(sheet);
  // A target of cost is a price.
  const rows = touched.filter(({ line }) => withCost || line.unit !== 'price per kg');
  const table = textTable(
    ink,
    {
      titles: ['', 'What', 'found', 'limit', 'room', 'of', 'rule'],
      rows: rows.map(({ line, found, limit, room, rule }) => [
        line.holds ? '✓' : 'NO',
        line.what,
        found,
        limit,
        room,
        line.basis,
        rule,
      ]),
    },
    widthPt,
    heightPt,
    true,
  );
  const title = sectionTitle(ink, say('LIMITS, checked on the weights above'), widthPt);
  return [
    ...(rows.length > 0 ? [{ ...table, title, together: true }] : [{ title, rows: [] }]),
    ...(absent.length > 0 ? [{ rows: paragraphPieces(ink, noneOf(absent), SMALL, widthPt) }] : []),
  ];
}

function makeupPart(
  ink: Ink,
  { makeup: { raw, finished } }: BatchSheet,
  { say }: Words,
  room: Room,
): Section {
  const row = (title: string, makeup: typeof raw) => [
    title,
    ...[makeup.fatFraction, makeup.waterFraction, makeup.proteinFraction, makeup.saltFraction].map(
      (fraction) => fixed(fraction * 100, 2),
    ),
  ];
  const table = textTable(
    ink,
    {
      titles: [say('percent'), say('fat'), say('moisture'), say('protein'), say('salt added')],
      rows: [row(say('raw'), raw), row(say('finished'), finished)],
    },
    room.widthPt,
    room.heightPt,
    true,
  );
  return { ...table, title: sectionTitle(ink, say('MAKE-UP'), room.widthPt), together: true };
}

function costLines({ cost, currency }: BatchSheet, { say }: Words): string[] {
  const money = (amount: number) => `${fixed(amount, 4)} ${currency}`;
  return [
    say('Batch {cost}', { cost: `${fixed(cost.batch, 2)} ${currency}` }),
    say('Raw {lb} per lb, {kg} per kg', { lb: money(cost.perLbRaw), kg: money(cost.perKgRaw) }),
    say('Finished {lb} per lb, {kg} per kg', {
      lb: money(cost.perLbFinished),
      kg: money(cost.perKgFinished),
    }),
    ...cost.notes,
  ];
}
