/** What tells of people and keys stays in no cache. */
export const NO_STORE = { 'Cache-Control': 'no-store' } as const;
