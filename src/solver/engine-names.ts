/** The engines of the product by name, for those who choose one without loading it. */
export const ENGINE_NAMES = ['javascript-lp-solver', 'highs'] as const;
export type EngineName = (typeof ENGINE_NAMES)[number];
