import { afterAll, describe, expect, it } from 'vitest';
import { supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Plant } from '../../src/batch/plant.ts';
import { ingoingPpm, massShare } from '../../src/chemistry.ts';
import { exact, multiply, ratio, toNumber } from '../../src/exact.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { houseLimits } from '../../src/formulate/house-limits.ts';
import { declare } from '../../src/labels/declaration.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { formsOf } from '../../src/rules/form.ts';
import { declarableMeat } from '../../src/rules/forms/meat-content.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { inShownUnit, shownBound } from '../../src/rules/limit.ts';
import { declaredMeat } from '../../src/rules/meat-content.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import { fixed, inUnit, kilograms, perKilogram } from '../../src/units.ts';
import { ENGINES } from '../helpers/engines.ts';
import {
  blendOf,
  checkOne,
  LIMITS_BY_ID,
  limitOf,
  material,
  RAW,
  standardOf,
  testMaterial,
  testProduct,
  testSupply,
  type Weighed,
  weigh,
} from '../helpers/materials.ts';
import { ROWS } from './all-rows.ts';
import { mayClaim, printedLabel } from './label-answers.ts';
import { printedAs } from './printed-as.ts';
import {
  type BlendRow,
  type BoundaryRow,
  type ConversionRow,
  type DeclaredRow,
  type EntryRow,
  MARKS,
  type Mark,
  type PairRow,
  type PrintedRow,
  type PublishedRow,
  type QuotientRow,
  type ShareRow,
  type ValueRow,
  type VerdictRow,
} from './row.ts';

const counts = new Map<Mark, number>(MARKS.map((mark) => [mark, 0]));

describe('the published answers', () => {
  it('are at least thirty, each with its own id and a source', () => {
    expect(ROWS.length).toBeGreaterThanOrEqual(30);
    expect(new Set(ROWS.map(({ id }) => id)).size).toBe(ROWS.length);
    expect(ROWS.filter(({ source, says }) => source === '' || !says.endsWith('.'))).toEqual([]);
  });

  it('print the figure of every limit that has one', () => {
    const printed = ROWS.flatMap((row) => (row.kind === 'printed' ? [row.limitId] : []));
    const withFigure = [...LIMITS_BY_ID.values()].filter(({ bound }) => bound > 0).map(({ id }) => id);
    expect(printed.sort()).toEqual(withFigure.sort());
  });

  for (const row of ROWS) {
    it(`${row.id}: ${row.says} [${row.mark}; ${row.source}]`, () => {
      run(row);
      counts.set(row.mark, (counts.get(row.mark) ?? 0) + 1);
    });
  }

  afterAll(() => {
    const shown = MARKS.map((mark) => `${mark} ${counts.get(mark)}`).join(' · ');
    console.log(`published answers that hold, of ${ROWS.length}: ${shown}`);
  });
});

function run(row: PublishedRow): void {
  switch (row.kind) {
    case 'value':
      runValue(row);
      break;
    case 'boundary':
      runBoundary(row);
      break;
    case 'verdict':
      runVerdict(row);
      break;
    case 'entry':
      runEntry(row);
      break;
    case 'printed':
      runPrinted(row);
      break;
    case 'conversion':
      runConversion(row);
      break;
    case 'quotient':
      runQuotient(row);
      break;
    case 'share':
      runShare(row);
      break;
    case 'pair':
      runPair(row);
      break;
    case 'equivalent':
      expectWithin(massShare(row.part, row.whole, row.count) * (row.of ?? 1), row.published, row.tolerance);
      break;
    case 'dose':
      expectWithin(ingoingPpm(row), row.publishedPpm, row.tolerance);
      break;
    case 'declared':
      runDeclared(row);
      break;
    case 'rounding':
      expect(printedAs(row)).toBe(row.published);
      break;
    case 'label':
      expect(printedLabel(row)).toBe(row.published);
      break;
    case 'claim':
      expect(mayClaim(row)).toBe(row.holds);
      break;
    case 'blend':
      runBlend(row);
      break;
    default:
      row satisfies never;
  }
}

function expectWithin(found: number, published: number, tolerance: number): void {
  // A double next to the published one is the published one.
  const dust = 4 * Number.EPSILON * Math.abs(published);
  expect(Math.abs(found - published), `${found} for ${published}`).toBeLessThanOrEqual(tolerance + dust);
}

function runValue({ numerator, basis, as, lines, process = RAW, published, tolerance }: ValueRow): void {
  const { coefficients, massesKg } = weigh(lines, process);
  const under = coefficients.total(FORMS[basis], massesKg);
  const found = formsOf(FORMS[numerator]).map((form) => {
    const over = coefficients.total(form, massesKg);
    return as === 'kg' ? toNumber(over) : inShownUnit(ratio(over, under), as);
  });
  expectWithin(Math.max(...found), published, tolerance);
}

function runBoundary({ limitId, line: [id, mass, unit = 'kg'], beyond, others }: BoundaryRow): void {
  const limit = limitOf(limitId);
  const at: Weighed[] = [[id, mass, unit], ...others];
  const past: Weighed[] = [[id, beyond, unit], ...others];
  expect(checkOne(limit, at).holds, `${mass} ${unit}`).toBe(true);
  expect(checkOne(limit, past).holds, `${beyond} ${unit}`).toBe(false);
  // The rows of the linear problem tell the same: on the allowed side at the figure, not beyond it.
  expect(worstActivity(limitId, past)).toBeGreaterThan(0);
  expect(worstActivity(limitId, at)).toBeLessThanOrEqual(
    1e-12 * Math.abs(worstActivity(limitId, others)) + 1e-12,
  );
}

/** How far a batch is beyond the row that it keeps worst; below 0 on the allowed side. */
function worstActivity(limitId: string, lines: readonly Weighed[]): number {
  const { coefficients, massesKg } = weigh(lines);
  const activities = rowsOf(limitOf(limitId), coefficients)
    .map(toRow)
    .map(
      ({ terms, upper }) =>
        (upper === 0 ? 1 : -1) *
        terms.reduce(
          (sum, { column, coefficient }) => sum + coefficient * toNumber(massesKg[column] ?? exact(0)),
          0,
        ),
    );
  return Math.max(...activities);
}

function runVerdict({ limitId, lines, process = RAW, holds }: VerdictRow): void {
  expect(checkOne(limitOf(limitId), lines, process).holds).toBe(holds);
}

function runEntry({ jurisdiction, productClass, materialId, allowed }: EntryRow): void {
  const by = forbiddenBy(standardOf(productClass, jurisdiction).limits, testSupply(materialId), RAW);
  expect(by === undefined, by?.says).toBe(allowed);
}

function runPrinted({ limitId, published, unit, numerator, basis, mark }: PrintedRow): void {
  const limit = limitOf(limitId);
  expect(shownBound(limit)).toBe(published);
  expect(limit).toMatchObject({ unit, numerator, basis, authority: 'law' });
  // The limit must not claim a better reading than its source had; what is constructed stands on a rule that
  // was read.
  const readings: Readonly<Partial<Record<Mark, typeof limit.read>>> = {
    official: 'official',
    constructed: 'official',
    secondary: 'secondary',
    'from memory, verify': 'from memory',
  };
  expect(limit.read).toBe(readings[mark]);
}

function runDeclared({ definition, composition, meatPercent, ...row }: DeclaredRow): void {
  const { kinds = ['skeletal meat'], species = ['pork'] } = definition.meat;
  const meat = material('meat', kinds[0] ?? 'skeletal meat', { species: species[0] ?? 'pork', composition });
  const supplies = [supplyOfMaterial(meat, 1), testSupply('water')];
  const masses = [exact(meatPercent), exact(100 - meatPercent)];
  const coefficients = new Coefficients(supplies, RAW);
  const found = declaredMeat(definition, coefficients, masses);
  expectWithin(found.declaredKg, row.publishedDeclared, row.tolerance);
  expectWithin(found.excessFatKg, row.publishedFat, row.tolerance);
  expectWithin(found.excessConnectiveTissueKg, row.publishedTissue, row.tolerance);
  // The linear forms of the same definition: the least of them is the declared meat.
  const least = formsOf(declarableMeat(definition)).map((form) => toNumber(coefficients.total(form, masses)));
  expectWithin(Math.min(...least), found.declaredKg, 1e-9);
}

function runConversion({ value, from, to, published, tolerance }: ConversionRow): void {
  expectWithin(inUnit(kilograms({ value, unit: from }), to), published, tolerance);
}

function runQuotient({ value, numerator, denominator, decimals, published }: QuotientRow): void {
  const quotient = ratio(multiply(exact(value), exact(numerator)), exact(denominator));
  expect(fixed(quotient, decimals)).toBe(published);
}

function runShare({ materialId, minFraction, maxFraction, lines, ...expected }: ShareRow): void {
  const part = {
    name: materialId,
    materialIds: [materialId],
    ...(minFraction !== undefined && { minFraction }),
    ...(maxFraction !== undefined && { maxFraction }),
  };
  const limits = houseLimits(
    testProduct('uncooked-sausage', { meatBlock: [part] }),
    standardOf('uncooked-sausage'),
  );
  expect(limits).toHaveLength(1);
  for (const limit of limits) {
    const check = checkOne(limit, lines);
    expect(check.holds).toBe(expected.holds);
    expectWithin(inShownUnit(check.value, 'percent'), expected.publishedPercent, expected.tolerance);
  }
}

function runPair({ leanPercent, published, mostFat }: PairRow): void {
  const product = testProduct('ground-beef', { label: { leanPercent, storage: 'keep refrigerated' } });
  const standard = standardOf('ground-beef');
  expect.soft(declare(product, standard, blendOf([]), plantOf('lb')).leanPair?.text).toBe(published);
  const [limit] = houseLimits(product, standard);
  const ground = (fatFraction: number) =>
    supplyOfMaterial(
      material('ground', 'skeletal meat', { species: 'beef', composition: { fatFraction } }),
      1,
    );
  const holds = (fatFraction: number) =>
    checkLimits(limit ? [limit] : [], new Coefficients([ground(fatFraction)], RAW), [exact(1)])[0]?.holds;
  expect(holds(Number(mostFat)), `${mostFat} of fat`).toBe(true);
  expect(holds(Number(mostFat) + 1e-6), `more than ${mostFat} of fat`).toBe(false);
}

function plantOf(unit: 'lb' | 'kg'): Plant {
  return {
    name: 'Test Plant',
    establishment: '00000',
    jurisdiction: 'us',
    currency: 'USD',
    units: unit,
    timeZone: 'America/Chicago',
    mixerCapacityKg: 2000,
    scales: [{ id: 'floor', name: 'Floor scale', unit, division: '0.01', capacity: 5000 }],
  };
}

function runBlend({ productClass, unit, total, supplies, fat, least, ...expected }: BlendRow): void {
  const product = testProduct(productClass, {
    meatBlock: [
      ...supplies.map(([id]) => ({
        name: id,
        materialIds: [id],
        ...(least && least[0] === id && { minFraction: least[1] }),
      })),
    ],
    targets: fat ? [{ measure: 'fat', ...fat }] : [],
  });
  const lots = supplies.map(([id, price, onHand]) =>
    supplyOfLot(
      {
        id,
        materialId: id,
        onHandKg: kilograms({ value: onHand, unit }),
        costPerKg: perKilogram(price, unit),
        receivedDate: '2026-11-20',
        state: 'chilled',
      },
      testMaterial(id),
    ),
  );
  const answer = formulate({
    product,
    standard: standardOf(productClass),
    supplies: lots,
    size: { by: 'total', massKg: kilograms({ value: total, unit }) },
    date: '2026-11-25',
    plant: plantOf(unit),
    engines: ENGINES,
  });
  if (answer.outcome !== 'blend') throw new Error(JSON.stringify(answer));
  const { blend } = answer;
  const weights = Object.fromEntries(
    blend.lines.map(({ supply, weight }) => [supply.id, Number(weight.text)]),
  );
  expect(Object.keys(weights).sort()).toEqual(Object.keys(expected.published).sort());
  for (const [id, published] of Object.entries(expected.published)) {
    expectWithin(weights[id] ?? Number.NaN, published, expected.tolerance);
  }
  expect(blend.checks.filter(({ holds }) => !holds)).toEqual([]);
  if (expected.publishedCost !== undefined) {
    expectWithin(blend.unroundedCost, expected.publishedCost, 1e-6);
    // Dearer by no more than the same two divisions of every line at its own price.
    const off = supplies.reduce((sum, [, price]) => sum + price * expected.tolerance, 0);
    expectWithin(blend.cost, expected.publishedCost, off);
  }
}
