import { sourceOf } from '../../rules/limit.ts';
import { fixed } from '../../units.ts';
import type { BatchSheet } from '../batch-sheet.ts';
import { noneOf, proofRows } from '../proof-rows.ts';
import type { Phrase, Words } from '../words/words.ts';
import { sectionTitle } from './floor-parts.ts';
import type { Section } from './flow.ts';
import type { Ink, Style } from './ink.ts';
import { type Cell, paragraph, paragraphPieces, stacked } from './piece.ts';
import { textTable } from './table.ts';

interface Room {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly withCost: boolean;
}

const TEXT: Style = { font: 'condensed', sizePt: 7.5 };
const SMALL: Style = { font: 'condensed', sizePt: 6.8 };
const PART: Style = { font: 'bold', sizePt: 11 };

/** What the inspector and the file want to see: every limit with its figure, its bound and where it stands. */
export function inspectorParts(ink: Ink, sheet: BatchSheet, words: Words, room: Room): Section[] {
  const { say, told } = words;
  const { widthPt, withCost } = room;
  const texts = (title: Phrase, lines: readonly string[]): Section[] =>
    lines.length === 0
      ? []
      : [
          {
            title: sectionTitle(ink, say(title), widthPt),
            rows: lines.flatMap((line) => paragraphPieces(ink, line, TEXT, widthPt)),
          },
        ];
  const language =
    words.language === 'en' ? '' : say('Limits and citations stand in English, as they were read.');
  const [first, ...rest] = limitParts(ink, sheet, words, room);
  const opening: Cell = stacked(
    paragraph(ink, say('FOR THE INSPECTOR AND THE FILE'), PART),
    paragraph(ink, language, TEXT),
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
    ...texts(
      'NEEDS A LABORATORY TEST (not shown by the weights)',
      sheet.laboratory.map((line) => `☐ ${line.says} (${sourceOf(line)})`),
    ),
    ...makeupPart(ink, sheet, words, room),
    ...texts(
      'LEFT OUT',
      sheet.leftOut.map(({ supplyId, material, because }) => `${supplyId}  ${material}: ${told(because)}`),
    ),
    ...texts('HOW SURE, as far as the fat of the lots is known', sheet.howSure),
    ...(withCost ? texts('COST', costLines(sheet, words)) : []),
  ];
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
): Section[] {
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
    room.widthPt / 2,
    room.heightPt,
  );
  return [{ ...table, title: sectionTitle(ink, say('MAKE-UP'), room.widthPt), together: true }];
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
