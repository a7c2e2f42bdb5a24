import type { Supply } from '../batch/lot.ts';
import type { ProductOfPlant } from '../correct/correction.ts';
import type { MixLine } from '../correct/tested-mix.ts';
import { add, exact, multiply, subtract, toNumber, ZERO } from '../exact.ts';
import { findStandard, notKnownOn } from '../rules/standard.ts';
import { fractionOfPercent, KILOGRAMS_PER, kilograms, massText } from '../units.ts';
import { type BlendTask, prepareBlend } from './blend-task.ts';
import { type Desk, unusable } from './blending.ts';
import { blendRequestSchema } from './contract/blend-request.ts';
import {
  type CorrectionAnswer,
  type CorrectionInput,
  correctionRequestSchema,
} from './contract/correction.ts';
import { correctionAnswer } from './correction-answer.ts';
import type { CorrectionTask } from './jobs.ts';
import { type RequestIssue, unknownMaterial } from './own-inputs.ts';
import { parseOrProblem } from './parse.ts';

/** What brings a load back, or why nothing does. @throws Problem when the request cannot be used. */
export async function correction(desk: Desk, body: unknown): Promise<CorrectionAnswer> {
  const request = parseOrProblem(correctionRequestSchema, body);
  const task = prepareCorrection(request, body as Readonly<Record<string, unknown>>, desk);
  const found = await desk.work('correction', task);
  if (found.outcome === 'refused') throw unusable(found.issues, request);
  return correctionAnswer(task, found);
}

/** Looks up what the request names, as for a blend of the same product; the size of that blend is not used. */
function prepareCorrection(
  request: CorrectionInput,
  sent: Readonly<Record<string, unknown>>,
  desk: Desk,
): CorrectionTask {
  const { inMixer: _, testedFat: __, confidence: ___, capacity: ____, excludeLots: _____, ...shared } = sent;
  const asBlend = blendRequestSchema.parse({ ...shared, batchSize: { total: { value: 1, unit: 'kg' } } });
  const prepared = prepareBlend(asBlend, desk.data, desk.ruleSets, desk.today());
  if (!prepared.ok) throw unusable(prepared.issues, request);
  const { task } = prepared;
  const issues: RequestIssue[] = [];
  const inMixer = mixOf(request, task, desk, issues);
  request.excludeLots.forEach((id, index) => {
    if (task.supplies.some(({ lot }) => lot?.id === id)) return;
    const message = `"${id}" is no lot on hand; take it out of the list`;
    issues.push({ path: ['excludeLots', index], message });
  });
  if (issues.length > 0) throw unusable(issues, request);
  const { product, standard, edition, date, plant, houseRules } = task;
  const { testedFat, confidence, capacity } = request;
  const { fatFraction, sdPoints, method } = testedFat;
  return {
    product,
    standard,
    edition,
    date,
    plant,
    ...(houseRules && { houseRules }),
    inMixer,
    testedFat: { fatFraction, sdFraction: fractionOfPercent(sdPoints), method },
    supplies: leftOver(request, task.supplies, inMixer),
    ...(capacity && { capacityKg: kilograms(capacity) }),
    ...sureness(confidence, task),
    others: otherProducts(task, desk),
  };
}

/** The confidence asked, or that of the house on a limit of this product where it is higher. */
export function sureness(
  asked: number | undefined,
  { product, houseRules }: Pick<BlendTask, 'product' | 'houseRules'>,
): { confidence?: number } {
  const house = (houseRules?.certainty ?? [])
    .filter(({ products }) => products?.includes(product.id) ?? true)
    .map(({ confidence }) => confidence);
  const highest = Math.max(asked ?? 0, ...house);
  return highest > 0 ? { confidence: highest } : {};
}

/** The weighings with the supplies they were taken from. */
function mixOf(
  { inMixer, lots }: CorrectionInput,
  { supplies }: BlendTask,
  { data }: Desk,
  issues: RequestIssue[],
): MixLine[] {
  return inMixer.flatMap(({ lotId, materialId, mass }, index): MixLine[] => {
    const supply = supplies.find(({ id, lot }) => (lot ? id === lotId : id === materialId));
    const refuse = (field: string, message: string) =>
      issues.push({ path: ['inMixer', index, field], message });
    if (supply) {
      const massKg = multiply(exact(mass.value), KILOGRAMS_PER[mass.unit]);
      if (lots === 'inventory' && toNumber(massKg) > supply.onHandKg) {
        const had = massText(supply.onHandKg, mass.unit);
        refuse('mass', `${mass.value} ${mass.unit} is more than the lot had, ${had}; correct one of the two`);
      }
      return [{ supply, massKg }];
    }
    if (lotId !== undefined)
      refuse('lotId', `"${lotId}" is no lot on hand; correct the id, or give the lot under lots`);
    else if (supplies.some(({ material }) => material.id === materialId))
      refuse('materialId', `"${materialId}" is kept in lots; write the lotId that was weighed`);
    else if (data.materials.has(materialId ?? ''))
      refuse('materialId', `"${materialId}" has neither a lot nor a price; give its price under prices`);
    else refuse('materialId', unknownMaterial(materialId ?? ''));
    return [];
  });
}

/** What is left to add: of the plant's lots the weighed amounts are taken off, lots of the request stand as given. */
function leftOver(
  { lots, excludeLots }: CorrectionInput,
  supplies: readonly Supply[],
  inMixer: readonly MixLine[],
): Supply[] {
  const kept = supplies.filter(({ lot }) => !(lot && excludeLots.includes(lot.id)));
  if (lots !== 'inventory') return kept;
  return kept.map((supply) => {
    const weighed = inMixer
      .filter((line) => line.supply.id === supply.id)
      .reduce((total, { massKg }) => add(total, massKg), ZERO);
    if (weighed === ZERO || !Number.isFinite(supply.onHandKg)) return supply;
    return { ...supply, onHandKg: Math.max(0, toNumber(subtract(exact(supply.onHandKg), weighed))) };
  });
}

/** The other products of the plant whose rules are known on the day. */
export function otherProducts(
  { product, date }: Pick<BlendTask, 'product' | 'date'>,
  { data, ruleSets }: Desk,
): ProductOfPlant[] {
  return [...data.products.values()].flatMap(({ product: other }): ProductOfPlant[] => {
    if (other.id === product.id) return [];
    const ruleSet = ruleSets.find(({ jurisdiction }) => jurisdiction === other.standard.jurisdiction);
    if (!ruleSet || notKnownOn(ruleSet, date)) return [];
    const standard = findStandard(ruleSet, other.standard.productClass);
    return standard ? [{ product: other, standard }] : [];
  });
}
