/** What this device keeps over a reload, as JSON. A browser that keeps nothing (private, full) only forgets sooner. */

const PREFIX = 'meatblock.';

export function kept<Value>(name: string): Value | undefined {
  try {
    const text = localStorage.getItem(PREFIX + name);
    return text === null ? undefined : (JSON.parse(text) as Value);
  } catch {
    return undefined;
  }
}

/** Undefined takes it away. */
export function keep(name: string, value: unknown): void {
  try {
    if (value === undefined) localStorage.removeItem(PREFIX + name);
    else localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // Nothing is lost but the memory over a reload.
  }
}

export function keptNames(prefix: string): string[] {
  try {
    return Object.keys(localStorage).flatMap((name) =>
      name.startsWith(PREFIX + prefix) ? [name.slice(PREFIX.length)] : [],
    );
  } catch {
    return [];
  }
}
