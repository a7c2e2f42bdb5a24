import { TextField } from '../parts/field.tsx';
import { useWords } from '../words/words.ts';
import { STOCK } from './words.ts';

const PLACES = ['born', 'raised', 'slaughtered'] as const;
type Place = (typeof PLACES)[number];

/** Countries in which the animals were born, raised and slaughtered, each by its two letters. */
export function OriginFields({
  typed,
  set,
  faultOf,
}: {
  readonly typed: Readonly<Record<Place, string>>;
  readonly set: (change: { readonly [Name in Place]?: string }) => void;
  readonly faultOf: (place: Place) => string | undefined;
}) {
  const t = useWords(STOCK);
  return (
    <>
      {PLACES.map((place) => (
        <TextField
          key={place}
          label={t.origin[place]}
          maxLength={2}
          placeholder="US"
          error={faultOf(place)}
          value={typed[place]}
          onValue={(country) => set({ [place]: country })}
        />
      ))}
    </>
  );
}
