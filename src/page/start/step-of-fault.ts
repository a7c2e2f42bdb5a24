import { STEPS, type Step } from './typed-start.ts';

const FIELDS: readonly (readonly [Step, RegExp])[] = [
  ['scales', /^\/plant\/(scales|mixerCapacity)/],
  ['plant', /^\/plant\/(name|establishment|jurisdiction|currency|timeZone)/],
  ['people', /^\/admin\/(name|password)/],
  ['with', /^\/keeps\/products\/\d+\/productClass/],
];

/** The first step that has a field which the service finds fault with. */
export function stepOfFault(errors: readonly { readonly pointer: string }[]): Step | undefined {
  const steps = errors.flatMap(({ pointer }) =>
    FIELDS.flatMap(([step, pattern]) => (pattern.test(pointer) ? [step] : [])),
  );
  return STEPS.find((step) => steps.includes(step));
}
