import { LabelRefused } from '../../../labels/packs/label-refused.ts';
import type { PackLabel } from '../../../labels/packs/pack-label.ts';
import type { Pdf } from '../document.ts';
import {
  headBlock,
  identityBlock,
  type Oval,
  safeHandlingBlock,
  tareBlocks,
  textBlocks,
} from './label-blocks.ts';
import { feetOf } from './label-foot.ts';
import type { LabelPart } from './label-part.ts';
import { LABEL_STOCKS, type LabelStock } from './label-stock.ts';
import { type Block, beside, inMm, LEAST_SIZE_MM, stack } from './label-type.ts';
import { lowPanelBlock, panelBlock } from './nutrition-panel.ts';

/** Draws a label with its upper left corner here, in millimetres. */
export type DrawLabel = (xMm: number, yMm: number) => void;

/**
 * Lays a label out on a stock: in the largest type that fits, never below the smallest that may be printed, nothing cut.
 * @throws LabelRefused naming the stocks on which it would fit, and whether it would in two parts.
 */
export function laidOut(pdf: Pdf, label: PackLabel, stock: LabelStock, part: LabelPart): DrawLabel {
  const way = wayOf(pdf, label, stock, part);
  for (const scale of way ? SCALES : []) {
    const done = way && fitted(pdf, label, stock, way, scale);
    if (done) return done;
  }
  const what = part === 'whole' ? 'label' : `${part} label`;
  throw new LabelRefused([
    `The ${what} of ${label.name} does not fit on ${stock.id} (${stock.widthMm} × ${stock.heightMm} mm) in type that may be printed, which is ${(25.4 / 16).toFixed(1)} mm high at least. ${helpFor(pdf, label, part)}`,
  ]);
}

/** The stocks on which it fits; for a label in one piece also those on which each of its parts does. */
function helpFor(pdf: Pdf, label: PackLabel, part: LabelPart): string {
  const stocksOf = (wanted: LabelPart) =>
    LABEL_STOCKS.filter((stock) => wayOf(pdf, label, stock, wanted)).map(({ id }) => id);
  const itself = stocksOf(part);
  const [fronts, backs] = part === 'whole' ? [stocksOf('front'), stocksOf('back')] : [[], []];
  return [
    itself.length > 0
      ? `It fits on ${itself.join(', ')}.`
      : 'It fits on no stock here: shorten the text, or print a part of it on the package itself.',
    ...(fronts.length > 0 && backs.length > 0
      ? [`In two labels: part front fits on ${fronts.join(', ')}; part back on ${backs.join(', ')}.`]
      : []),
  ].join(' ');
}

interface Way {
  readonly part: LabelPart;
  /** With the low panel, which is for labels that have no room for the usual one. */
  readonly isLow: boolean;
}

function wayOf(pdf: Pdf, label: PackLabel, stock: LabelStock, part: LabelPart): Way | undefined {
  return [false, true].map((isLow) => ({ part, isLow })).find((way) => fitted(pdf, label, stock, way, 1));
}

/** Sizes of running text that are tried, as multiples of the smallest. */
const SCALES = [1.6, 1.45, 1.3, 1.2, 1.1, 1.05, 1];

/** The name in multiples of running text. */
const NAME_TIMES = [2.6, 2.1, 1.7, 1.4];

function fitted(
  pdf: Pdf,
  label: PackLabel,
  stock: LabelStock,
  way: Way,
  scale: number,
): DrawLabel | undefined {
  const { part } = way;
  const isSmall = stock.widthMm < 90;
  const marginMm = isSmall ? 1.5 : 2.5;
  const widthMm = stock.widthMm - 2 * marginMm;
  const heightMm = stock.heightMm - 2 * marginMm;
  const sizeMm = LEAST_SIZE_MM * scale;
  const measured = (block: Block) => ({ block, heightMm: block.heightMm(widthMm) });
  const headsWith = (legends: readonly Oval[]) =>
    legends
      .flatMap((legendMm) =>
        NAME_TIMES.map((times) =>
          measured(headBlock(pdf, label, { sizeMm, nameMm: sizeMm * times, legendMm })),
        ),
      )
      .filter((head) => Number.isFinite(head.heightMm));
  const round = part === 'back' ? [] : headsWith(isSmall ? ROUND_MM.slice(1) : ROUND_MM);
  const principal = round.length > 0 ? round : headsWith([OVAL]);
  const allHeads = part === 'back' ? [measured(identityBlock(pdf, label, sizeMm))] : principal;
  // A name as large as it can be, but not at the cost of the label.
  const isModest = (head: (typeof allHeads)[number]) => head.heightMm <= heightMm * MOST_HEAD;
  const heads = [...allHeads.filter(isModest), ...allHeads.filter((head) => !isModest(head))];
  const front = [stack(tareBlocks(pdf, label, sizeMm), GAP)];
  const bodies = (part === 'front' ? front : bodiesOf(pdf, label, way, sizeMm)).map(measured);
  const feet = part === 'back' ? [stack([], GAP)] : feetOf(pdf, label, stock, sizeMm);
  for (const foot of feet.map(measured)) {
    for (const head of heads) {
      const room = heightMm - foot.heightMm - head.heightMm - 2 * GAP;
      const body = bodies.find((one) => one.heightMm <= room);
      if (!body) continue;
      return (xMm, yMm) =>
        inMm(pdf, () => {
          const [x, y] = [xMm + marginMm, yMm + marginMm];
          head.block.draw(x, y, widthMm);
          body.block.draw(x, y + head.heightMm + GAP, widthMm);
          foot.block.draw(x, y + heightMm - foot.heightMm, widthMm);
        });
    }
  }
  return undefined;
}

/** Share of the height that the head takes at most where it can be smaller. */
const MOST_HEAD = 0.3;

/** Places of the official mark; an oval, as that of the Union is, where its name is too long for a circle. */
const ROUND_MM: readonly Oval[] = [
  { widthMm: 19, heightMm: 19 },
  { widthMm: 16.5, heightMm: 16.5 },
];
const OVAL: Oval = { widthMm: 23, heightMm: 15 };

const GAP = 1.2;

/** Of the width, for the words beside a low panel. */
const LOW_SHARES = [0.4, 0.36] as const;

/** Ways to place what stands between head and foot, the plainest first. */
function bodiesOf(pdf: Pdf, label: PackLabel, { part, isLow }: Way, sizeMm: number): Block[] {
  const inner = 0.9;
  const words = [
    ...textBlocks(pdf, label, sizeMm),
    ...(part === 'whole' ? tareBlocks(pdf, label, sizeMm) : []),
  ];
  const safe = label.safeHandling ? [safeHandlingBlock(pdf, label.safeHandling, sizeMm)] : [];
  const panel = label.nutrition ? [panelBlock(pdf, label.nutrition)] : [];
  const text = [...words, ...safe];
  if (isLow) {
    if (!label.nutrition?.format.startsWith('us')) return [];
    const low = lowPanelBlock(pdf, label.nutrition);
    return LOW_SHARES.map((share) => beside(stack(text, inner), low, share, 2));
  }
  const all = [...text, ...panel];
  const columns = (left: readonly Block[], right: readonly Block[]) =>
    [0.5, 0.56, 0.44, 0.62, 0.38].map((share) => beside(stack(left, inner), stack(right, inner), share, 2));
  return [
    stack(all, inner),
    ...(panel.length > 0 ? columns(text, panel) : []),
    ...(panel.length > 0 && safe.length > 0
      ? columns(words, panel).map((upper) => stack([upper, ...safe], inner))
      : []),
    ...(safe.length > 0 ? columns(words, [...panel, ...safe]) : []),
    ...all.slice(1).flatMap((_, index) => columns(all.slice(0, index + 1), all.slice(index + 1))),
  ];
}
