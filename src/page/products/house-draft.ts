import type { HouseRulesBody } from '../../api/contract/blend-request.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';
import { digitsOf, fractionOf } from './rates.ts';
import { given } from './to-product.ts';

export type HouseRules = HouseRulesBody;
type Own = HouseRules['own'][number];

/** The plant's own rules as they stand in the form. */
export interface HouseDraft {
  readonly tighter: readonly { readonly limitId: string; readonly bound: string; readonly reason: string }[];
  readonly own: readonly OwnDraft[];
  readonly certainty: readonly CertainDraft[];
  readonly switchedOff: HouseRules['switchedOff'];
  readonly begunFrom?: number;
}

export interface OwnDraft extends Pick<Own, 'numerator' | 'basis' | 'sense' | 'unit'> {
  readonly id: string;
  readonly says: string;
  readonly bound: string;
  readonly products: readonly string[];
  readonly productClasses: readonly string[];
}

export interface CertainDraft {
  readonly limitId: string;
  /** Percent. */
  readonly confidence: string;
  readonly products: readonly string[];
}

export function houseDraftOf(rules: HouseRules, mark: DecimalMark): HouseDraft {
  const number = (value: number) => withMark(String(value), mark);
  return {
    tighter: rules.tighter.map(({ limitId, bound, reason = '' }) => ({
      limitId,
      bound: number(bound),
      reason,
    })),
    own: rules.own.map(({ bound, products = [], productClasses = [], ...own }) => ({
      ...own,
      bound: number(bound),
      products,
      productClasses,
    })),
    certainty: rules.certainty.map(({ limitId, confidence, products = [] }) => ({
      limitId,
      confidence: withMark(digitsOf(confidence), mark),
      products,
    })),
    switchedOff: rules.switchedOff,
  };
}

/** The rules as the service takes them; undefined where a figure cannot be read. What is empty it will name. */
export function houseRulesOf(draft: HouseDraft, mark: DecimalMark): HouseRules | undefined {
  let isReadable = true;
  const digits = (typed: string): string | undefined => {
    const parsed = parseNumber(typed, mark);
    if (parsed.kind === 'number') return parsed.text;
    isReadable = false;
    return undefined;
  };
  const list = (words: readonly string[]) => (words.length > 0 ? [...words] : undefined);
  const rules = {
    tighter: draft.tighter.map(({ limitId, bound, reason }) => ({
      limitId,
      bound: Number(digits(bound)),
      ...given({ reason: reason.trim() || undefined }),
    })),
    own: draft.own.map(({ bound, products, productClasses, ...own }) => ({
      ...own,
      bound: Number(digits(bound)),
      ...given({ products: list(products), productClasses: list(productClasses) }),
    })),
    switchedOff: [...draft.switchedOff],
    certainty: draft.certainty.map(({ limitId, confidence, products }) => ({
      limitId,
      confidence: fractionOf(digits(confidence) ?? '0'),
      ...given({ products: list(products) }),
    })),
  };
  return isReadable ? (rules as HouseRules) : undefined;
}
