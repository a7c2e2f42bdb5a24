import type { Words } from './words.ts';

/** The hole of a plate, inches in the language of the floor: '3/8 in', '3/8 pulg.'. Anything else stays as it is. */
export function plateText(plate: string, say: Words['say']): string {
  const [, size] = /^([\d/ .-]+) in$/.exec(plate) ?? [];
  return size === undefined ? plate : say('{size} in', { size });
}
