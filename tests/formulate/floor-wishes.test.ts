import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Supply, supplyOfLot } from '../../src/batch/lot.ts';
import type { Product } from '../../src/batch/product.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import type { FloorWishes, FormulationRequest } from '../../src/formulate/request.ts';
import type { LinearModel } from '../../src/solver/model.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';
import { material, standardOf, testProduct } from '../helpers/materials.ts';
import { demandsOn, isMet, weightsOf } from './by-hand/demands.ts';

/** Ground beef from a few lots, so few that every choice of lots and boxes can be gone through. */
interface Lot {
  readonly fat: number;
  readonly costPerKg: number;
  readonly onHandKg: number;
  readonly boxKg: number;
  readonly isBoxed: boolean;
  readonly leastIfUsedKg?: number | undefined;
  readonly useByDate: string;
}

interface Floor {
  readonly lots: readonly Lot[];
  readonly minFat?: number | undefined;
  readonly maxFat: number;
  readonly mostLots?: number | undefined;
  readonly simplestWithin?: number | undefined;
}

const TODAY = '2031-05-14';
const SIZE_KG = 100;
const DIVISION_KG = 0.001;

const idOf = (place: number) => `lot-${place + 1}`;

function supplyOf({ fat, costPerKg, onHandKg, boxKg, leastIfUsedKg, useByDate }: Lot, place: number): Supply {
  const lean = 1 - fat;
  const beef = material('beef', 'skeletal meat', {
    species: 'beef',
    composition: {
      fatFraction: fat,
      waterFraction: Number((0.75 * lean).toFixed(4)),
      proteinFraction: Number((0.22 * lean).toFixed(4)),
    },
  });
  const supply = supplyOfLot(
    {
      id: idOf(place),
      materialId: 'beef',
      onHandKg,
      costPerKg,
      boxKg,
      receivedDate: '2031-05-01',
      useByDate,
      state: 'chilled',
    },
    beef,
  );
  return leastIfUsedKg === undefined ? supply : { ...supply, leastIfUsedKg };
}

const productOf = ({ minFat, maxFat }: Floor): Product =>
  testProduct('ground-beef', {
    meatBlock: [{ name: 'beef', kinds: ['skeletal meat'] }],
    targets: [{ measure: 'fat', max: maxFat, ...(minFat !== undefined && { min: minFat }) }],
  });

function wishesOf({ lots, mostLots, simplestWithin }: Floor): FloorWishes {
  const wholeBoxes = lots.flatMap(({ isBoxed }, place) => (isBoxed ? [idOf(place)] : []));
  return {
    ...(wholeBoxes.length > 0 && { wholeBoxes }),
    ...(mostLots !== undefined && { mostLots }),
    ...(simplestWithin !== undefined && { simplestWithin }),
  };
}

const PLANT: FormulationRequest['plant'] = {
  name: 'Plant',
  establishment: 'M0',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'kg',
  timeZone: 'UTC',
  mixerCapacityKg: 1000,
  scales: [{ id: 'fine', name: 'Fine scale', unit: 'kg', division: String(DIVISION_KG), capacity: 1000 }],
};

function ask(floor: Floor, given: Partial<FormulationRequest> = {}) {
  return formulate({
    product: productOf(floor),
    standard: standardOf('ground-beef'),
    supplies: floor.lots.map(supplyOf),
    size: { by: 'total', massKg: SIZE_KG },
    date: TODAY,
    plant: PLANT,
    wishes: wishesOf(floor),
    engines: ENGINES,
    ...given,
  });
}

function blendOf(outcome: ReturnType<typeof formulate>): Blend {
  if (outcome.outcome !== 'blend') throw new Error(`no blend: ${JSON.stringify(outcome)}`);
  return outcome.blend;
}

const kgOf = ({ lines }: Blend, place: number) =>
  lines.find(({ supply }) => supply.id === idOf(place))?.massKg ?? 0;

/** Kilograms of each lot between two ends, in the order of the lots. */
type Ends = readonly { readonly lower: number; readonly upper: number }[];

function linear({ lots, minFat = 0, maxFat }: Floor, ends: Ends): LinearModel {
  const terms = (perKg: (lot: Lot) => number) =>
    lots.map((lot, column) => ({ column, coefficient: perKg(lot) }));
  return {
    columns: lots.map(({ costPerKg }, place) => ({
      cost: costPerKg,
      ...(ends[place] as { lower: number; upper: number }),
    })),
    rows: [
      { name: 'size', lower: SIZE_KG, upper: SIZE_KG, terms: terms(() => 1) },
      // Beef of the law has at most 30 % fat (9 CFR 319.15(a)).
      {
        name: 'fat',
        lower: minFat * SIZE_KG,
        upper: Math.min(0.3, maxFat) * SIZE_KG,
        terms: terms(({ fat }) => fat),
      },
    ],
  };
}

/** What may become of one lot: left out, so many boxes of it, or anything between its least and what is there. */
function waysOf(lot: Lot, isCounted: boolean): { isUsed: boolean; lower: number; upper: number }[] {
  const { onHandKg, boxKg, isBoxed, leastIfUsedKg = 0 } = lot;
  const out = { isUsed: false, lower: 0, upper: 0 };
  if (isBoxed) {
    const boxes = Math.floor(onHandKg / boxKg + 1e-9);
    const counts = Array.from({ length: boxes }, (_, count) => (count + 1) * boxKg);
    return [
      out,
      ...counts
        .filter((massKg) => massKg >= leastIfUsedKg && massKg <= SIZE_KG)
        .map((massKg) => ({ isUsed: true, lower: massKg, upper: massKg })),
    ];
  }
  const used = { isUsed: true, lower: leastIfUsedKg, upper: onHandKg };
  if (leastIfUsedKg > onHandKg) return [out];
  return isCounted || leastIfUsedKg > 0 ? [out, used] : [used];
}

interface Choice {
  readonly lots: number;
  readonly cost: number;
}

/** Every choice of lots and boxes that makes a blend, each with its least cost by another code. */
function everyChoice(floor: Floor): Choice[] {
  const isCounted = floor.mostLots !== undefined || floor.simplestWithin !== undefined;
  const found: Choice[] = [];
  const choose = (ends: Ends, lots: number, leastKg: number, mostKg: number): void => {
    const lot = floor.lots[ends.length];
    if (lots > (floor.mostLots ?? Number.POSITIVE_INFINITY) || leastKg > SIZE_KG + 1e-9) return;
    if (!lot) {
      if (mostKg < SIZE_KG - 1e-9) return;
      const answer = solveWithHighs(linear(floor, ends));
      if (answer.status === 'optimal') found.push({ lots, cost: answer.cost });
      return;
    }
    for (const { isUsed, lower, upper } of waysOf(lot, isCounted))
      choose([...ends, { lower, upper }], lots + (isUsed ? 1 : 0), leastKg + lower, mostKg + upper);
  };
  choose([], 0, 0, 0);
  return found;
}

const cheapest = (choices: readonly Choice[]) =>
  choices.reduce((least, { cost }) => Math.min(least, cost), Number.POSITIVE_INFINITY);

/** The cost that the wishes lead to, and in how many lots at most; undefined where there is no such blend. */
function wanted(floor: Floor): Choice | undefined {
  const choices = everyChoice(floor);
  if (choices.length === 0) return undefined;
  const least = cheapest(choices);
  if (floor.simplestWithin === undefined) return { cost: least, lots: floor.mostLots ?? floor.lots.length };
  const most = least * (1 + floor.simplestWithin) + 1e-9;
  const lots = Math.min(...choices.filter(({ cost }) => cost <= most).map((choice) => choice.lots));
  return { lots, cost: cheapest(choices.filter((choice) => choice.lots <= lots)) };
}

const decimal = (min: number, max: number, places: number) =>
  fc
    .integer({ min: Math.round(min * 10 ** places), max: Math.round(max * 10 ** places) })
    .map((whole) => Number((whole / 10 ** places).toFixed(places)));

const arbitraryLot = fc.record({
  fat: fc.constantFrom(0.05, 0.1, 0.16, 0.2, 0.27, 0.35, 0.5),
  costPerKg: decimal(1, 9, 2),
  onHandKg: fc.constantFrom(30, 45, 60, 80, 120),
  boxKg: fc.constantFrom(12.5, 15, 20, 25),
  isBoxed: fc.constant(false),
  leastIfUsedKg: fc.constant<number | undefined>(undefined),
  useByDate: fc.constantFrom('2031-05-16', '2031-05-20', '2031-05-28'),
});
const arbitraryLots = fc.array(arbitraryLot, { minLength: 3, maxLength: 4 });
const fatTargets = {
  maxFat: fc.constantFrom(0.15, 0.2, 0.22, 0.25, 0.3),
  minFat: fc.constantFrom<number | undefined>(undefined, 0, 0.1, 0.14),
};
const none = fc.constant<number | undefined>(undefined);

const boxedLots = arbitraryLots.map((lots) => lots.map((lot, place) => ({ ...lot, isBoxed: place < 2 })));
const leastLots = arbitraryLots.chain((lots) =>
  fc
    .array(fc.constantFrom(undefined, 10, 18, 25, 40), { minLength: lots.length, maxLength: lots.length })
    .map((least) => lots.map((lot, place) => ({ ...lot, leastIfUsedKg: least[place] }))),
);

const KINDS: Readonly<Record<string, fc.Arbitrary<Floor>>> = {
  'whole boxes of two lots': fc.record({
    lots: boxedLots,
    ...fatTargets,
    mostLots: none,
    simplestWithin: none,
  }),
  'the least of a lot if it is used': fc.record({
    lots: leastLots,
    ...fatTargets,
    mostLots: none,
    simplestWithin: none,
  }),
  'at most so many lots': fc.record({
    lots: arbitraryLots,
    ...fatTargets,
    mostLots: fc.constantFrom(1, 2, 2, 3),
    simplestWithin: none,
  }),
  'the simplest': fc.record({
    lots: arbitraryLots,
    ...fatTargets,
    mostLots: none,
    simplestWithin: fc.constantFrom(0, 0.01, 0.05, 0.2, 1),
  }),
  'all of these at once': fc.record({
    lots: fc
      .tuple(boxedLots, fc.constantFrom(undefined, 20, 30))
      .map(([lots, least]) => lots.map((lot) => ({ ...lot, leastIfUsedKg: least }))),
    ...fatTargets,
    mostLots: fc.constantFrom(2, 3, 4),
    simplestWithin: fc.constantFrom(0, 0.05, 0.2),
  }),
};

const SEED = 20310517;
const RUNS = 60;

function limitsMissed(floor: Floor, blend: Blend): string[] {
  const product = productOf(floor);
  return demandsOn(product, standardOf('ground-beef'), TODAY)
    .filter((demand) => !isMet(demand, product.process, weightsOf(blend)))
    .map(({ id }) => id);
}

describe.each(Object.entries(KINDS))('asked for %s, the blend', (kind, floors) => {
  const cases = fc.sample(floors, { seed: SEED, numRuns: RUNS }).map((floor, index) => ({
    name: `${kind} ${index} of seed ${SEED}`,
    floor,
    outcome: ask(floor),
    best: wanted(floor),
  }));
  const made = cases.flatMap((one) =>
    one.outcome.outcome === 'blend' ? [{ ...one, blend: one.outcome.blend }] : [],
  );

  it('is there just where going through every choice finds one; otherwise it says so', () => {
    console.log(`${kind}: ${cases.length} asked, ${made.length} blends`);
    const wrong = cases.filter(({ outcome, best }) => (outcome.outcome === 'blend') !== (best !== undefined));
    expect(
      wrong.map(({ name, outcome, best }) => `${name}: ${outcome.outcome}, ${JSON.stringify(best)}`),
    ).toEqual([]);
    expect(made.length).toBeGreaterThan(20);
    expect(cases.length - made.length).toBeGreaterThan(3);
    for (const { outcome } of cases) {
      if (outcome.outcome === 'no blend') expect(outcome.because.length).toBeGreaterThan(0);
    }
  });

  it('costs what the cheapest such choice costs', () => {
    const wrong = made.flatMap(({ name, blend, best }) => {
      const cost = blend.choice?.cost ?? Number.NaN;
      const expected = best?.cost ?? Number.NaN;
      const reported = blend.choice?.reportedLeastCost ?? Number.NaN;
      const isSame = Math.abs(cost - expected) <= 1e-5 && Math.abs(blend.unroundedCost - expected) <= 1e-5;
      return isSame && reported <= cost + 1e-5
        ? []
        : [`${name}: ${cost}, ${blend.unroundedCost}, not ${expected}`];
    });
    expect(wrong).toEqual([]);
  });

  it('is printed as it was chosen: whole boxes, no less than the least, no lot too many, every limit', () => {
    const wrong = made.flatMap(({ name, floor, blend, best }) => {
      const faults = limitsMissed(floor, blend);
      if (blend.lines.length > (best?.lots ?? 0)) faults.push(`${blend.lines.length} lots`);
      floor.lots.forEach(({ isBoxed, boxKg, leastIfUsedKg = 0, onHandKg }, place) => {
        const kg = kgOf(blend, place);
        const boxes = Math.round(kg / boxKg);
        if (isBoxed && Math.abs(kg - boxes * boxKg) > 1e-9) faults.push(`${kg} kg of boxes of ${boxKg}`);
        const supply = blend.lines.find((line) => line.supply.id === idOf(place))?.supply;
        if (isBoxed && supply && supply.boxes !== boxes)
          faults.push(`${supply.boxes} boxes are said of ${boxes}`);
        if (kg > 0 && kg < leastIfUsedKg) faults.push(`${kg} kg where ${leastIfUsedKg} is the least`);
        if (kg > onHandKg) faults.push(`${kg} kg of ${onHandKg}`);
      });
      if (Math.abs(blend.batchKg - SIZE_KG) > DIVISION_KG * (1 + 1e-9))
        faults.push(`${blend.batchKg} kg in all`);
      if (blend.cost > (best?.cost ?? 0) + 0.1) faults.push(`${blend.cost} on the scales`);
      if (!(blend.proof.aboveLeast >= 0)) faults.push(`${blend.proof.aboveLeast} above the least`);
      return faults.map((fault) => `${name}: ${fault}`);
    });
    expect(wrong).toEqual([]);
  });
});

describe('a batch that may be bigger or smaller, all of whole boxes', () => {
  const WITHIN = 0.1;
  const floors = fc.record({
    lots: arbitraryLots.map((lots) => lots.map((lot) => ({ ...lot, isBoxed: true }))),
    ...fatTargets,
    mostLots: none,
    simplestWithin: none,
  });

  /** The least cost of a kilogram over every count of boxes, in plain arithmetic. */
  function cheapestPerKg({ lots, minFat = 0, maxFat }: Floor): number {
    let best = Number.POSITIVE_INFINITY;
    const count = (place: number, kg: number, fatKg: number, cost: number): void => {
      const lot = lots[place];
      if (kg > SIZE_KG * (1 + WITHIN) + 1e-9) return;
      if (!lot) {
        const isRight =
          kg >= SIZE_KG * (1 - WITHIN) - 1e-9 &&
          fatKg <= Math.min(0.3, maxFat) * kg + 1e-9 &&
          fatKg >= minFat * kg - 1e-9;
        if (isRight) best = Math.min(best, cost / kg);
        return;
      }
      for (let boxes = 0; boxes * lot.boxKg <= lot.onHandKg + 1e-9; boxes++) {
        const massKg = boxes * lot.boxKg;
        count(place + 1, kg + massKg, fatKg + massKg * lot.fat, cost + massKg * lot.costPerKg);
      }
    };
    count(0, 0, 0, 0);
    return best;
  }

  it('is made of all that is there where that falls short of the size, but not by more than is allowed', () => {
    const lot: Lot = { fat: 0.2, costPerKg: 3, onHandKg: 95, boxKg: 19, isBoxed: true, useByDate: TODAY };
    const floor: Floor = { lots: [lot], maxFat: 0.3 };
    const wishes = { ...wishesOf(floor), sizeWithin: WITHIN };
    expect(blendOf(ask(floor, { wishes })).batchKg).toBe(95);
    expect(ask(floor, { wishes: { ...wishes, sizeWithin: 0.04 } }).outcome).toBe('no blend');
  });

  it('is the cheapest a kilogram of all counts of boxes, or there is none', () => {
    let blends = 0;
    const wrong = fc.sample(floors, { seed: SEED, numRuns: 120 }).flatMap((floor, index) => {
      const outcome = ask(floor, { wishes: { ...wishesOf(floor), sizeWithin: WITHIN } });
      const best = cheapestPerKg(floor);
      const name = `request ${index} of seed ${SEED}`;
      if (outcome.outcome !== 'blend') {
        const why =
          outcome.outcome === 'no blend' ? outcome.because.map(({ message }) => message).join(' ') : '';
        return Number.isFinite(best) ? [`${name}: ${best} a kg is there, but it says: ${why}`] : [];
      }
      blends++;
      const { blend } = outcome;
      const faults = limitsMissed(floor, blend);
      if (Math.abs(blend.batchKg / SIZE_KG - 1) > WITHIN + 1e-9) faults.push(`${blend.batchKg} kg`);
      if (Math.abs(blend.cost / blend.batchKg - best) > 1e-7)
        faults.push(`${blend.cost / blend.batchKg} a kg, not ${best}`);
      floor.lots.forEach(({ boxKg }, place) => {
        const kg = kgOf(blend, place);
        if (Math.abs(kg / boxKg - Math.round(kg / boxKg)) > 1e-9)
          faults.push(`${kg} kg of boxes of ${boxKg}`);
      });
      return faults.map((fault) => `${name}: ${fault}`);
    });
    console.log(`whole boxes alone: ${blends} blends of 120`);
    expect(wrong).toEqual([]);
    expect(blends).toBeGreaterThan(40);
  });
});

describe('older lots first', () => {
  const floors = fc.record({
    floor: fc.record({ lots: arbitraryLots, ...fatTargets, mostLots: none, simplestWithin: none }),
    within: fc.constantFrom(0, 0.01, 0.05, 0.3),
  });
  const free = ({ lots }: Floor): Ends => lots.map(({ onHandKg }) => ({ lower: 0, upper: onHandKg }));

  /** The most of the lots of one day, with the cost held and so much of the day before. */
  function most(floor: Floor, dates: readonly string[], cost: number): number {
    const plain = linear(floor, free(floor));
    const answer = solveWithHighs({
      columns: plain.columns.map((column, place) => ({
        ...column,
        cost: dates.includes(floor.lots[place]?.useByDate ?? '') ? -1 : 0,
      })),
      rows: [
        ...plain.rows,
        {
          name: 'cost',
          lower: Number.NEGATIVE_INFINITY,
          upper: cost,
          terms: plain.columns.map((column, index) => ({ column: index, coefficient: column.cost })),
        },
      ],
    });
    if (answer.status !== 'optimal') throw new Error(`${answer.status} at the least cost`);
    return -answer.cost;
  }

  const made = fc.sample(floors, { seed: SEED, numRuns: 160 }).flatMap(({ floor, within }, index) => {
    const plain = ask(floor);
    const older = ask(floor, { wishes: { olderFirstWithin: within } });
    const name = `request ${index} of seed ${SEED}`;
    if (plain.outcome !== older.outcome) throw new Error(`${name}: ${plain.outcome} became ${older.outcome}`);
    return plain.outcome === 'blend' && older.outcome === 'blend'
      ? [{ name, floor, within, plain: plain.blend, older: older.blend }]
      : [];
  });
  const oldest = ({ lots }: Floor) => lots.map(({ useByDate }) => useByDate).sort()[0] as string;
  const kgOfDate = (floor: Floor, blend: Blend, date: string) =>
    floor.lots.reduce((sum, lot, place) => sum + (lot.useByDate === date ? kgOf(blend, place) : 0), 0);
  /** A fifth of a percent of the batch is left to the scales, and a division or two to each lot. */
  const EASE_KG = 0.002 * SIZE_KG + 0.01;

  it('takes as much of the oldest as the money set aside for it pays for', () => {
    let more = 0;
    const wrong = made.flatMap(({ name, floor, within, plain, older }) => {
      const date = oldest(floor);
      const [was, is] = [kgOfDate(floor, plain, date), kgOfDate(floor, older, date)];
      if (is > was + 1) more++;
      const best = solveWithHighs(linear(floor, free(floor)));
      if (best.status !== 'optimal') return [`${name}: HiGHS says ${best.status}`];
      const could = most(floor, [date], best.cost * (1 + within) + 1e-6);
      if (is < was - EASE_KG) return [`${name}: ${is} kg of the oldest, ${was} without asking`];
      if (is < could - EASE_KG) return [`${name}: ${is} kg of the oldest where ${could} could be`];
      return is > could + EASE_KG ? [`${name}: ${is} kg of the oldest, more than ${could} pays for`] : [];
    });
    console.log(`older first: ${made.length} blends, ${more} with more of the oldest`);
    expect(wrong).toEqual([]);
    expect(made.length).toBeGreaterThan(80);
    expect(more).toBeGreaterThan(20);
  });

  it('costs no more than was set aside for it, but for the scales, and keeps every limit', () => {
    const wrong = made.flatMap(({ name, floor, within, older }) => {
      const best = solveWithHighs(linear(floor, free(floor)));
      const least = best.status === 'optimal' ? best.cost : Number.NaN;
      const faults = limitsMissed(floor, older);
      if (!(older.unroundedCost <= least * (1 + within) + 1e-5))
        faults.push(`${older.unroundedCost} of ${least}`);
      if (!(older.cost <= least * (1 + within) + 0.1))
        faults.push(`${older.cost} on the scales, ${least} the least`);
      if (!(older.proof.aboveLeast >= 0)) faults.push('proven below the least');
      return faults.map((fault) => `${name}: ${fault}`);
    });
    expect(wrong).toEqual([]);
  });

  it('by hand: of two like lots the older goes in, the next oldest after it', () => {
    const lot = (useByDate: string, costPerKg: number, onHandKg: number): Lot => ({
      fat: 0.2,
      costPerKg,
      onHandKg,
      boxKg: 20,
      isBoxed: false,
      useByDate,
    });
    const floor: Floor = {
      lots: [lot('2031-05-28', 4, 120), lot('2031-05-16', 4.1, 30), lot('2031-05-20', 4.2, 40)],
      maxFat: 0.3,
    };
    const kg = (within: number) => {
      const blend = blendOf(ask(floor, { wishes: { olderFirstWithin: within } }));
      return floor.lots.map((_, place) => kgOf(blend, place));
    };
    expect(kg(0)).toEqual([100, 0, 0]);
    // 2 % of 400 is 8: all 30 kg of the oldest for 3, and 25 kg of the next for the 5 that are left.
    const [young = 0, oldestKg = 0, middle = 0] = kg(0.02);
    expect(oldestKg).toBeGreaterThan(30 - EASE_KG);
    expect(middle).toBeGreaterThan(25 - 2 * EASE_KG);
    expect(middle).toBeLessThanOrEqual(25 + 2 * EASE_KG);
    expect(young + oldestKg + middle).toBeCloseTo(100, 6);
    const [, all = 0, rest = 0] = kg(0.1);
    expect(all).toBeGreaterThan(30 - EASE_KG);
    expect(rest).toBeGreaterThan(40 - EASE_KG);
  });
});

describe('whole boxes on the scales', () => {
  const boxed = (boxKg: number, onHandKg: number): Lot => ({
    fat: 0.2,
    costPerKg: 3,
    onHandKg,
    boxKg,
    isBoxed: true,
    useByDate: '2031-05-20',
  });
  const cheapFill: Lot = { ...boxed(20, 300), costPerKg: 9, isBoxed: false };

  it('weigh what the boxes weigh, as nearly as equal loads on the scale come to it', () => {
    // 60 lb are 27.2155422 kg: of three boxes in two loads of 0.05 kg steps, less than 0.1 kg stays behind.
    const floor: Floor = { lots: [boxed(27.2155422, 3 * 27.2155422), cheapFill], maxFat: 0.3 };
    const scales = [
      { id: 'floor', name: 'Floor scale', unit: 'kg', division: '0.05', capacity: 500 },
    ] as const;
    const blend = blendOf(ask(floor, { plant: { ...PLANT, mixerCapacityKg: 60, scales } }));
    expect(blend.loads).toBe(2);
    const kg = kgOf(blend, 0);
    expect(kg).toBeLessThanOrEqual(3 * 27.2155422);
    expect(kg).toBeGreaterThan(3 * 27.2155422 - 0.1);
    expect(blend.lines.find(({ supply }) => supply.id === idOf(0))?.supply.boxes).toBe(3);
    expect(blend.batchKg).toBeCloseTo(SIZE_KG, 6);
  });

  it('are exact on the scale of the unit that they are packed in: 60 lb are 60.0 lb', () => {
    const floor: Floor = { lots: [boxed(27.2155422, 3 * 27.2155422), cheapFill], maxFat: 0.3 };
    const scales = [
      { id: 'floor', name: 'Floor scale', unit: 'lb', division: '0.1', capacity: 500 },
    ] as const;
    const blend = blendOf(ask(floor, { plant: { ...PLANT, units: 'lb', scales } }));
    expect(blend.lines.map(({ supply, weight }) => [supply.id, weight.text])).toEqual([
      [idOf(0), '180.0'],
      [idOf(1), '40.5'],
    ]);
  });

  it('that cannot make up the size say so, and which way out there is', () => {
    const floor: Floor = { lots: [boxed(27, 270)], maxFat: 0.3 };
    const outcome = ask(floor);
    expect(outcome).toMatchObject({ outcome: 'no blend', proven: false });
    const [because] = outcome.outcome === 'no blend' ? outcome.because : [];
    expect(because?.message).toContain('whole boxes of lot-1');
    expect(because?.message).toContain('a little bigger or smaller');
    const within = blendOf(ask(floor, { wishes: { ...wishesOf(floor), sizeWithin: 0.1 } }));
    expect(within.batchKg).toBe(108);
  });

  it('of too few lots say so', () => {
    const floor: Floor = {
      lots: [
        { ...boxed(10, 60), isBoxed: false },
        { ...boxed(10, 60), isBoxed: false },
      ],
      maxFat: 0.3,
      mostLots: 1,
    };
    const outcome = ask(floor);
    expect(outcome.outcome).toBe('no blend');
    expect(outcome.outcome === 'no blend' && outcome.because[0]?.message).toContain('at most 1 meat lot.');
  });
});
