import type { RuleSet } from '../rules/standard.ts';
import { US } from './us/us.ts';

/** Every jurisdiction the product knows. A new one is a folder and a line here. */
export const RULE_SETS: readonly RuleSet[] = [US];
