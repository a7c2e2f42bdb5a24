import type { Product } from '../../batch/product.ts';
import { toNumber } from '../../exact.ts';
import { isPoultryProduct, type ReferenceAmount, type Standard } from '../../rules/standard.ts';
import { fixed } from '../../units.ts';
import type { LabelBatch } from '../put-in.ts';
import { type Makeup, makeupOf, percentOfRaw, waterLeft } from './brought.ts';
import { CA_MUST_SHOW, canadaPanel, symbolSentence } from './canada-panel.ts';
import {
  CANADA_CAUTIONS,
  casingCaution,
  EU_CAUTIONS,
  exemptionCautions,
  isOneIngredient,
  missingCaution,
  NO_RULES,
  smallBusiness,
  smallUnknowns,
  usPanelCautions,
  usRules,
} from './cautions.ts';
import { EU_MUST_SHOW, euPanel } from './eu-panel.ts';
import { type Counting, EUROPE, type Facts, factsOf, figures, NORTH_AMERICA, notKnown } from './facts.ts';
import type { Nutrient } from './nutrient.ts';
import type { Nutrition } from './nutrition.ts';
import type { NutritionPanel } from './panel.ts';
import { servingOf } from './serving.ts';
import { US_MUST_SHOW, usPanel } from './us-panel.ts';

/** How the place where a product is sold counts and prints nutrition. */
interface PanelRules {
  readonly counting: Counting;
  /** Figures without which there is no panel. */
  readonly mustShow: readonly Nutrient[];
  readonly panel?: (facts: Facts, reference: ReferenceAmount) => NutritionPanel;
  /** Whether the panel is for a serving. */
  readonly isByServing: boolean;
  /** What to say beside it, and what whether it is printed or not. */
  readonly cautions: (facts: Facts, reference?: ReferenceAmount) => readonly string[];
  readonly always?: readonly string[];
}

/** Every nutrient of a batch, unrounded, as its market counts it; undefined where nothing went in. */
export function factsOfBatch(product: Product, standard: Standard, batch: LabelBatch): Facts | undefined {
  if (batch.finishedKg <= 0 || batch.lines.every(({ exactMassKg }) => exactMassKg.digits === 0n)) {
    return undefined;
  }
  return factsOf(makeupOf(batch, product.process), panelRulesOf(product, standard).counting);
}

/** Nutrition of a batch, as planned or as weighed, and the panel of its market. */
export function nutritionOf(product: Product, standard: Standard, facts: Facts): Nutrition {
  const { mustShow, panel, isByServing, cautions, always = [] } = panelRulesOf(product, standard);
  const reference = standard.referenceAmounts?.[product.process.cooking];
  const whyNot = [
    ...exemptionCautions(product),
    ...(panel ? faults(facts, mustShow) : [NO_RULES]),
    ...(isByServing && !reference ? [NO_REFERENCE_AMOUNT] : []),
  ];
  const printed = whyNot.length === 0 ? panel?.(facts, reference ?? OF_100_G) : undefined;
  return {
    basis: basisOf(product, facts.makeup),
    ...figures(facts),
    ...(printed && { panel: printed }),
    cautions: [
      ...whyNot,
      ...(printed
        ? [
            ...smallUnknowns(facts, mustShow),
            ...packCaution(product, printed),
            ...casingCaution(product),
            ...cautions(facts, reference),
          ]
        : []),
      ...always,
    ],
  };
}

const OF_100_G: ReferenceAmount = { grams: 100, says: '100 g', citation: '', read: 'official' };

const NO_REFERENCE_AMOUNT =
  'No nutrition panel: no reference amount in grams is known for this class, and without it no serving.';

function panelRulesOf(product: Product, standard: Standard): PanelRules {
  const { jurisdiction } = product.standard;
  if (jurisdiction === 'us') {
    const species = isPoultryProduct(standard) ? 'poultry' : 'meat';
    return {
      counting: NORTH_AMERICA,
      mustShow: US_MUST_SHOW,
      panel: (facts, reference) => usPanel(facts, servingOf(product, reference), reference, usRules(species)),
      isByServing: true,
      cautions: () => usPanelCautions(species),
      always: [smallBusiness(species)],
    };
  }
  if (jurisdiction === 'ca') {
    return {
      counting: NORTH_AMERICA,
      mustShow: CA_MUST_SHOW,
      panel: (facts, reference) => canadaPanel(facts, product, reference),
      isByServing: true,
      cautions: (facts, reference) => [
        ...CANADA_CAUTIONS,
        ...(reference ? [symbolSentence(facts, product, reference, isOneIngredient(facts))] : []),
      ],
    };
  }
  const isEurope = jurisdiction === 'eu' || jurisdiction === 'gb';
  return {
    counting: EUROPE,
    mustShow: EU_MUST_SHOW,
    ...(isEurope && { panel: (facts: Facts) => euPanel(facts, EU_CITATIONS[jurisdiction]) }),
    isByServing: false,
    cautions: () => EU_CAUTIONS,
  };
}

const EU_TEXT =
  'Regulation (EU) No 1169/2011, Articles 30 to 34 and Annex XV; rounding by the guidance of December 2012';
const EU_CITATIONS = { eu: EU_TEXT, gb: `${EU_TEXT}, as retained in Great Britain` } as const;

/** Why figures must not be printed. */
function faults(facts: Facts, mustShow: readonly Nutrient[]): string[] {
  const missing = notKnown(facts, mustShow);
  return [
    ...(missing.length > 0 ? [missingCaution(missing)] : []),
    ...(waterLeft(facts.makeup).digits < 0n
      ? ['No nutrition panel: more weight is gone than there was water to lose. Weigh it again.']
      : []),
  ];
}

function packCaution({ label }: Product, { format, serving }: NutritionPanel): string[] {
  if (!format.startsWith('us') || serving?.count !== undefined || (label.packs ?? []).length > 0) return [];
  return ['Servings per container depend on the pack: name it in label.packs.'];
}

const HOW: Readonly<Record<Product['process']['cooking'], string>> = {
  raw: 'Raw, as sold',
  cooked: 'Cooked, as sold',
  dried: 'Dried, as sold',
};

/** What was worked out, as a sentence. */
function basisOf({ process }: Product, makeup: Makeup): string {
  const how = HOW[process.cooking];
  const { taken, rawKg, finishedKg } = makeup;
  const own = taken.find(({ of }) => of === makeup.brought);
  const sum = 'the sum of what was weighed in, by the table of each ingredient';
  if (!own) return `${how}: ${sum}.`;
  const percent = (kg: typeof rawKg) => `${fixed(toNumber(percentOfRaw(kg, makeup)), 1)} %`;
  if (own.waterKg.digits < 0n) {
    return `${how}: ${sum}, and the water taken up to ${percent(finishedKg)} of the raw weight.`;
  }
  return `${how}: ${sum}, less water of ${percent(own.waterKg)} and fat of ${percent(own.fatKg)} of the raw weight. The parts of the fat and vitamin D go with the fat; everything else stays, which as a rule states cholesterol, sodium and potassium high.`;
}
