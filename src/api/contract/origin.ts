import { z } from 'zod';
import { isCountry, NO_COUNTRY } from '../../batch/country.ts';
import { record, remedy, shown } from '../../tables/json.ts';

/** Countries as they travel in JSON. */
export const countrySchema = z
  .string(remedy('must be the two letters of a country, such as "US"'))
  .refine(isCountry, { error: ({ input }) => `${shown(input)} ${NO_COUNTRY}` })
  .meta({ id: 'Country', description: 'A country in the two capital letters of ISO 3166-1.' });

export const originSchema = record(
  { bornIn: countrySchema, raisedIn: countrySchema, slaughteredIn: countrySchema },
  'must be the countries of its animals, such as {"bornIn": "MX", "raisedIn": "US", "slaughteredIn": "US"}',
).meta({
  id: 'Origin',
  description: 'Where the animals of a lot were born, raised and slaughtered, as its supplier says.',
});
