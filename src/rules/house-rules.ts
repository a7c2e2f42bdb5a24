import { CURING_AGENTS } from '../batch/carries.ts';
import type { HouseRules, OwnLimit, TighterLimit } from '../batch/house-rules.ts';
import type { Product } from '../batch/product.ts';
import { type Form, formsOf, type WorstOf } from './form.ts';
import { FORMS } from './forms.ts';
import { fromShownUnit, type Limit, shownBound } from './limit.ts';
import type { RuleSet } from './standard.ts';

/** The limits of a product once the house has had its say. */
export interface Applied {
  readonly limits: readonly Limit[];
  readonly switchedOff: readonly { readonly limit: Limit; readonly reason: string }[];
}

/** A rule of the house that cannot stand, with its place among the rules. */
export interface HouseRuleProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

const forms: ReadonlyMap<string, Form | WorstOf> = new Map(Object.entries(FORMS));
/** A basis is one form: the worst of several has no meaning below the line. */
const bases: ReadonlyMap<string, Form> = new Map(
  [...forms].flatMap(([name, form]) => ('terms' in form ? [[name, form] as const] : [])),
);

/**
 * The limits of the law with the house's own: tighter copies beside them, its own limits after them, and what it
 * has switched off apart. Rules about limits that the product does not have are passed over.
 */
export function applyHouseRules(limits: readonly Limit[], rules: HouseRules, product: Product): Applied {
  const reasons = new Map(
    rules.switchedOff
      .filter(({ products }) => products?.includes(product.id) ?? true)
      .map(({ limitId, reason }) => [limitId, reason]),
  );
  const held = limits.filter(({ id }) => !reasons.has(id));
  return {
    limits: [
      ...held,
      ...rules.tighter.flatMap((rule) => held.filter(({ id }) => id === rule.limitId).map(tightened(rule))),
      ...rules.own.filter((own) => appliesTo(own, product)).flatMap(ownLimit),
    ],
    switchedOff: limits.flatMap((limit) => {
      const reason = reasons.get(limit.id);
      return reason === undefined ? [] : [{ limit, reason }];
    }),
  };
}

const tightened =
  ({ bound, reason }: TighterLimit) =>
  (limit: Limit): Limit => ({
    ...limit,
    id: `house-${limit.id}`,
    says: `House limit of ${bound} ${limit.unit === 'percent' ? '%' : limit.unit}, inside the law's: ${limit.says}`,
    bound: fromShownUnit(bound, limit.unit),
    authority: 'house',
    citation: `house limit (${limit.citation})`,
    ...(reason !== undefined && { note: reason }),
  });

function appliesTo({ products, productClasses }: OwnLimit, { id, standard }: Product): boolean {
  return (products?.includes(id) ?? true) && (productClasses?.includes(standard.productClass) ?? true);
}

function ownLimit({ id, says, numerator, basis, sense, bound, unit }: OwnLimit): Limit[] {
  const [counted, of] = [forms.get(numerator), bases.get(basis)];
  if (!counted || !of) return [];
  return [
    {
      id: `house-own-${id}`,
      says,
      numerator: counted,
      basis: of,
      sense,
      bound: fromShownUnit(bound, unit),
      unit,
      authority: 'house',
      citation: 'house limit',
      read: 'official',
    },
  ];
}

/** Everything in a plant's rules that cannot stand beside the law as it is known here. */
export function houseRuleProblems(rules: HouseRules, ruleSets: readonly RuleSet[]): HouseRuleProblem[] {
  const known = new Map(
    ruleSets
      .flatMap(({ standards }) => standards.flatMap(({ limits }) => limits))
      .map((limit) => [limit.id, limit]),
  );
  return [
    ...rules.tighter.flatMap((rule, index) =>
      at(['tighter', index], whyNoTighter(rule, known.get(rule.limitId)) ?? whyBoth(rule, rules)),
    ),
    ...rules.own.flatMap((own, index) => at(['own', index], whyNotOwn(own))),
    ...rules.switchedOff.flatMap(({ limitId }, index) =>
      at(['switchedOff', index], whyNotOff(limitId, known.get(limitId))),
    ),
    // Limits of the house depend on the product: one that a product lacks is passed over there.
    ...(rules.certainty ?? []).flatMap(({ limitId }, index) =>
      at(
        ['certainty', index],
        limitId.startsWith('house-') || known.has(limitId) ? undefined : unknownLimit(limitId),
      ),
    ),
  ];
}

type Fault = readonly [field: string, message: string];

const at = (path: readonly (string | number)[], fault: Fault | undefined): HouseRuleProblem[] =>
  fault ? [{ path: [...path, fault[0]], message: fault[1] }] : [];

const unknownLimit = (limitId: string): Fault => [
  'limitId',
  `"${limitId}" is no limit of any rule set; the list of rules has their ids`,
];

function whyNoTighter({ limitId, bound }: TighterLimit, limit: Limit | undefined): Fault | undefined {
  if (!limit) return unknownLimit(limitId);
  if (limit.sense === 'present' || limit.sense === 'target' || limit.bound === 0) {
    return ['limitId', `"${limitId}" has no bound that could be tighter; take the rule out`];
  }
  const law = shownBound(limit);
  const isInside = limit.sense === 'max' ? bound < law : bound > law;
  if (isInside) return undefined;
  const side = limit.sense === 'max' ? 'below' : 'above';
  return [
    'bound',
    `${bound} is no tighter than the ${law} ${limit.unit} of the law; write a figure ${side} it`,
  ];
}

/** What is switched off for every product cannot be tighter for one. */
function whyBoth({ limitId }: TighterLimit, { switchedOff }: HouseRules): Fault | undefined {
  const isOff = switchedOff.some((off) => off.limitId === limitId && off.products === undefined);
  return isOff ? ['limitId', `"${limitId}" is switched off as well; keep one of the two rules`] : undefined;
}

function whyNotOwn({ numerator, basis }: OwnLimit): Fault | undefined {
  if (!forms.has(numerator)) return ['numerator', unknownForm(numerator, forms)];
  if (!bases.has(basis)) return ['basis', unknownForm(basis, bases)];
  return undefined;
}

function unknownForm(name: string, known: ReadonlyMap<string, unknown>): string {
  return `"${name}" is no form; choose one of ${[...known.keys()].join(', ')}`;
}

/** A most of nitrite or nitrate guards against poisoning: no reason of a plant sets it aside. */
function whyNotOff(limitId: string, limit: Limit | undefined): Fault | undefined {
  if (!limit) return unknownLimit(limitId);
  const countsCure = formsOf(limit.numerator).some(({ terms }) =>
    terms.some(
      ({ of }) => typeof of === 'object' && 'substance' in of && CURING_AGENTS.includes(of.substance),
    ),
  );
  if (!countsCure || limit.sense === 'min') return undefined;
  return [
    'limitId',
    `"${limitId}" keeps nitrite or nitrate in bounds and cannot be switched off; choose the product class that fits`,
  ];
}
