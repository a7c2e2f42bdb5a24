import { fixed, percentOfFraction, pricePerUnit } from '../../units.ts';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { massText, poundsAndOunces } from './mass.ts';
import { withMark } from './number.ts';

/** Figures as this device shows them. */
export interface Show {
  readonly units: 'lb' | 'kg';
  readonly small: 'oz' | 'g';
  readonly currency: string;
  /** '312.40 lb'; @param decimals 2 when absent. */
  readonly mass: (massKg: number, decimals?: number) => string;
  /** The other system, to have both at hand: '141.70 kg'. */
  readonly otherMass: (massKg: number) => string;
  readonly poundsAndOunces: (massKg: number) => string;
  /** 0.1934 as '19.3 %'. */
  readonly percent: (fraction: number, decimals?: number) => string;
  readonly number: (value: number, decimals: number) => string;
  /** Digits with a point, as a scale or the service wrote them. */
  readonly digits: (text: string) => string;
  readonly money: (amount: number, decimals?: number) => string;
  /** A price per kilogram as '$3.10/lb'. */
  readonly price: (perKg: number) => string;
  /** '2026-11-25' as 'Nov 25, 2026'. */
  readonly day: (isoDay: string) => string;
  readonly shortDay: (isoDay: string) => string;
  /** An instant as day and time at the plant. */
  readonly instant: (iso: string) => string;
}

export function useShow(): Show {
  const { language, units: own, mark } = useDevice();
  const { plant } = useHere();
  const units = own === 'plant' ? plant.units : own;
  const locale = language === 'es' ? 'es-MX' : 'en-US';
  const days = (isoDay: string, options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' }).format(new Date(`${isoDay}T00:00:00Z`));
  const number = (value: number, decimals: number) => withMark(fixed(value, decimals), mark);
  const money = (amount: number, decimals = 2) => {
    const parts = new Intl.NumberFormat(locale, {
      style: 'currency',
      currency: plant.currency,
      currencyDisplay: 'narrowSymbol',
    }).formatToParts(0);
    const symbol = parts.find(({ type }) => type === 'currency')?.value ?? plant.currency;
    const text = `${symbol}${number(Math.abs(amount), decimals)}`;
    return amount < 0 ? `−${text}` : text;
  };
  return {
    units,
    small: units === 'lb' ? 'oz' : 'g',
    currency: plant.currency,
    mass: (massKg, decimals) => massText(massKg, units, mark, decimals),
    otherMass: (massKg) => massText(massKg, units === 'lb' ? 'kg' : 'lb', mark),
    poundsAndOunces: (massKg) => poundsAndOunces(massKg, mark),
    percent: (fraction, decimals = 1) => `${number(percentOfFraction(fraction), decimals)} %`,
    number,
    digits: (text) => withMark(text, mark),
    money,
    price: (perKg) => `${money(pricePerUnit(perKg, units))}/${units}`,
    day: (isoDay) => days(isoDay, { dateStyle: 'medium' }),
    shortDay: (isoDay) => days(isoDay, { month: 'short', day: 'numeric' }),
    instant: (iso) =>
      new Intl.DateTimeFormat(locale, {
        dateStyle: 'medium',
        timeStyle: 'short',
        timeZone: plant.timeZone,
      }).format(new Date(iso)),
  };
}
