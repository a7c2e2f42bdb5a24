import { ANZ_CASES } from './anz.ts';
import { CA_CASES } from './ca.ts';
import type { LimitCases } from './case.ts';
import { CODEX_CASES } from './codex.ts';
import { EU_CASES } from './eu.ts';
import { GB_CASES } from './gb.ts';
import { US_CASES } from './us.ts';
import { US_CURED_CUT_CASES } from './us-cured-cuts.ts';

const all: readonly LimitCases[] = [
  US_CASES,
  US_CURED_CUT_CASES,
  EU_CASES,
  GB_CASES,
  CA_CASES,
  CODEX_CASES,
  ANZ_CASES,
];

/** The cases of all rule sets; an id that stands twice would hide one of its cases. */
function merged<Key extends keyof LimitCases>(key: Key): LimitCases[Key] {
  const entries = all.flatMap((cases) => Object.entries(cases[key]));
  const ids = new Set(entries.map(([id]) => id));
  if (ids.size !== entries.length) throw new Error(`a limit stands twice in ${key}`);
  return Object.fromEntries(entries) as LimitCases[Key];
}

export const AT_THE_BOUND = merged('atTheBound');
export const KEPT_OUT = merged('keptOut');
export const BRINGS = merged('brings');
