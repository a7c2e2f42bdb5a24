import type { RuleSet } from '../rules/standard.ts';
import { ANZ } from './anz/anz.ts';
import { CA } from './ca/ca.ts';
import { CODEX } from './codex/codex.ts';
import { EU } from './eu/eu.ts';
import { GB } from './gb/gb.ts';
import { US } from './us/us.ts';

/** Every jurisdiction the product knows. A new one is a folder and a line here. */
export const RULE_SETS: readonly RuleSet[] = [US, EU, GB, CA, CODEX, ANZ];
