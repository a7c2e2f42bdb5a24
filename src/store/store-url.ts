/** Where a store lies: a file of SQLite, ':memory:' for one that is forgotten, or the URL of a PostgreSQL database. */
export type StoreUrl = string;

export const DIALECTS = ['SQLite', 'PostgreSQL'] as const;
export type Dialect = (typeof DIALECTS)[number];

export function dialectOf(url: StoreUrl): Dialect {
  return /^postgres(ql)?:\/\//.test(url) ? 'PostgreSQL' : 'SQLite';
}

/** The URL without its password, for people and logs. */
export function shownUrl(url: StoreUrl): string {
  if (dialectOf(url) === 'SQLite') return url;
  const { protocol, host, pathname } = new URL(url);
  return `${protocol}//${host}${pathname}`;
}
