import { sourceOf } from '../rules/limit.ts';
import { fixed, fractionOfPercent } from '../units.ts';
import type { BatchSheet, BothUnits, PickLine, ProofLine } from './batch-sheet.ts';
import { left, right, textTable } from './text-table.ts';

/** The batch sheet as plain text, to be read on a screen or sent to any printer. */
export function batchSheetText(sheet: BatchSheet): string {
  return [
    ...header(sheet),
    ...section('LOTS TO PICK (whole batch)', pick(sheet)),
    ...section(
      `WEIGH INTO EACH LOAD (${sheet.batch.loads === 1 ? '1 load' : `${sheet.batch.loads} equal loads`})`,
      weigh(sheet),
    ),
    ...section('GRIND AND MIX', work(sheet)),
    ...section('LIMITS, checked on the weights above', proof(sheet)),
    ...section('SWITCHED OFF BY THE HOUSE', switchedOff(sheet)),
    ...section('NEEDS A LABORATORY TEST (not shown by the weights)', laboratory(sheet)),
    ...section('LEFT OUT', leftOut(sheet)),
    ...section('HOW SURE, as far as the fat of the lots is known', sheet.howSure),
    ...section('MAKE-UP', makeup(sheet)),
    ...section('COST', cost(sheet)),
    ...section(
      'FILL IN',
      sheet.fillIn.map((line) => `${line}: ______________________`),
    ),
    ...section(
      'CAUTIONS',
      sheet.cautions.map((caution) => `! ${caution}`),
    ),
  ].join('\n');
}

function header({ plant, product, standard, date, batch, ...sheet }: BatchSheet): string[] {
  const mass = (both: BothUnits) => inBoth(both, sheet.units);
  const finished = batch.finished.kg === batch.total.kg ? [] : [`Finished  ${mass(batch.finished)} expected`];
  const pieces = batch.pieces === undefined ? [] : [`Pieces    about ${batch.pieces}`];
  return [
    `BATCH SHEET  ${product.name}`,
    `${plant.name}, Est. ${plant.establishment}   Date ${date}`,
    `Standard  ${standard.says} (${standard.citation})`,
    `Rules     ${standard.edition}`,
    `Batch     ${mass(batch.total)} = ${batch.loads} x ${mass(batch.load)}`,
    `Meat      ${mass(batch.greenWeight)} green weight`,
    ...finished,
    ...pieces,
  ];
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}

function pick({ pick: lines, units }: BatchSheet): string[] {
  return textTable(
    [
      left('Lot'),
      left('Material'),
      right('fetch'),
      right('boxes'),
      left('use by'),
      left('from Est.'),
      left('their lot'),
      left('place'),
      left(''),
    ],
    lines.map((line) => [
      line.lotId,
      line.material,
      line.fetch,
      line.boxes ? boxesText(line.boxes, units) : '',
      line.useByDate ?? '',
      line.supplierEstablishment ?? '',
      line.supplierLot ?? '',
      line.location ?? '',
      line.state === 'frozen' ? 'frozen: temper first' : '',
    ]),
  );
}

function boxesText({ full, rest }: NonNullable<PickLine['boxes']>, units: 'lb' | 'kg'): string {
  const part = rest.kg > 1e-6 ? `${fixed(rest[units], 2)} ${units}` : '';
  return [full > 0 || !part ? String(full) : '', part].filter(Boolean).join(' + ');
}

function weigh({ weigh: lines, units }: BatchSheet): string[] {
  const other = units === 'lb' ? 'kg' : 'lb';
  return textTable(
    [
      left(''),
      right('#'),
      left('Material'),
      left('Lot'),
      right('weigh'),
      left(''),
      right(`(${other})`),
      left('on'),
      left('asked'),
    ],
    lines.map((line) => [
      '[ ]',
      String(line.number),
      line.material,
      line.lotId ?? '',
      line.weight,
      line.unit,
      fixed(line.perLoad[other], 4),
      line.drafts > 1 ? `${line.scale}, in ${line.drafts} drafts` : line.scale,
      line.asked ?? '',
    ]),
  );
}

function leftOut({ leftOut: lines }: BatchSheet): string[] {
  return lines.map(({ supplyId, material, because }) => `${supplyId}  ${material}: ${because}`);
}

function work({ grindPlates, mixing, stuffInto }: BatchSheet): string[] {
  const plates = grindPlates.length === 0 ? [] : [`Plates: ${grindPlates.join(', then ')}`];
  const steps = stuffInto ? [...mixing, `Stuff into ${stuffInto}`] : mixing;
  return [...plates, ...steps.map((step, index) => `${index + 1}. ${step}`)];
}

/** A row for each limit that the batch touches; maxima of which it holds nothing share a paragraph. */
function proof({ proof: lines, currency }: BatchSheet): string[] {
  const isAbsent = ({ sense, value, holds }: ProofLine) => holds && sense === 'max' && value === 0;
  const absent = lines.filter(isAbsent).map((line) => `${line.what} (${sourceOf(line)})`);
  const isSelfEvident = ({ sense, bound: figure, holds }: ProofLine) =>
    holds && sense === 'min' && figure === 0;
  const touched = lines.filter((line) => !isAbsent(line) && !isSelfEvident(line));
  const table = textTable(
    [left(''), left('What'), right('found'), right('limit'), left('of'), left('rule')],
    touched.map((line) => [
      line.holds ? 'ok' : 'NO',
      line.what,
      found(line, currency),
      bound(line, currency),
      line.basis,
      sourceOf(line),
    ]),
  );
  return [
    ...(touched.length > 0 ? table : []),
    ...(absent.length > 0 ? [`None of these limited things is in the batch: ${absent.join('; ')}.`] : []),
  ];
}

function switchedOff({ switchedOff: lines }: BatchSheet): string[] {
  return lines.map(
    ({ says, citation, reason, found: stands }) =>
      `${says} (${citation}) Reason: ${reason} Found: ${stands}.`,
  );
}

function laboratory({ laboratory: lines }: BatchSheet): string[] {
  return lines.map((line) => `[ ] ${line.says} (${sourceOf(line)})`);
}

function found({ value, sense, unit }: ProofLine, currency: string): string {
  if (sense === 'present') return 'there';
  const figure = `${fixed(value, unit === 'ppm' ? 1 : 3)} ${unitSign(unit, currency)}`;
  return value < 0 ? `none (${figure})` : figure;
}

function bound({ bound: figure, sense, unit }: ProofLine, currency: string): string {
  return sense === 'present'
    ? 'must be'
    : `${sense === 'target' ? 'just' : sense} ${figure} ${unitSign(unit, currency)}`;
}

function unitSign(unit: string, currency: string): string {
  if (unit === 'percent') return '%';
  return unit === 'price per kg' ? `${currency}/kg` : unit;
}

function makeup({ makeup: { raw, finished } }: BatchSheet): string[] {
  const percent = (fraction: number) => fixed(fraction / fractionOfPercent(1), 2);
  const row = (title: string, { fatFraction, waterFraction, proteinFraction, saltFraction }: typeof raw) => [
    title,
    percent(fatFraction),
    percent(waterFraction),
    percent(proteinFraction),
    percent(saltFraction),
  ];
  return textTable(
    [left('percent'), right('fat'), right('moisture'), right('protein'), right('salt added')],
    [row('raw', raw), row('finished', finished)],
  );
}

function cost({ cost: costs, currency }: BatchSheet): string[] {
  const money = (amount: number) => `${fixed(amount, 4)} ${currency}`;
  return [
    `Batch ${fixed(costs.batch, 2)} ${currency}`,
    `Raw ${money(costs.perLbRaw)} per lb, ${money(costs.perKgRaw)} per kg`,
    `Finished ${money(costs.perLbFinished)} per lb, ${money(costs.perKgFinished)} per kg`,
    ...costs.notes,
  ];
}

function inBoth(both: BothUnits, units: 'lb' | 'kg'): string {
  const other = units === 'lb' ? 'kg' : 'lb';
  return `${fixed(both[units], 2)} ${units} (${fixed(both[other], 2)} ${other})`;
}
