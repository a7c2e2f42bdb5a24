import type { LimitAnswer } from '../../api/contract/blend-answer.ts';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { RuleSetsAnswer } from '../../api/contract/resources.ts';
import type { HouseDraft } from './house-draft.ts';

/** What every part of the form of the house rules works with. */
export interface HouseForm {
  readonly value: HouseDraft;
  readonly set: (change: Partial<HouseDraft>) => void;
  readonly fault: (...pointers: string[]) => string | undefined;
  /** Limits of the plant's market by id. */
  readonly limits: ReadonlyMap<string, LimitAnswer>;
  readonly forms: RuleSetsAnswer['forms'];
  readonly products: readonly ProductInput[];
}
