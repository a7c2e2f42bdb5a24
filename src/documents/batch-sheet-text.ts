import type { Language } from '../batch/plant.ts';
import { sourceOf } from '../rules/limit.ts';
import { fixed, fractionOfPercent } from '../units.ts';
import type { BatchSheet, BothUnits, PickLine } from './batch-sheet.ts';
import { noneOf, proofRows } from './proof-rows.ts';
import { left, right, textTable } from './text-table.ts';
import { plateText } from './words/plate.ts';
import { type Phrase, type Words, wordsIn } from './words/words.ts';

/** The batch sheet as plain text, to be read on a screen or sent to any printer; what the inspector reads is English. */
export function batchSheetText(sheet: BatchSheet, language: Language = 'en'): string {
  const words = wordsIn(language);
  const { say, told } = words;
  const section = (title: Phrase, lines: readonly string[], values = {}) =>
    lines.length === 0 ? [] : ['', say(title, values), ...lines.map((line) => `  ${line}`)];
  const { loads } = sheet.batch;
  return [
    ...header(sheet, words),
    ...section('LOTS TO PICK (whole batch)', pick(sheet, words)),
    ...(loads === 1
      ? section('WEIGH INTO EACH LOAD (1 load)', weigh(sheet, words))
      : section('WEIGH INTO EACH LOAD ({count} equal loads)', weigh(sheet, words), { count: loads })),
    ...section('GRIND AND MIX', work(sheet, words)),
    ...section('LIMITS, checked on the weights above', proof(sheet)),
    ...section('SWITCHED OFF BY THE HOUSE', switchedOff(sheet)),
    ...section('NEEDS A LABORATORY TEST (not shown by the weights)', laboratory(sheet)),
    ...section('LEFT OUT', leftOut(sheet, words)),
    ...section('HOW SURE, as far as the fat of the lots is known', sheet.howSure),
    ...section('MAKE-UP', makeup(sheet, words)),
    ...section('COST', cost(sheet, words)),
    ...section(
      'FILL IN',
      sheet.fillIn.map((line) => `${told(line)}: ______________________`),
    ),
    ...section(
      'CAUTIONS',
      sheet.cautions.map((caution) => `! ${told(caution)}`),
    ),
  ].join('\n');
}

function header({ plant, product, standard, date, batch, ...sheet }: BatchSheet, { say }: Words): string[] {
  const mass = (both: BothUnits) => inBoth(both, sheet.units);
  const row = (title: Phrase, text: string) => `${say(title).padEnd(9)} ${text}`;
  return [
    `${say('BATCH SHEET')}  ${product.name}`,
    `${plant.name}, Est. ${plant.establishment}   ${say('Date')} ${date}`,
    row('Standard', `${standard.says} (${standard.citation})`),
    row('Rules', standard.edition),
    row('Batch', `${mass(batch.total)} = ${batch.loads} x ${mass(batch.load)}`),
    row('Meat', `${mass(batch.greenWeight)} ${say('green weight')}`),
    ...(batch.finished.kg === batch.total.kg
      ? []
      : [row('Finished', `${mass(batch.finished)} ${say('expected')}`)]),
    ...(batch.pieces === undefined ? [] : [row('Pieces', `${say('about')} ${batch.pieces}`)]),
  ];
}

function pick({ pick: lines, units }: BatchSheet, { say }: Words): string[] {
  return textTable(
    [
      left(say('Lot')),
      left(say('Material')),
      right(say('fetch')),
      right(say('boxes')),
      left(say('use by')),
      left(say('from Est.')),
      left(say('their lot')),
      left(say('place')),
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
      line.state === 'frozen' ? say('frozen: temper first') : '',
    ]),
  );
}

/** Full boxes and what comes from an opened one: '3 + 12.50 lb'. */
export function boxesText({ full, rest }: NonNullable<PickLine['boxes']>, units: 'lb' | 'kg'): string {
  const part = rest.kg > 1e-6 ? `${fixed(rest[units], 2)} ${units}` : '';
  return [full > 0 || !part ? String(full) : '', part].filter(Boolean).join(' + ');
}

function weigh({ weigh: lines, units }: BatchSheet, { say, told }: Words): string[] {
  const other = units === 'lb' ? 'kg' : 'lb';
  return textTable(
    [
      left(''),
      right('#'),
      left(say('Material')),
      left(say('Lot')),
      right(say('weigh')),
      left(''),
      right(`(${other})`),
      left(say('on')),
      left(say('asked')),
    ],
    lines.map((line) => [
      '[ ]',
      String(line.number),
      line.material,
      line.lotId ?? '',
      line.weight,
      line.unit,
      fixed(line.perLoad[other], 4),
      line.drafts > 1 ? `${line.scale}, ${say('in {count} drafts', { count: line.drafts })}` : line.scale,
      line.asked === undefined ? '' : told(line.asked),
    ]),
  );
}

function leftOut({ leftOut: lines }: BatchSheet, { told }: Words): string[] {
  return lines.map(({ supplyId, material, because }) => `${supplyId}  ${material}: ${told(because)}`);
}

function work({ grindPlates, mixing, stuffInto }: BatchSheet, { say, told }: Words): string[] {
  const plates = grindPlates
    .map((plate) => plateText(plate, say))
    .reduce(
      (before, after) => (before === '' ? after : say('{before}, then {after}', { before, after })),
      '',
    );
  const steps = mixing.map(told);
  const all = stuffInto ? [...steps, say('Stuff into {casing}', { casing: stuffInto })] : steps;
  return [
    ...(plates === '' ? [] : [`${say('Plates')}: ${plates}`]),
    ...all.map((step, index) => `${index + 1}. ${step}`),
  ];
}

function proof(sheet: BatchSheet): string[] {
  const { touched, absent } = proofRows(sheet);
  const table = textTable(
    [left(''), left('What'), right('found'), right('limit'), left('of'), left('rule')],
    touched.map(({ line, found, limit, rule }) => [
      line.holds ? 'ok' : 'NO',
      line.what,
      found,
      limit,
      line.basis,
      rule,
    ]),
  );
  return [...(touched.length > 0 ? table : []), ...(absent.length > 0 ? [noneOf(absent)] : [])];
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

function makeup({ makeup: { raw, finished } }: BatchSheet, { say }: Words): string[] {
  const percent = (fraction: number) => fixed(fraction / fractionOfPercent(1), 2);
  const row = (title: string, { fatFraction, waterFraction, proteinFraction, saltFraction }: typeof raw) => [
    title,
    percent(fatFraction),
    percent(waterFraction),
    percent(proteinFraction),
    percent(saltFraction),
  ];
  return textTable(
    [
      left(say('percent')),
      right(say('fat')),
      right(say('moisture')),
      right(say('protein')),
      right(say('salt added')),
    ],
    [row(say('raw'), raw), row(say('finished'), finished)],
  );
}

function cost({ cost: costs, currency }: BatchSheet, { say }: Words): string[] {
  const money = (amount: number) => `${fixed(amount, 4)} ${currency}`;
  return [
    say('Batch {cost}', { cost: `${fixed(costs.batch, 2)} ${currency}` }),
    say('Raw {lb} per lb, {kg} per kg', { lb: money(costs.perLbRaw), kg: money(costs.perKgRaw) }),
    say('Finished {lb} per lb, {kg} per kg', {
      lb: money(costs.perLbFinished),
      kg: money(costs.perKgFinished),
    }),
    ...costs.notes,
  ];
}

function inBoth(both: BothUnits, units: 'lb' | 'kg'): string {
  const other = units === 'lb' ? 'kg' : 'lb';
  return `${fixed(both[units], 2)} ${units} (${fixed(both[other], 2)} ${other})`;
}
