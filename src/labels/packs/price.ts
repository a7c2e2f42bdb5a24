import type { GivenWeight } from '../../batch/product.ts';
import { type Exact, exact, multiply } from '../../exact.ts';
import { fixed, KILOGRAMS_PER } from '../../units.ts';

/** Prices of packs, in exact arithmetic: what is shown is what is coded and what is paid. */

export interface PackPrice {
  readonly amount: string;
  readonly per: 'lb' | 'kg';
}

/**
 * Price of a weight times the weight as it is printed, rounded half up to the cent.
 * @returns whole cents.
 */
export function totalCents(net: GivenWeight, { amount, per }: PackPrice): bigint {
  const mass = multiply(exact(net.value), KILOGRAMS_PER[net.unit]);
  const cents = multiply(multiply(exact(amount), exact(100)), mass);
  return roundedHalfUp(cents, KILOGRAMS_PER[per]);
}

/** numerator / denominator as a whole number. */
function roundedHalfUp(numerator: Exact, denominator: Exact): bigint {
  const above = numerator.digits * 10n ** BigInt(denominator.scale);
  const below = denominator.digits * 10n ** BigInt(numerator.scale);
  return (2n * above + below) / (2n * below);
}

/** '$6.17' for 617 cents. Currencies with other than two decimals are not known here. */
export function moneyText(cents: bigint, currency: string): string {
  const text = cents.toString().padStart(3, '0');
  return withSign(`${text.slice(0, -2)}.${text.slice(-2)}`, currency);
}

/** '$4.99/lb': with the decimals it was given, two at least. */
export function unitPriceText({ amount, per }: PackPrice, currency: string): string {
  const [, decimals = ''] = amount.split('.');
  return `${withSign(decimals.length > 2 ? amount : fixed(Number(amount), 2), currency)}/${per}`;
}

/** Signs of currencies that stand before the amount; every other is named by its code. */
const SIGNS: Readonly<Record<string, string>> = {
  USD: '$',
  CAD: '$',
  AUD: '$',
  NZD: '$',
  EUR: '€',
  GBP: '£',
};

function withSign(amount: string, currency: string): string {
  const sign = SIGNS[currency];
  return sign === undefined ? `${currency} ${amount}` : `${sign}${amount}`;
}
