import type { Allergen } from '../../batch/material.ts';

/** Words in the name of an ingredient that say what the allergen is; other names have it put behind. */
const TELLS: Readonly<Record<Allergen, RegExp>> = {
  milk: /\b\w*milk\b/gi,
  eggs: /\beggs?\b/gi,
  fish: /\b\w*fish\b/gi,
  'crustacean shellfish': /\bcrustaceans?\b/gi,
  'tree nuts':
    /\b(almond|hazelnut|walnut|cashew|pecan|brazil nut|pistachio|macadamia|pine nut)s?( nuts?)?\b/gi,
  wheat: /\bwheat\b|\bspelt\b/gi,
  peanuts: /\bpeanuts?\b/gi,
  soy: /\bsoya?\b|\bsoya?beans?\b/gi,
  sesame: /\bsesame\b/gi,
  rye: /\brye\b/gi,
  barley: /\bbarley\b/gi,
  oats: /\boats?\b/gi,
  celery: /\bceler(y|iac)\b/gi,
  mustard: /\bmustard\b/gi,
  lupin: /\blupins?\b/gi,
  molluscs: /\bmollus[ck]s?\b/gi,
};
/** Kinds of what is declared by its kind; that a shrimp is a crustacean, a buyer need not know. */
const KINDS: Readonly<Partial<Record<Allergen, RegExp>>> = {
  'tree nuts': TELLS['tree nuts'],
  fish: /\b(anchov(y|ies)|cod|salmon|tuna|herrings?|bass|flounder|pollock|sardines?|mackerel|tilapia|\w+fish)\b/gi,
  'crustacean shellfish': /\b(shrimps?|prawns?|crabs?|lobsters?|crayfish)\b/gi,
  molluscs: /\b(oysters?|mussels?|squid|clams?|scallops?|snails?)\b/gi,
};
const TELLS_SULFITE = /\b\w*sul(f|ph)ites?\b|\bsul(f|ph)ur dioxide\b/gi;

/** Words for what is made of an allergen as a rule. They do not name it, and only hint that a table lacks it. */
const MADE_OF: Readonly<Partial<Record<Allergen, RegExp>>> = {
  milk: /\b(whey|\w*casein(ates?)?|lactose|(?<!(cocoa|shea|nut|peanut|apple) )butter(?! beans?)|cream(?! of tartar)|\w*cheeses?|curds?|yogh?urt|ghee)\b/gi,
  eggs: /\b(albumen|albumin|mayonnaise|lysozyme|ovalbumin)\b/gi,
  fish: /\b(worcestershire|surimi|isinglass)\b/gi,
  wheat: /\b(semolina|durum|farina|seitan|rusks?|bread ?crumbs?|couscous|bulgh?ur|farro|triticale)\b/gi,
  soy: /\b(tofu|tempeh|tamari|miso|edamame|shoyu)\b/gi,
  sesame: /\b(tahini|benne|gingelly)\b/gi,
  barley: /\b(malt|malted|beer|ale)\b/gi,
  rye: /\btriticale\b/gi,
};

/** What a label may have to make stand out. */
export type DeclaredAllergen = Allergen | 'sulfites';

/** Where a text names the allergen, from and to. */
export function namedAt(text: string, allergen: DeclaredAllergen): { from: number; to: number }[] {
  const words = allergen === 'sulfites' ? TELLS_SULFITE : TELLS[allergen];
  return [...text.matchAll(words)].map(({ index, 0: word }) => ({ from: index, to: index + word.length }));
}

/** Whether a text speaks of the allergen, by its own name, that of a kind or of what is made of it. */
export function speaksOf(text: string, allergen: DeclaredAllergen): boolean {
  if (namedAt(text, allergen).length > 0) return true;
  return (
    allergen !== 'sulfites' &&
    (kindsIn(text, allergen).length > 0 || text.search(MADE_OF[allergen] ?? /$^/) >= 0)
  );
}

function kindsIn(text: string, allergen: Allergen): string[] {
  const kinds = KINDS[allergen];
  return kinds ? [...text.matchAll(kinds)].map(([word]) => word) : [];
}

/** The kinds of nut, fish or shellfish that an ingredient brings: as its name or its parts say, else its name. */
export function kindsOf(
  {
    declaredName,
    subIngredients,
  }: { readonly declaredName: string; readonly subIngredients: readonly string[] },
  allergen: Allergen,
): string[] {
  const found = [declaredName, ...subIngredients].flatMap((text) => kindsIn(text, allergen));
  return found.length > 0 ? found : [declaredName];
}
