/** Forms that only the rules of Australia and New Zealand count. */
export const AUSTRALASIA = {} as const;
