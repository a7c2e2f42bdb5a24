import { fixed } from '../../../units.ts';
import type { BatchSheet, BothUnits } from '../../batch-sheet.ts';
import { ALLERGENS_HELD, CURE_CAUTION } from '../../standing-cautions.ts';
import { type Phrase, type Words, wordsIn } from '../../words/words.ts';
import { flow, type Section } from '../flow.ts';
import type { Ink, Style } from '../ink.ts';
import { framedPages, type Printed } from '../page-frame.ts';
import { beside, type Cell, type Piece, padded, paragraph, stacked } from '../piece.ts';
import { cautionsPart, fillInPart } from './floor-parts.ts';
import { inspectorParts } from './inspector-parts.ts';
import { pickPart, weighPart, workPart } from './work-parts.ts';

export interface SheetPrinted extends Printed {
  /** SHA-256 of the sheet as JSON, the name under which the record keeps it. */
  readonly hash: string;
  /** A sheet for the floor shows no prices. */
  readonly withCost: boolean;
  /** Known once the batch is planned. */
  readonly batchId?: string | undefined;
}

/** The batch sheet on paper: what the floor does and writes down first, then what the inspector looks at. */
export function batchSheetPaper(sheet: BatchSheet, printed: SheetPrinted): Promise<Uint8Array> {
  const { plant, product, date } = sheet;
  const words = wordsIn(printed.language);
  const subject = [printed.batchId, date, product.name].filter(Boolean).join(' · ');
  return framedPages(
    {
      ...printed,
      plant: plant.name,
      establishment: plant.establishment,
      title: words.say('BATCH SHEET'),
      subject,
      day: date,
    },
    (ink, { widthPt, heightPt }): readonly Section[] => {
      const framed = (some: readonly string[]) => cautionsPart(ink, some, words, widthPt);
      return bestOrder(
        {
          title: [{ rows: titleRows(ink, sheet, words, printed.batchId, widthPt) }],
          cautions: framed(sheet.cautions),
          early: framed(sheet.cautions.filter(isReadFirst)),
          late: framed(sheet.cautions.filter((one) => !isReadFirst(one) && one !== CURE_CAUTION)),
          pick: pickPart(ink, sheet, words, widthPt),
          weigh: weighPart(ink, sheet, words, widthPt),
          work: [
            ...workPart(ink, sheet, words, widthPt),
            ...fillInPart(ink, sheet, words, printed.batchId, widthPt),
          ],
          inspector: inspectorParts(ink, sheet, words, { widthPt, heightPt, withCost: printed.withCost }),
        },
        heightPt,
      );
    },
  );
}

/** Whoever has weighed already reads it too late. */
function isReadFirst(caution: string): boolean {
  return caution.startsWith(ALLERGENS_HELD);
}

type Parts = Readonly<
  Record<
    'title' | 'cautions' | 'early' | 'late' | 'pick' | 'weigh' | 'work' | 'inspector',
    readonly Section[]
  >
>;

/**
 * The order that takes the fewest pages, and of those one that keeps the table of weights on the first page. Cautions
 * come before all work; or else those that can wait come before the grinding, for that of the cure stands beside its line. The inspector's
 * part begins a page of its own where that costs none.
 */
function bestOrder(parts: Parts, heightPt: number) {
  const { title, cautions, early, late, pick, weigh, work, inspector } = parts;
  const ownPage = inspector.map((section, index) =>
    index === 0 ? { ...section, onNewPage: true } : section,
  );
  const orders = [ownPage, inspector].flatMap((last): Section[][] => [
    [...title, ...cautions, ...pick, ...weigh, ...work, ...last],
    [...title, ...early, ...pick, ...weigh, ...late, ...work, ...last],
  ]);
  const weighRows = new Set(weigh.flatMap(({ rows }) => rows));
  const judged = orders.map((sections) => {
    const placed = flow(sections, { topPt: 0, bottomPt: heightPt });
    const pages = (placed.at(-1)?.page ?? 0) + 1;
    const weighOn = Math.max(
      0,
      ...placed.filter(({ piece }) => weighRows.has(piece)).map(({ page }) => page),
    );
    return { sections, pages, weighOn };
  });
  return judged.reduce((best, one) =>
    one.pages < best.pages || (one.pages === best.pages && one.weighOn < best.weighOn) ? one : best,
  ).sections;
}

const NAME: Style = { font: 'bold', sizePt: 17 };
const LABEL: Style = { font: 'condensed', sizePt: 7 };
const FACT: Style = { font: 'condensed bold', sizePt: 9.5 };
const SMALL: Style = { font: 'condensed', sizePt: 7 };
/** Facts beside each other: as many as there are, within these. */
const ACROSS = { least: 6, most: 8 };

interface Fact {
  readonly label: Phrase;
  readonly value: string;
  readonly also?: string;
}

function titleRows(
  ink: Ink,
  sheet: BatchSheet,
  { say }: Words,
  batchId: string | undefined,
  widthPt: number,
): Piece[] {
  const { product, standard, date, batch, units } = sheet;
  const other = units === 'lb' ? 'kg' : 'lb';
  const mass = (label: Phrase, both: BothUnits): Fact => ({
    label,
    value: `${fixed(both[units], 2)} ${units}`,
    also: `(${fixed(both[other], 2)} ${other})`,
  });
  const facts: readonly Fact[] = [
    ...(batchId === undefined ? [] : [{ label: 'Batch number', value: batchId } as const]),
    { label: 'Date', value: date },
    mass('Batch', batch.total),
    { label: 'Loads', value: String(batch.loads) },
    ...(batch.loads === 1 ? [] : [mass('Each load', batch.load)]),
    mass('Green weight', batch.greenWeight),
    ...(batch.finished.kg === batch.total.kg ? [] : [mass('Finished, expected', batch.finished)]),
    ...(batch.pieces === undefined
      ? []
      : [{ label: 'Pieces', value: `${say('about')} ${batch.pieces}` } as const]),
  ];
  const factCell = ({ label, value, also = '' }: Fact): Cell =>
    padded(
      stacked(paragraph(ink, say(label), LABEL), paragraph(ink, value, FACT), paragraph(ink, also, SMALL)),
      { rightPt: 4, bottomPt: 3 },
    );
  const across = Math.max(ACROSS.least, Math.min(ACROSS.most, facts.length));
  const rows = Array.from({ length: Math.ceil(facts.length / across) }, (_, row) =>
    beside(
      facts
        .slice(row * across, (row + 1) * across)
        .map((fact) => ({ cell: factCell(fact), widthPt: widthPt / across })),
    ),
  );
  const rule = `${say('Standard')}: ${standard.says} (${standard.citation}). ${say('Rules')}: ${standard.edition}.`;
  return [
    padded(paragraph(ink, product.name, NAME), { bottomPt: 3 })(widthPt),
    ...rows,
    paragraph(ink, rule, SMALL)(widthPt),
  ];
}
