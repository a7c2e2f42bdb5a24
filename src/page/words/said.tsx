import { useSay } from './say.ts';

/**
 * A citation, or a note on how a rule was read. Many are known in English alone, as the text they were read in: these are
 * marked as English, so that a Spanish voice does not read them as Spanish.
 */
export function Said({ text }: { readonly text: string }) {
  const said = useSay()(text);
  return <span {...(said === text && { lang: 'en' })}>{said}</span>;
}
