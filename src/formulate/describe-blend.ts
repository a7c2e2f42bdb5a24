import { isMeat } from '../batch/material.ts';
import { type Exact, exact, multiply, toNumber } from '../exact.ts';
import type { Check } from '../rules/check.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Form } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import type { Blend, BlendLine, LeftOut, Makeup } from './blend.ts';
import type { FormulationRequest } from './request.ts';
import { lineKg, type WeighedLine } from './round.ts';
import { LEAST_DIVISIONS, printedWeight } from './scales.ts';

interface Settled {
  readonly request: FormulationRequest;
  readonly coefficients: Coefficients;
  readonly lines: readonly WeighedLine[];
  readonly loads: number;
  readonly masses: readonly Exact[];
  readonly checks: readonly Check[];
  readonly leftOut: readonly LeftOut[];
  readonly unroundedCost: number;
}

/** Everything a person wants to know of a settled blend; all of it follows from the printed weights. */
export function describeBlend(settled: Settled): Blend {
  const { coefficients, masses, loads, checks, leftOut, unroundedCost } = settled;
  const totalKg = (form: Form) => toNumber(coefficients.total(form, masses));
  const lines = settled.lines.map((line) => blendLine(line, settled)).sort(byPlaceInTheBatch);
  const batchKg = totalKg(FORMS.formula);
  return {
    lines,
    loads,
    batchKg,
    loadKg: batchKg / loads,
    greenWeightKg: totalKg(FORMS.greenWeight),
    finishedKg: totalKg(FORMS.finished),
    cost: totalKg(FORMS.cost),
    unroundedCost,
    checks,
    raw: makeup(totalKg, FORMS.fat, FORMS.water, FORMS.formula),
    finished: makeup(totalKg, FORMS.finishedFat, FORMS.finishedWater, FORMS.finished),
    leftOut,
    cautions: cautions(lines, settled),
  };
}

function blendLine(line: WeighedLine, { request, loads }: Settled): BlendLine {
  const { supply } = line;
  const exactMassKg = multiply(lineKg(line), exact(loads));
  const massKg = toNumber(exactMassKg);
  const recipe = request.product.seasoning.find(({ materialId }) => materialId === supply.material.id);
  const isFixed = recipe !== undefined && recipe.minFraction === recipe.maxFraction;
  return {
    supply,
    ...(isFixed && { asked: { fraction: recipe.minFraction, basis: recipe.basis } }),
    weight: printedWeight(line.scale, line.divisions),
    massKg,
    exactMassKg,
    cost: massKg * supply.costPerKg,
  };
}

/** Meat first, then what is added to it, each from heavy to light. */
function byPlaceInTheBatch(a: BlendLine, b: BlendLine): number {
  const place = ({ supply }: BlendLine) => (isMeat(supply.material) ? 0 : 1);
  return place(a) - place(b) || b.massKg - a.massKg || (a.supply.id < b.supply.id ? -1 : 1);
}

function makeup(totalKg: (form: Form) => number, fat: Form, water: Form, basis: Form): Makeup {
  const basisKg = totalKg(basis);
  const share = (form: Form) => totalKg(form) / basisKg;
  return {
    fatFraction: share(fat),
    waterFraction: share(water),
    proteinFraction: share(FORMS.protein),
    saltFraction: share(FORMS.salt),
  };
}

function cautions(lines: readonly BlendLine[], { checks, request }: Settled): string[] {
  const found: string[] = [];
  for (const { supply, weight } of lines) {
    if (weight.divisions < LEAST_DIVISIONS) {
      found.push(
        `${supply.material.name}: ${weight.text} ${weight.scale.unit} is only ${weight.divisions} divisions of the ${weight.scale.name}; weigh it on a finer scale or blend it beforehand.`,
      );
    }
  }
  const untested = lines.filter(({ supply }) => isMeat(supply.material) && !supply.lot?.measuredFat);
  if (untested.length > 0) {
    found.push(
      `Fat of ${untested.map(({ supply }) => supply.id).join(', ')} is the figure of its class, not a test of the lot: test the ground batch.`,
    );
  }
  const fromMemory = checks.filter(
    ({ limit }) => limit.read === 'from memory' && limit.bound > 0 && limit.authority === 'law',
  );
  const touched = fromMemory.filter(({ numeratorKg }) => numeratorKg > 0);
  if (touched.length > 0) {
    found.push(
      `The limits on these were entered from memory; look at the rule itself before relying on them: ${[...new Set(touched.map(({ limit }) => limit.numerator.says))].join(', ')}.`,
    );
  }
  if (request.product.process.yieldFraction !== 1) {
    found.push(
      `Figures of the finished product rest on the declared yield of ${toNumber(multiply(exact(request.product.process.yieldFraction), exact(100)))} %: weigh the finished batch and compare.`,
    );
  }
  return found;
}
