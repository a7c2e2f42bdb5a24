import { sourceOf } from '../rules/limit.ts';
import { fixed } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** What the sheet of a correction reads; the answer of the service fits it. */
export type CorrectionForFloor = Header &
  (
    | ({ readonly outcome: 'right as it is' } & Waiting)
    | ({ readonly outcome: 'additions' } & Added)
    | ({ readonly outcome: 'cannot be brought back' } & NotBroughtBack)
  );

interface Both {
  readonly kg: number;
  readonly lb: number;
}

interface Header {
  readonly plant: { readonly name: string; readonly establishment: string };
  readonly product: { readonly name: string };
  readonly standard: { readonly says: string; readonly citation: string; readonly edition: string };
  readonly date: string;
  readonly units: 'lb' | 'kg';
  readonly currency: string;
  readonly capacity: Both;
  readonly test: {
    readonly foundFraction: number;
    readonly saidFraction: number;
    readonly sdPoints: number;
    readonly method: string;
    readonly confidence?: number | undefined;
  };
}

interface Waiting {
  readonly mix: readonly MixLine[];
  readonly before: Standing;
  readonly cautions: readonly string[];
}

interface Added extends Waiting {
  readonly after: Standing;
  readonly lines: readonly AddedLine[];
  readonly roomLeft: Both;
  readonly cost: number;
}

interface NotBroughtBack extends Waiting {
  readonly because: readonly { readonly message: string }[];
  readonly takeOut?: TakeOut | undefined;
  readonly fits: readonly Fit[];
}

interface TakeOut {
  readonly weight: Weight;
  readonly mass: Both;
  readonly afterwards:
    | ({ readonly outcome: 'right as it is' } & Waiting)
    | ({ readonly outcome: 'additions' } & Added);
}

interface Fit {
  readonly name: string;
  readonly outcome: 'right as it is' | 'additions';
  readonly lines: readonly AddedLine[];
  readonly cost: number;
  readonly cautions: readonly string[];
}

interface Weight {
  readonly text: string;
  readonly unit: string;
  readonly scale: string;
}

interface MixLine {
  readonly supplyId: string;
  readonly material: string;
  readonly mass: Both;
  readonly fat?: { readonly saidFraction: number; readonly foundFraction: number } | undefined;
}

interface AddedLine {
  readonly material: string;
  readonly lotId?: string | undefined;
  readonly location?: string | undefined;
  readonly weight: Weight;
}

interface Standing {
  readonly total: Both;
  readonly checks: readonly CheckLine[];
  readonly onUnsafeSide?: readonly { readonly limitId: string; readonly holds: boolean }[] | undefined;
}

interface CheckLine {
  readonly limit: {
    readonly id: string;
    readonly numerator: string;
    readonly basis: string;
    readonly sense: 'max' | 'min' | 'target' | 'present';
    readonly bound: number;
    readonly unit: string;
    readonly citation: string;
    readonly read: string;
  };
  readonly holds: boolean;
  readonly value: number;
}

/** What to do about a load in the mixer, as plain text for the floor: what is in it, what to add, what that changes. */
export function correctionText(correction: CorrectionForFloor): string {
  return [
    ...header(correction),
    ...section('IN THE MIXER, as weighed', mixTable(correction.mix, correction)),
    ...whatToDo(correction),
    ...section(
      'CAUTIONS',
      cautionsOf(correction).map((caution) => `! ${caution}`),
    ),
    ...section(
      'FILL IN',
      fillIn(correction).map((line) => `${line}: ______________________`),
    ),
  ].join('\n');
}

function header({ plant, product, standard, date, test, before, ...rest }: CorrectionForFloor): string[] {
  const likely =
    test.confidence === undefined
      ? []
      : [
          `Sure to   ${percent(test.confidence, 1)} %, the test uncertain by ${test.sdPoints} points (one sd), what is added by its own`,
        ];
  return [
    `CORRECTION OF A LOAD  ${product.name}`,
    `${plant.name}, Est. ${plant.establishment}   Date ${date}`,
    `Standard  ${standard.says} (${standard.citation})`,
    `Rules     ${standard.edition}`,
    `Mix       ${inBoth(before.total, rest)} of the ${inBoth(rest.capacity, rest)} that the mixer holds`,
    `Fat test  ${percent(test.foundFraction)} % by ${test.method}; the lots said ${percent(test.saidFraction)} %`,
    ...likely,
  ];
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}

function mixTable(mix: readonly MixLine[], { units }: Pick<Header, 'units'>): string[] {
  return textTable(
    [left('Lot or material'), left('Material'), right(units), right('fat said %'), right('fat likely %')],
    mix.map(({ supplyId, material, mass, fat }) => [
      supplyId,
      material,
      fixed(mass[units], 3),
      fat ? percent(fat.saidFraction) : '',
      fat ? percent(fat.foundFraction) : '',
    ]),
  );
}

function whatToDo(correction: CorrectionForFloor): string[] {
  switch (correction.outcome) {
    case 'right as it is':
      return rightAsItIs(correction, correction);
    case 'additions':
      return additions(correction, correction);
    case 'cannot be brought back':
      return notBroughtBack(correction);
  }
}

function rightAsItIs({ before }: Waiting, { currency }: Header): string[] {
  return [
    ...section('RIGHT AS IT IS', ['Every limit holds at the fat that was found: nothing is to be added.']),
    ...section('LIMITS, checked on the whole', limits(before, undefined, currency)),
  ];
}

function additions({ lines, before, after, roomLeft, cost }: Added, head: Header): string[] {
  return [
    ...section('ADD', [
      ...addTable(lines),
      `New total ${inBoth(after.total, head)}; the mixer has room for ${inBoth(roomLeft, head)} more.`,
      `Cost of what is added: ${fixed(cost, 2)} ${head.currency}`,
    ]),
    ...section('LIMITS, checked on the whole', limits(before, after, head.currency)),
  ];
}

function notBroughtBack(
  correction: Extract<CorrectionForFloor, { outcome: 'cannot be brought back' }>,
): string[] {
  const { because, takeOut, fits, before, currency } = correction;
  return [
    ...section(
      'CANNOT BE BROUGHT BACK AS IT IS',
      because.map(({ message }) => `- ${message}`),
    ),
    ...(takeOut
      ? takeOutFirst(takeOut, correction)
      : section('LIMITS, checked on the whole', limits(before, undefined, currency))),
    ...fits.flatMap((fit) =>
      section(`OR MAKE IT INTO ${fit.name}`, [
        ...(fit.outcome === 'additions'
          ? [...addTable(fit.lines), `Cost of what is added: ${fixed(fit.cost, 2)} ${currency}`]
          : ['Right for it as it is: nothing is to be added.']),
        ...fit.cautions.map((caution) => `! ${caution}`),
      ]),
    ),
  ];
}

function takeOutFirst({ weight, mass, afterwards }: TakeOut, head: Header): string[] {
  const other = head.units === 'lb' ? 'kg' : 'lb';
  return [
    ...section('TAKE OUT OF THE MIXER FIRST', [
      `[ ] ${weight.text} ${weight.unit} on ${weight.scale} (${fixed(mass[other], 2)} ${other}) of the mix, as even as it is`,
      'Label what is taken out with product, batch, fat found and time; it stays cold until it is used.',
    ]),
    ...(afterwards.outcome === 'additions' ? additions(afterwards, head) : rightAsItIs(afterwards, head)),
  ];
}

function addTable(lines: readonly AddedLine[]): string[] {
  return textTable(
    [left(''), left('Material'), left('Lot'), right('weigh'), left(''), left('on'), left('place')],
    lines.map(({ material, lotId, location, weight }) => [
      '[ ]',
      material,
      lotId ?? '',
      weight.text,
      weight.unit,
      weight.scale,
      location ?? '',
    ]),
  );
}

/** A row for each limit that the mix touches, as it stands now and as it stands with the additions. */
function limits(before: Standing, after: Standing | undefined, currency: string): string[] {
  const last = after ?? before;
  const rows = last.checks.flatMap((check, index): string[][] => {
    const { limit } = check;
    const now = before.checks[index] ?? check;
    const isUntouched = limit.sense === 'max' && check.value === 0 && now.value === 0;
    const isSelfEvident = limit.sense === 'min' && limit.bound === 0;
    if (now.holds && check.holds && (isUntouched || isSelfEvident)) return [];
    return [
      [
        mark(now, before),
        found(now, currency),
        ...(after ? [mark(check, after), found(check, currency)] : []),
        limit.numerator,
        boundText(limit, currency),
        limit.basis,
        sourceOf(limit),
      ],
    ];
  });
  const columns = [
    left(''),
    right(after ? 'before' : 'found'),
    ...(after ? [left(''), right('after')] : []),
    left('What'),
    right('limit'),
    left('of'),
    left('rule'),
  ];
  return rows.length === 0 ? [] : textTable(columns, rows);
}

function mark({ limit, holds }: CheckLine, { onUnsafeSide = [] }: Standing): string {
  if (!holds) return 'NO';
  const isSure = onUnsafeSide.every((side) => side.limitId !== limit.id || side.holds);
  return isSure ? 'ok' : 'not sure';
}

function found({ value, limit: { sense, unit } }: CheckLine, currency: string): string {
  return sense === 'present' ? '' : `${fixed(value, unit === 'ppm' ? 1 : 3)} ${sign(unit, currency)}`;
}

function boundText({ bound, sense, unit }: CheckLine['limit'], currency: string): string {
  if (sense === 'present') return 'must be';
  return `${sense === 'target' ? 'just' : sense} ${bound} ${sign(unit, currency)}`;
}

function sign(unit: string, currency: string): string {
  if (unit === 'percent') return '%';
  return unit === 'price per kg' ? `${currency}/kg` : unit;
}

/** What holds for the load and for what is to be done with it, each once. */
function cautionsOf(correction: CorrectionForFloor): string[] {
  const more =
    correction.outcome === 'cannot be brought back' ? (correction.takeOut?.afterwards.cautions ?? []) : [];
  return [...new Set([...correction.cautions, ...more])];
}

function fillIn({ outcome }: CorrectionForFloor): string[] {
  return [
    'Batch number',
    'Time of the fat test, and who took the sample',
    'Temperature of the mix (before, after)',
    ...(outcome === 'cannot be brought back'
      ? ['What was decided, and by whom', 'Taken out (weight, time, where to)']
      : []),
    ...(outcome === 'right as it is'
      ? []
      : ['Added (lots and weights as weighed, time)', 'Fat test after mixing (result, method)']),
    'Weighed by (signature)',
    'Checked by a second person (signature)',
  ];
}

function inBoth(both: Both, { units }: Pick<Header, 'units'>): string {
  const other = units === 'lb' ? 'kg' : 'lb';
  return `${fixed(both[units], 2)} ${units} (${fixed(both[other], 2)} ${other})`;
}

function percent(fraction: number, decimals = 2): string {
  return fixed(fraction * 100, decimals);
}
