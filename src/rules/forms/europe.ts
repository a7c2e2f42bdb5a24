/** Forms that only the rules of the European Union and Great Britain count. */
export const EUROPE = {} as const;
