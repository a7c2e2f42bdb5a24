import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { MaterialAnswer, RuleSetsAnswer } from '../../api/contract/resources.ts';
import type { ProductDraft } from './draft.ts';

/** What every part of the product form works with. */
export interface ProductForm {
  readonly value: ProductDraft;
  readonly set: (change: Partial<ProductDraft>) => void;
  /** What is wrong with a field of the product: '/seasoning/0/fraction'. */
  readonly fault: (...pointers: string[]) => string | undefined;
  readonly materials: ReadonlyMap<string, MaterialAnswer>;
  readonly ruleSets: RuleSetsAnswer['items'];
}

/** What the form chooses from. */
export interface Known {
  readonly materials: ReadonlyMap<string, MaterialAnswer>;
  readonly ruleSets: RuleSetsAnswer['items'];
  readonly products: readonly ProductInput[];
  readonly stocks: readonly { readonly id: string; readonly says: string }[];
}

export interface PartProps {
  readonly form: ProductForm;
}

/** The list with one of its entries changed. */
export const changedAt = <Item>(list: readonly Item[], at: number, change: Partial<Item>): readonly Item[] =>
  list.map((item, index) => (index === at ? { ...item, ...change } : item));

export const without = <Item>(list: readonly Item[], at: number): readonly Item[] =>
  list.filter((_item, index) => index !== at);

/** The list with a word in it or without it. */
export const toggled = (list: readonly string[], word: string, isOn: boolean): readonly string[] =>
  isOn ? [...list, word] : list.filter((each) => each !== word);
