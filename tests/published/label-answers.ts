import type { Material } from '../../src/batch/material.ts';
import type { Plant } from '../../src/batch/plant.ts';
import { exact, multiply } from '../../src/exact.ts';
import { claimsToPrint, testedClaims } from '../../src/labels/claims.ts';
import { declare } from '../../src/labels/declaration.ts';
import { marketOf } from '../../src/labels/markets/all.ts';
import type { Nutrient } from '../../src/labels/nutrition/nutrient.ts';
import type { NutrientFigure } from '../../src/labels/nutrition/nutrition.ts';
import { blendLine, blendOf, material, standardOf, testMaterial, testProduct } from '../helpers/materials.ts';
import type { ClaimRow, LabelRow } from './row.ts';

const PLANT: Plant = {
  name: 'Demo Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'kg',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 100,
  scales: [],
};

/** Materials of these rows alone. */
const OWN: Readonly<Record<string, Material>> = {
  'mustard-seed': material('mustard-seed', 'spice', { allergens: ['mustard'] }),
  celery: material('celery', 'vegetable', { allergens: ['celery'] }),
};

/** The part of the label that a row is about. */
export function printedLabel({ jurisdiction, productClass, leanPercent, lines, finishedKg, part }: LabelRow) {
  const standard = standardOf(productClass, jurisdiction);
  const product = testProduct(productClass, {
    standard: { jurisdiction, productClass },
    process: { ...testProduct(productClass).process, cooking: standard.cooking[0] ?? 'raw' },
    label: { storage: 'keep refrigerated', ...(leanPercent !== undefined && { leanPercent }) },
  });
  const blend = blendOf(lines.map(([id, massKg]) => blendLine(OWN[id] ?? testMaterial(id), massKg)));
  const label = declare(product, standard, { ...blend, finishedKg: finishedKg ?? blend.finishedKg }, PLANT);
  const parts: Readonly<Record<LabelRow['part'], string | undefined>> = {
    name: label.name,
    'first qualifier': label.qualifiers[0]?.text,
    'lean pair': label.leanPair?.text,
    statement: label.ingredients.text,
    allergens: label.allergens.text,
  };
  return parts[part];
}

/** Whether a claim is among those that may be printed. */
export function mayClaim({ claim, per100g: [fat, saturated, cholesterol], referenceG }: ClaimRow): boolean {
  const known = (amount: number, unit: 'g' | 'mg'): NutrientFigure => ({
    amount,
    unit,
    from: [],
    notKnown: [],
  });
  const amounts = new Map<Nutrient, number>([
    ['fat', fat],
    ['saturated fat', saturated],
    ['cholesterol', cholesterol],
  ]);
  const claims = testedClaims(marketOf('us'), [claim], {
    amountIn: (nutrient, grams) =>
      multiply(multiply(exact(amounts.get(nutrient) ?? 0), grams), exact('0.01')),
    nutrition: {
      basis: 'a row',
      energyKcalPer100g: 0,
      energyKjPer100g: 0,
      per100g: {
        fat: known(fat, 'g'),
        'saturated fat': known(saturated, 'g'),
        cholesterol: known(cholesterol, 'mg'),
      },
      panel: {
        format: 'us vertical',
        title: 'Nutrition Facts',
        columns: [],
        energy: { label: 'Calories', text: '0' },
        rows: [],
        footnotes: [],
        citation: 'a row',
      },
      cautions: [],
    },
    reference: { grams: referenceG, says: 'a row', citation: 'a row', read: 'official' },
    notOfUnitedStates: [],
  });
  return claimsToPrint({ claims }).length === 1;
}
