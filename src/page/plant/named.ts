import type { Option } from '../parts/choice.tsx';

/** Lists that the browser knows, with what stands now although the browser may not know it. */

export function timeZones(now: string): Option[] {
  const known = Intl.supportedValuesOf('timeZone');
  return [...new Set([now, ...known])]
    .filter((zone) => zone !== '')
    .toSorted()
    .map((zone) => ({ value: zone, says: zone.replaceAll('_', ' ') }));
}

/** Currencies by code and name; those of the markets first. */
export function currencies(now: string, locale: string): Option[] {
  const names = new Intl.DisplayNames(locale, { type: 'currency' });
  const first = ['USD', 'CAD', 'MXN', 'EUR', 'GBP', 'AUD', 'NZD'];
  const codes = new Set([...first, now, ...Intl.supportedValuesOf('currency')]);
  codes.delete('');
  return [...codes].map((code) => ({ value: code, says: `${code} · ${nameOf(names, code)}` }));
}

function nameOf(names: Intl.DisplayNames, code: string): string {
  try {
    return names.of(code) ?? code;
  } catch {
    return code;
  }
}
