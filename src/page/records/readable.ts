/** What stands in a sealed record, as a person reads it. */

interface Words {
  readonly mass: (massKg: number) => string;
  readonly instant: (iso: string) => string;
  readonly yes: string;
  readonly no: string;
  readonly none: string;
}

/** 'yieldFraction' as 'yield fraction'. */
export const nameOfKey = (key: string) => key.replaceAll(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();

const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;

/** A value in one line, undefined where it has fields or entries of its own. */
export function plainOf(value: unknown, { mass, instant, yes, no, none }: Words): string | undefined {
  if (value === null || value === undefined) return none;
  if (typeof value === 'boolean') return value ? yes : no;
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return INSTANT.test(value) ? instant(value) : value;
  if (Array.isArray(value)) {
    if (value.length === 0) return none;
    return value.every((one) => typeof one === 'string' || typeof one === 'number')
      ? value.join(', ')
      : undefined;
  }
  const fields = value as Readonly<Record<string, unknown>>;
  const names = Object.keys(fields).sort().join(' ');
  if (names === '') return none;
  if (names === 'kg lb' && typeof fields.kg === 'number') return mass(fields.kg);
  if (names === 'unit value') return `${fields.value} ${fields.unit}`;
  if (names === 'at shown') return String(fields.shown);
  return undefined;
}
