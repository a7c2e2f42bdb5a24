import { isMeat } from '../batch/material.ts';
import { printedWeight } from '../batch/scale.ts';
import { type Exact, exact, multiply, ratio, sum, toNumber, ZERO } from '../exact.ts';
import { type Check, checkLimits, explain } from '../rules/check.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { missingFigures } from '../rules/eligibility.ts';
import type { Form } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import type { Applied } from '../rules/house-rules.ts';
import type { SizeRow } from './batch-model.ts';
import type { AskedRate, Blend, BlendLine, Makeup, SwitchedOff } from './blend.ts';
import { blendCautions } from './cautions.ts';
import { basisForm } from './house-limits.ts';
import type { FormulationRequest } from './request.ts';
import { lineKg, type WeighedLine } from './round.ts';

/** What a blend says beyond its weights, as it was worked out beside them. */
type Told = Pick<
  Blend,
  | 'unroundedCost'
  | 'proof'
  | 'certainty'
  | 'costOfCertainty'
  | 'costOfOlderFirst'
  | 'choice'
  | 'worth'
  | 'leftOut'
>;

interface Settled {
  readonly request: FormulationRequest;
  readonly coefficients: Coefficients;
  readonly lines: readonly WeighedLine[];
  readonly loads: number;
  readonly masses: readonly Exact[];
  readonly checks: readonly Check[];
  readonly switchedOff: Applied['switchedOff'];
  readonly size: SizeRow;
  readonly told: Told;
}

/** Everything a person wants to know of a settled blend; all of it follows from the printed weights. */
export function describeBlend(settled: Settled): Blend {
  const { coefficients, masses, loads, checks, told } = settled;
  const totalKg = (form: Form) => toNumber(coefficients.total(form, masses));
  const lines = settled.lines.map((line) => blendLine(line, settled)).sort(byPlaceInTheBatch);
  const batchKg = totalKg(FORMS.formula);
  const greenWeightKg = totalKg(FORMS.greenWeight);
  const finished = makeup(totalKg, FORMS.finishedFat, FORMS.finishedWater, FORMS.finished);
  return {
    lines,
    loads,
    batchKg,
    loadKg: batchKg / loads,
    greenWeightKg,
    finishedKg: totalKg(FORMS.finished),
    cost: totalKg(FORMS.cost),
    ...told,
    checks: checks.map((check) => explain(check, coefficients, masses)),
    switchedOff: settled.switchedOff.map((off) => switchedOffCheck(off, settled)),
    raw: makeup(totalKg, FORMS.fat, FORMS.water, FORMS.formula),
    finished,
    cautions: blendCautions({
      product: settled.request.product,
      lines,
      checks,
      switchedOff: settled.switchedOff,
      greenWeightKg,
      finished,
      missing: missingSize(settled.size, totalKg),
    }),
  };
}

/** What the batch lacks of the asked size, and what of it is; rounding to coarse scales on the last of a lot leaves some. */
function missingSize({ form, massKg }: SizeRow, totalKg: (form: Form) => number) {
  return { says: form.says, askedKg: massKg, missingKg: massKg - totalKg(form) };
}

/** How the batch stands to a limit that it need not keep. */
function switchedOffCheck(
  { limit, reason }: Applied['switchedOff'][number],
  { coefficients, masses }: Settled,
): SwitchedOff {
  const isUnknown = missingFigures([limit], coefficients.supplies, coefficients.process).length > 0;
  const [check] = isUnknown ? [] : checkLimits([limit], coefficients, masses);
  return { limit, reason, ...(check && { check: explain(check, coefficients, masses) }) };
}

function blendLine(line: WeighedLine, settled: Settled): BlendLine {
  const { supply } = line;
  const exactMassKg = multiply(lineKg(line), exact(settled.loads));
  const massKg = toNumber(exactMassKg);
  const asked = rateOf(line, settled);
  return {
    supply,
    ...(asked && { asked }),
    weight: printedWeight(line.scale, line.divisions),
    massKg,
    exactMassKg,
    cost: massKg * supply.costPerKg,
  };
}

/** What a fixed line is asked to be, and what all lots of its material together have become on the scales. */
function rateOf(
  { supply }: WeighedLine,
  { request, coefficients, lines, masses }: Settled,
): AskedRate | undefined {
  const recipe = request.product.seasoning.find(({ materialId }) => materialId === supply.material.id);
  if (!recipe || recipe.minFraction !== recipe.maxFraction) return undefined;
  const ofMaterial = lines.filter((other) => other.supply.material.id === supply.material.id);
  const mass = sum(ofMaterial.map(({ column }) => masses[column] ?? ZERO));
  return {
    fraction: recipe.minFraction,
    basis: recipe.basis,
    actualFraction: ratio(mass, coefficients.total(basisForm(recipe.basis, request.product), masses)),
    togetherWith: ofMaterial.map((other) => other.supply.id).filter((id) => id !== supply.id),
  };
}

/** Meat first, then what is added to it, each from heavy to light. */
function byPlaceInTheBatch(a: BlendLine, b: BlendLine): number {
  const place = ({ supply }: BlendLine) => (isMeat(supply.material) ? 0 : 1);
  return place(a) - place(b) || b.massKg - a.massKg || (a.supply.id < b.supply.id ? -1 : 1);
}

export function makeup(totalKg: (form: Form) => number, fat: Form, water: Form, basis: Form): Makeup {
  const basisKg = totalKg(basis);
  const share = (form: Form) => totalKg(form) / basisKg;
  return {
    fatFraction: share(fat),
    waterFraction: share(water),
    proteinFraction: share(FORMS.protein),
    saltFraction: share(FORMS.salt),
  };
}
