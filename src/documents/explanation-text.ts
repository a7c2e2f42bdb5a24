import { sourceOf } from '../rules/limit.ts';
import { fixed } from '../units.ts';
import { type Workings, workingsText } from './workings-text.ts';

/** What an explanation reads of a blend; the answer of the service fits it. */
export interface Explained extends Workings {
  readonly product: string;
  readonly date: string;
  readonly standard: { readonly says: string; readonly citation: string };
  readonly lines: readonly { readonly supplyId: string; readonly material: string }[];
  readonly checks: readonly ExplainedCheck[];
  readonly switchedOff: readonly {
    readonly limit: ExplainedCheck['limit'];
    readonly reason: string;
    readonly check?: ExplainedCheck | undefined;
  }[];
  readonly laboratory: readonly { readonly says: string; readonly citation: string; readonly read: string }[];
}

interface ExplainedCheck {
  readonly limit: {
    readonly says: string;
    readonly numerator: string;
    readonly basis: string;
    readonly sense: 'max' | 'min' | 'target' | 'present';
    readonly bound: number;
    readonly unit: string;
    readonly citation: string;
    readonly read: string;
    readonly note?: string | undefined;
  };
  readonly holds: boolean;
  readonly value: number;
  readonly room: number;
  readonly numeratorKg: number;
  readonly contributions: readonly { readonly supplyId: string; readonly massKg: number }[];
}

/** Most supplies named under one limit. */
const MOST_NAMED = 5;

/** Why a blend is lawful, limit by limit: the figure, the bound, the room left and who brings how much of it. */
export function explanationText(blend: Explained): string {
  const checks = blend.checks.filter(({ limit }) => limit.sense !== 'min' || limit.bound > 0);
  const touched = checks.filter(({ numeratorKg, limit }) => numeratorKg !== 0 || limit.sense !== 'max');
  const absent = checks.filter((check) => !touched.includes(check));
  return [
    `LIMITS OF ${blend.product}, ${blend.date}`,
    `${blend.standard.says} (${blend.standard.citation})`,
    ...touched.flatMap((check) => ['', ...checkLines(check, blend)]),
    ...(absent.length > 0 ? ['', 'Nothing of these is in the batch:'] : []),
    ...absent.map(({ limit }) => `  - ${limit.says} (${sourceOf(limit)})`),
    ...blend.switchedOff.flatMap(({ limit, reason, check }) => [
      '',
      `SWITCHED OFF BY THE HOUSE: ${limit.says} (${sourceOf(limit)})`,
      `  Reason: ${reason}`,
      ...(check ? checkLines(check, blend).map((line) => `  ${line}`) : []),
    ]),
    ...workingsText(blend),
    ...(blend.laboratory.length > 0 ? ['', 'NEEDS A LABORATORY TEST, which no formula can replace:'] : []),
    ...blend.laboratory.map((limit) => `  - ${limit.says} (${sourceOf(limit)})`),
  ].join('\n');
}

function checkLines(check: ExplainedCheck, blend: Explained): string[] {
  const { limit, holds, value, room } = check;
  const sign = limit.unit === 'percent' ? '%' : limit.unit;
  const figure = (amount: number) => `${fixed(amount, limit.unit === 'ppm' ? 1 : 3)} ${sign}`;
  const asked = { max: 'at most', min: 'at least', target: 'just', present: 'more than' }[limit.sense];
  const found =
    limit.sense === 'present'
      ? `${limit.numerator} is there`
      : `${limit.numerator} ${figure(value)} of ${limit.basis}, ${asked} ${limit.bound} ${sign}, room ${figure(room)}`;
  return [
    `${holds ? 'ok' : 'NO'}  ${found}`,
    `    ${limit.says} (${sourceOf(limit)})`,
    ...(limit.note ? [`    Note: ${limit.note}`] : []),
    ...contributionLines(check, blend),
  ];
}

function contributionLines({ contributions, numeratorKg }: ExplainedCheck, { lines }: Explained): string[] {
  const nameOf = (supplyId: string) => {
    const material = lines.find((line) => line.supplyId === supplyId)?.material ?? '';
    return material === '' || material === supplyId ? supplyId : `${supplyId} ${material}`;
  };
  const brought = contributions.slice(0, MOST_NAMED).map(({ supplyId, massKg }) => {
    const share = numeratorKg > 0 && massKg > 0 ? ` (${fixed((100 * massKg) / numeratorKg, 0)} %)` : '';
    return `${nameOf(supplyId)} ${massText(massKg)}${share}`;
  });
  const rest = contributions.length - brought.length;
  const more = rest > 0 ? [`and ${rest} more`] : [];
  return brought.length === 0 ? [] : [`    From: ${[...brought, ...more].join('; ')}`];
}

function massText(massKg: number): string {
  return Math.abs(massKg) < 1 ? `${fixed(massKg * 1000, 2)} g` : `${fixed(massKg, 2)} kg`;
}
