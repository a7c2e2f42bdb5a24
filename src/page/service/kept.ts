/**
 * What this device keeps over a reload, as JSON. Where the browser keeps nothing (private, full, forbidden) it is kept as
 * long as the page is open.
 */

const PREFIX = 'meatblock.';

/** What the browser would not keep; it stands before an older value that the browser may still have. */
const onlyHere = new Map<string, string>();

export function kept<Value>(name: string): Value | undefined {
  try {
    const text = onlyHere.get(name) ?? localStorage.getItem(PREFIX + name);
    return text === null ? undefined : (JSON.parse(text) as Value);
  } catch {
    return undefined;
  }
}

/** Undefined takes it away. @returns whether it is there after a reload too. */
export function keep(name: string, value: unknown): boolean {
  const text = value === undefined ? undefined : JSON.stringify(value);
  onlyHere.delete(name);
  try {
    if (text === undefined) localStorage.removeItem(PREFIX + name);
    else localStorage.setItem(PREFIX + name, text);
    return true;
  } catch {
    if (text !== undefined) onlyHere.set(name, text);
    return false;
  }
}

export function keptNames(prefix: string): string[] {
  let stored: string[] = [];
  try {
    stored = Object.keys(localStorage).flatMap((name) =>
      name.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : [],
    );
  } catch {
    // Only what is here.
  }
  return [...new Set([...stored, ...onlyHere.keys()])].filter((name) => name.startsWith(prefix));
}

/** Whether something of these names would be gone after a reload. */
export const isOnlyHere = (prefix: string): boolean =>
  [...onlyHere.keys()].some((name) => name.startsWith(prefix));
