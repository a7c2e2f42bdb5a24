import type { LimitStanding } from './batch.ts';

/** How a limit and what was found of it read on the floor. */

/** 'at most 156 ppm'. */
export function boundText({ sense, bound, unit }: Pick<LimitStanding, 'sense' | 'bound' | 'unit'>): string {
  if (sense === 'present') return 'some of it';
  return `${SENSE[sense] ?? 'just'} ${bound} ${UNIT[unit] ?? unit}`;
}

/** '171.2 ppm': to four digits, or to as many as it takes to tell it from the bound that it missed. */
export function foundText({
  bound,
  value,
  unit,
  holds,
}: Pick<LimitStanding, 'bound' | 'value' | 'unit' | 'holds'>): string {
  const digits = [4, 5, 6, 7, 8, 9, 10, 11, 12].find((count) => holds || rounded(value, count) !== bound);
  return `${rounded(value, digits ?? 12)} ${UNIT[unit] ?? unit}`;
}

/** Which limit of which load, 'at most 156 ppm, found 171.2 ppm'. */
export function standingText(limit: LimitStanding): string {
  const where = limit.load === undefined ? '' : ` in load ${limit.load}`;
  return `${limit.what}${where}: ${boundText(limit)}, found ${foundText(limit)}`;
}

const SENSE: Readonly<Record<string, string>> = { max: 'at most', min: 'at least' };
const UNIT: Readonly<Record<string, string>> = { percent: '%', 'price per kg': 'per kg' };

function rounded(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}
