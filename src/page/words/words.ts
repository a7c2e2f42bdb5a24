import { useDevice } from '../shell/device.ts';

export type Language = 'en' | 'es';

type Word = string | ((...values: never[]) => string);
/** The same words again: a text for a text, a sentence with the same places for a sentence with places. */
type Like<Of> = {
  readonly [Name in keyof Of]: Of[Name] extends (...values: infer Values) => string
    ? (...values: Values) => string
    : Of[Name] extends string
      ? string
      : Like<Of[Name]>;
};
interface WordTree {
  readonly [name: string]: Word | WordTree;
}

/** The words of one part of the page in both languages; a word that one of them lacks does not compile. */
export function words<const Of extends WordTree>(en: Of, es: Like<Of>): { en: Like<Of>; es: Like<Of> } {
  return { en: en as unknown as Like<Of>, es };
}

/** Words in the language of this device. */
export function useWords<Of>(of: { readonly en: Of; readonly es: Of }): Of {
  return of[useDevice().language];
}
