import { fixed, percentOfFraction, pricePerUnit } from '../../units.ts';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { massText, poundsAndOunces } from './mass.ts';
import { type DecimalMark, withMark } from './number.ts';

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
  const { units: ofPlant, currency, timeZone } = useHere().plant;
  const units = own === 'plant' ? ofPlant : own;
  const locale = language === 'es' ? 'es-MX' : 'en-US';
  const key = [locale, units, mark, currency, timeZone].join();
  const show = made.get(key) ?? showIn(locale, units, mark, currency, timeZone);
  made.set(key, show);
  return show;
}

/** A formatter takes long to make, and a list of lots would make hundreds. */
const made = new Map<string, Show>();

function showIn(
  locale: string,
  units: Show['units'],
  mark: DecimalMark,
  currency: string,
  timeZone: string,
): Show {
  const days = (options: Intl.DateTimeFormatOptions) => {
    const { format } = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
    return (isoDay: string) => format(new Date(`${isoDay}T00:00:00Z`));
  };
  const instants = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', timeZone });
  const symbol =
    new Intl.NumberFormat(locale, { style: 'currency', currency, currencyDisplay: 'narrowSymbol' })
      .formatToParts(0)
      .find(({ type }) => type === 'currency')?.value ?? currency;
  const number = (value: number, decimals: number) => withMark(fixed(value, decimals), mark);
  const money = (amount: number, decimals = 2) => {
    const text = `${symbol}${number(Math.abs(amount), decimals)}`;
    return amount < 0 ? `−${text}` : text;
  };
  return {
    units,
    small: units === 'lb' ? 'oz' : 'g',
    currency,
    mass: (massKg, decimals) => massText(massKg, units, mark, decimals),
    otherMass: (massKg) => massText(massKg, units === 'lb' ? 'kg' : 'lb', mark),
    poundsAndOunces: (massKg) => poundsAndOunces(massKg, mark),
    percent: (fraction, decimals = 1) => `${number(percentOfFraction(fraction), decimals)} %`,
    number,
    digits: (text) => withMark(text, mark),
    money,
    price: (perKg) => `${money(pricePerUnit(perKg, units))}/${units}`,
    day: days({ dateStyle: 'medium' }),
    shortDay: days({ month: 'short', day: 'numeric' }),
    instant: (iso) => instants.format(new Date(iso)),
  };
}
