import { fractionOfPercent, percentOfFraction } from '../../units.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';
import type { MaterialAnswer } from './stock-types.ts';

/** A material of the plant's own as it is typed: shares in percent. */
export interface TypedMaterial {
  readonly id: string;
  readonly name: string;
  readonly declaredName: string;
  readonly kind: string;
  readonly species: string;
  /** Percent of each part of the composition, by its name there. */
  readonly parts: Readonly<Record<string, string>>;
  /** Percent of each substance that a rule counts. */
  readonly substances: Readonly<Record<string, string>>;
  readonly allergens: readonly string[];
  /** With semicolons between. */
  readonly subIngredients: string;
  readonly madeIn: string;
  readonly source: string;
}

export const MAIN_PARTS = [
  'waterFraction',
  'fatFraction',
  'proteinFraction',
  'carbohydrateFraction',
  'ashFraction',
] as const;

export const FINER_PARTS = [
  'saltFraction',
  'collagenFraction',
  'saturatedFatFraction',
  'transFatFraction',
  'fiberFraction',
  'sugarsFraction',
  'addedSugarsFraction',
] as const;

export const EMPTY_MATERIAL: TypedMaterial = {
  id: '',
  name: '',
  declaredName: '',
  kind: 'spice',
  species: '',
  parts: {},
  substances: {},
  allergens: [],
  subIngredients: '',
  madeIn: '',
  source: '',
};

/** A material as the form shows it. @param isNew a like one is added: under a name of its own. */
export function typedMaterial(material: MaterialAnswer, mark: DecimalMark, isNew: boolean): TypedMaterial {
  const percents = (shares: object) =>
    Object.fromEntries(
      Object.entries(shares)
        .filter(([name]) => !name.includes('PerKg'))
        .map(([name, share]) => [name, withMark(String(percentOfFraction(share as number)), mark)]),
    );
  return {
    id: isNew ? '' : material.id,
    name: isNew ? '' : material.name,
    declaredName: material.declaredName,
    kind: material.kind,
    species: material.species ?? '',
    parts: percents(material.composition),
    substances: percents(material.substances),
    allergens: material.allergens,
    subIngredients: material.subIngredients.join('; '),
    madeIn: material.madeIn ?? '',
    source: isNew ? '' : material.source,
  };
}

/**
 * The material as the service takes it.
 * @param like the material that the form was filled from: what the form does not show of it (minerals) stays.
 * @returns the names of shares that cannot be read, where there are any.
 */
export function materialOf(
  typed: TypedMaterial,
  like: MaterialAnswer | undefined,
  mark: DecimalMark,
): { readonly body: object } | { readonly wrong: readonly string[] } {
  const wrong: string[] = [];
  const fractions = (percents: Readonly<Record<string, string>>) =>
    Object.fromEntries(
      Object.entries(percents).flatMap(([name, percent]) => {
        const parsed = parseNumber(percent, mark);
        if (parsed.kind === 'empty') return [];
        if (parsed.kind === 'number') return [[name, fractionOfPercent(parsed.text)]];
        wrong.push(name);
        return [];
      }),
    );
  const hidden = Object.entries(like?.composition ?? {}).filter(([name]) => name.includes('PerKg'));
  const given = (name: string, text: string) => (text.trim() === '' ? {} : { [name]: text.trim() });
  const body = {
    id: typed.id.trim(),
    name: typed.name.trim(),
    declaredName: typed.declaredName.trim() || typed.name.trim(),
    kind: typed.kind,
    ...given('species', typed.species),
    composition: { ...Object.fromEntries(hidden), ...fractions(typed.parts) },
    substances: fractions(typed.substances),
    allergens: typed.allergens,
    subIngredients: typed.subIngredients
      .split(';')
      .map((name) => name.trim())
      .filter(Boolean),
    ...given('madeIn', typed.madeIn.toUpperCase()),
    ...given('source', typed.source),
  };
  return wrong.length > 0 ? { wrong } : { body };
}
