import { isCountry, NO_COUNTRY } from '../batch/country.ts';
import type { Origin } from '../batch/lot.ts';
import { optionalTextCell } from './cells.ts';

/** Steps in the life of an animal, as a cell names them. */
const STEPS = { born: 'bornIn', raised: 'raisedIn', slaughtered: 'slaughteredIn' } as const;
type Step = keyof typeof STEPS;
const STEP_NAMES = Object.keys(STEPS) as Step[];

const FORM = 'write one country, such as US, or "born MX; raised US; slaughtered US"';

/** 'US' for the whole life of the animals, or 'born MX; raised US; slaughtered US'; empty where the supplier does not say. */
export const optionalOriginCell = optionalTextCell.transform((text, context): Origin | undefined => {
  if (text === undefined) return undefined;
  const read = originOf(text);
  if (typeof read !== 'string') return read;
  context.addIssue({ code: 'custom', message: read });
  return undefined;
});

/** @returns the origin, or what is wrong with the text. */
function originOf(text: string): Origin | string {
  if (/^\S+$/.test(text)) {
    return isCountry(text) ? { bornIn: text, raisedIn: text, slaughteredIn: text } : NO_COUNTRY;
  }
  const countries = new Map<Step, string>();
  for (const entry of text.split(';').map((part) => part.trim())) {
    const [, word = '', country = ''] = /^(\S+)\s+(\S+)$/.exec(entry) ?? [];
    const step = STEP_NAMES.find((name) => name === word);
    if (!step) return `has "${entry}", which is no step with its country; ${FORM}`;
    if (!isCountry(country)) return `has "${country}", which ${NO_COUNTRY}`;
    if (countries.has(step)) return `says twice where they were ${step}; ${FORM}`;
    countries.set(step, country);
  }
  const missing = STEP_NAMES.filter((step) => !countries.has(step));
  if (missing.length > 0) return `does not say where they were ${missing.join(' and ')}; ${FORM}`;
  const fields = [...countries].map(([step, country]) => [STEPS[step], country]);
  return Object.fromEntries(fields) as unknown as Origin;
}
