/** Forms that only the rules of Canada count. */
export const CANADA = {} as const;
