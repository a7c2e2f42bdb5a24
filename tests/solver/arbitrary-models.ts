import fc from 'fast-check';
import { add, compare, type Exact, exact, multiply, subtract, sum, ZERO } from '../../src/exact.ts';
import {
  activity,
  type ExactColumn,
  type ExactModel,
  type ExactRow,
  toLinear,
} from '../../src/solver/exact-model.ts';
import type { LinearModel } from '../../src/solver/model.ts';

/** A problem in exact decimals, so that what is proven of it is true of the very problem that engines were asked. */
export interface Problem {
  readonly exact: ExactModel;
  /** The same in doubles, its whole columns marked. */
  readonly linear: LinearModel;
}

/** A blend with one point that holds: everything else is made from it. */
export interface Blend {
  readonly model: ExactModel;
  readonly point: readonly Exact[];
}

const hundredths = (value: number): Exact => decimal(value, 2);
const decimal = (digits: number, scale: number): Exact => ({ digits: BigInt(digits), scale });
/** The decimal point moved, which loses nothing. */
const shifted = (value: Exact, places: number): Exact => multiply(value, exact(`1e${places}`));
const half = (value: Exact): Exact => multiply(value, decimal(5, 1));

const list = <Item>(item: fc.Arbitrary<Item>, length: number) =>
  fc.array(item, { minLength: length, maxLength: length });
const whole = (min: number, max: number) => fc.integer({ min, max });

const weighted = (column: number, coefficient: Exact) => ({ column, coefficient });
const everyTerm = (coefficients: readonly Exact[]) =>
  coefficients.map((coefficient, column) => weighted(column, coefficient));
const onesFor = (columns: readonly unknown[]) => everyTerm(columns.map(() => exact(1)));

interface BlendOptions {
  readonly widest: number;
  /** Whether every limit runs through the known point, and prices are few and therefore tied. */
  readonly tight?: boolean;
}

/** Lots with a price (per kg), a stock (kg) and shares of fat, protein and the like; a batch with limits on them. */
export function arbitraryBlend({ widest, tight = false }: BlendOptions): fc.Arbitrary<Blend> {
  return fc.record({ width: whole(2, widest), height: whole(1, 8) }).chain(({ width, height }) =>
    fc
      .record({
        prices: list(tight ? whole(1, 4).map((price) => price * 100) : whole(0, 900), width),
        stocks: list(whole(500, 40_000), width),
        used: list(whole(0, 10), width),
        least: list(whole(-8, 3), width),
        shares: list(list(tight ? whole(0, 9).map((share) => share * 500) : whole(0, 5000), width), height),
        sides: list(fc.constantFrom('most', 'least', 'both'), height),
        rooms: list(whole(0, 200), height),
        capped: list(whole(0, 5), width),
        isTotalFixed: fc.boolean(),
      })
      .map(({ prices, stocks, used, least, shares, sides, rooms, capped, isTotalFixed }): Blend => {
        // Some lots are not used at all, some wholly: both ends of a column are met.
        const point = stocks.map((stock, lot) => decimal(stock * Math.max(0, (used[lot] as number) - 3), 3));
        const columns = stocks.map((stock, lot): ExactColumn => {
          const most = compare(point[lot] as Exact, hundredths(stock)) > 0 ? point[lot] : hundredths(stock);
          const floor = decimal(Math.max(0, least[lot] as number), 0);
          return {
            cost: hundredths(prices[lot] as number),
            lower: compare(floor, point[lot] as Exact) <= 0 ? floor : ZERO,
            upper: most as Exact,
          };
        });
        const batch = sum(point);
        const rows: ExactRow[] = [
          {
            name: 'batch',
            lower: batch,
            ...((isTotalFixed || tight) && { upper: batch }),
            terms: onesFor(columns),
          },
        ];
        shares.forEach((share, at) => {
          const terms = everyTerm(share.map((value) => decimal(value, 4)));
          const there = activity({ name: '', terms }, point);
          const room = tight ? ZERO : multiply(there, decimal(rooms[at] as number, 3));
          rows.push({
            name: `share ${at}`,
            ...(sides[at] !== 'most' && { lower: subtract(there, room) }),
            ...(sides[at] !== 'least' && { upper: add(there, room) }),
            terms,
          });
        });
        capped.forEach((cap, lot) => {
          if (cap > 0 || batch.digits === 0n) return;
          const share = shareAbove(point[lot] as Exact, batch);
          const terms = columns.map((_, other) =>
            weighted(other, subtract(exact(other === lot ? 1 : 0), share)),
          );
          rows.push({ name: `most of lot ${lot}`, upper: ZERO, terms });
        });
        return { model: { columns, rows }, point };
      }),
  );
}

/** The share of a part in a batch, in hundredths, rounded up. */
function shareAbove(part: Exact, batch: Exact): Exact {
  for (let percent = 0; ; percent++) {
    if (compare(part, multiply(batch, hundredths(percent))) <= 0) return hundredths(percent);
  }
}

const continuous = (model: ExactModel): Problem => ({ exact: model, linear: toLinear(model) });

export const plainBlends: fc.Arbitrary<Problem> = fc
  .oneof({ arbitrary: arbitraryBlend({ widest: 14 }), weight: 4 }, arbitraryBlend({ widest: 40 }))
  .map(({ model }) => continuous(model));

/** Limits all through one point, lots and limits there twice, few prices: many bases for one optimum. */
export const degenerateBlends: fc.Arbitrary<Problem> = fc
  .record({
    blend: arbitraryBlend({ widest: 12, tight: true }),
    twin: fc.boolean(),
    times: fc.constantFrom(exact(2), exact(0.5), exact(3)),
  })
  .map(({ blend: { model }, twin, times }) => {
    const again = model.rows.map((row) => multiplied(row, times));
    const [first] = model.columns as [ExactColumn];
    const columns = twin ? [...model.columns, { ...first, lower: ZERO }] : model.columns;
    const rows = [...model.rows, ...again].map((row) => {
      const ofFirst = row.terms.find(({ column }) => column === 0);
      if (!twin || !ofFirst) return row;
      return { ...row, terms: [...row.terms, weighted(model.columns.length, ofFirst.coefficient)] };
    });
    return continuous({ columns, rows });
  });

function multiplied(row: ExactRow, times: Exact): ExactRow {
  return {
    name: row.name,
    ...(row.lower && { lower: multiply(row.lower, times) }),
    ...(row.upper && { upper: multiply(row.upper, times) }),
    terms: row.terms.map(({ column, coefficient }) => weighted(column, multiply(coefficient, times))),
  };
}

/** The decimal places by which amounts and prices move when a blend is told in other units of mass. */
const MASS_UNITS = [
  // A thousand times the meat, in tonnes: the same amounts at a thousand times the price. Single lots in kg.
  { amounts: 0, prices: 3, own: 3 },
  // In kilograms, single lots in grams.
  { amounts: 0, prices: 0, own: 3 },
  // All in grams.
  { amounts: 3, prices: -3, own: 0 },
] as const;

/**
 * Blends told in other units: the batch in tonnes or grams, single lots in a unit of their own beside it, and every
 * limit in parts per million, percent or milligrams as it comes.
 */
export const badlyScaledBlends: fc.Arbitrary<Problem> = arbitraryBlend({ widest: 14 }).chain(({ model }) =>
  fc
    .record({
      unit: fc.constantFrom(...MASS_UNITS),
      isOwn: list(whole(0, 4), model.columns.length),
      rowPlaces: list(whole(-6, 6), model.rows.length),
    })
    .map(({ unit, isOwn, rowPlaces }) => {
      const ownPlaces = isOwn.map((chance) => (chance === 0 ? unit.own : 0));
      const columns = model.columns.map(({ cost, lower, upper }, index): ExactColumn => {
        const own = ownPlaces[index] as number;
        return {
          cost: shifted(cost, unit.prices - own),
          lower: shifted(lower, unit.amounts + own),
          upper: shifted(upper, unit.amounts + own),
        };
      });
      const rows = model.rows.map((row, index) => {
        const inUnits: ExactRow = {
          name: row.name,
          ...(row.lower && { lower: shifted(row.lower, unit.amounts) }),
          ...(row.upper && { upper: shifted(row.upper, unit.amounts) }),
          terms: row.terms.map(({ column, coefficient }) =>
            weighted(column, shifted(coefficient, -(ownPlaces[column] as number))),
          ),
        };
        return multiplied(inUnits, exact(`1e${rowPlaces[index] as number}`));
      });
      return continuous({ columns, rows });
    }),
);

/** By which share of the batch a limit is out of reach. */
const outOfReach = fc.constantFrom(decimal(1, 1), decimal(1, 2), decimal(1, 3), decimal(1, 4));

export const infeasibleBlends: fc.Arbitrary<Problem> = fc
  .record({
    blend: arbitraryBlend({ widest: 14 }).filter(({ point }) => sum(point).digits !== 0n),
    why: fc.constantFrom('stock', 'lean', 'crossed', 'shares'),
    by: outOfReach,
  })
  .map(({ blend, why, by }) =>
    continuous({ columns: blend.model.columns, rows: [...blend.model.rows, ...beyond(blend, why, by)] }),
  );

function beyond({ model, point }: Blend, why: string, by: Exact): ExactRow[] {
  const { columns, rows } = model;
  const batch = sum(point);
  const gap = multiply(batch, by);
  const [, share] = rows as [ExactRow, ExactRow];
  if (why === 'stock') {
    const stock = sum(columns.map(({ upper }) => upper));
    return [{ name: 'more than is there', lower: add(stock, gap), terms: onesFor(columns) }];
  }
  if (why === 'shares') {
    // Each lot at most a little less than its equal part of what goes in: the parts do not make a whole.
    const part = decimal(Math.floor(9999 / columns.length), 4);
    return columns.map((_, lot) => ({
      name: `part ${lot}`,
      upper: ZERO,
      terms: columns.map((_, other) => weighted(other, subtract(exact(other === lot ? 1 : 0), part))),
    }));
  }
  if (why === 'lean') {
    // Above the mean of all that is there by more than any of it has: coefficients less the greatest are not above 0.
    const most = share.terms.reduce(
      (max, { coefficient }) => (compare(coefficient, max) > 0 ? coefficient : max),
      ZERO,
    );
    const terms = share.terms.map(({ column, coefficient }) => weighted(column, subtract(coefficient, most)));
    return [{ name: 'leaner than the leanest', lower: gap, terms }];
  }
  const there = activity(share, point);
  return [
    { name: 'at most', upper: there, terms: share.terms },
    multiplied({ name: 'at least', lower: add(there, gap), terms: share.terms }, exact(2)),
  ];
}

/** Shares to be met on the dot, some of them with a price on every part that they miss by. */
export const targetBlends: fc.Arbitrary<Problem> = arbitraryBlend({ widest: 14 }).chain(({ model, point }) =>
  fc
    .record({
      isDeviationPriced: fc.boolean(),
      aims: list(list(whole(0, 5000), model.columns.length), 2),
      off: whole(-300, 300),
      weight: whole(1, 500),
    })
    .map(({ isDeviationPriced, aims, off, weight }) => {
      const columns = [...model.columns];
      const rows = [...model.rows];
      aims.forEach((aim, index) => {
        const terms = everyTerm(aim.map((value) => decimal(value, 4)));
        const there = activity({ name: '', terms }, point);
        if (!isDeviationPriced) {
          rows.push({ name: `aim ${index}`, lower: there, upper: there, terms });
          return;
        }
        const bound = { cost: hundredths(weight), lower: ZERO, upper: exact(1_000_000) };
        const under = columns.push(bound) - 1;
        const over = columns.push(bound) - 1;
        const aimed = multiply(there, add(exact(1), decimal(off, 3)));
        rows.push({
          name: `aim ${index}`,
          lower: aimed,
          upper: aimed,
          terms: [...terms, weighted(under, exact(1)), weighted(over, exact(-1))],
        });
      });
      return continuous({ columns, rows });
    }),
);

/**
 * Lots that come in whole boxes or not, at most so many of them used, each with a least amount if it is used.
 * Columns: amounts (boxes or kg), then one switch for each lot.
 */
export const boxBlends: fc.Arbitrary<Problem> = whole(5, 15).chain((width) =>
  fc
    .record({
      prices: list(whole(80, 900), width),
      boxes: list(whole(1, 8), width),
      /** kg in a box, in tenths. */
      boxMasses: list(fc.constantFrom(100, 150, 272), width),
      isBoxed: list(fc.boolean(), width),
      allBoxed: fc.boolean(),
      fats: list(whole(0, 500), width),
      most: whole(2, 6),
      leastIfUsed: list(whole(0, 2), width),
      batch: whole(20, 400),
      width: whole(5, 80),
      fatFrom: whole(50, 350),
      fatRange: whole(10, 150),
    })
    .map(
      ({ prices, boxes, boxMasses, isBoxed, allBoxed, fats, most, leastIfUsed, batch, fatFrom, ...rest }) => {
        const comesWhole = prices.map((_, lot) => allBoxed || (isBoxed[lot] as boolean));
        const masses = boxMasses.map((mass, lot) => (comesWhole[lot] ? decimal(mass, 1) : exact(1)));
        const stocks = boxes.map((count, lot) =>
          comesWhole[lot] ? exact(count) : multiply(exact(count), decimal(boxMasses[lot] as number, 1)),
        );
        const columns: ExactColumn[] = prices.map((price, lot) => ({
          cost: multiply(hundredths(price), masses[lot] as Exact),
          lower: ZERO,
          upper: stocks[lot] as Exact,
        }));
        const fat = fats.map((share, lot) => multiply(decimal(share, 3), masses[lot] as Exact));
        const fatTo = fatFrom + rest.fatRange;
        const from = decimal(fatFrom, 3);
        const to = decimal(fatTo, 3);
        const rows: ExactRow[] = [
          { name: 'batch', lower: exact(batch), upper: exact(batch + rest.width), terms: everyTerm(masses) },
          {
            name: 'fat at least',
            lower: ZERO,
            terms: everyTerm(fat.map((share, lot) => subtract(share, multiply(from, masses[lot] as Exact)))),
          },
          {
            name: 'fat at most',
            upper: ZERO,
            terms: everyTerm(fat.map((share, lot) => subtract(share, multiply(to, masses[lot] as Exact)))),
          },
          {
            name: 'lots used',
            upper: exact(most),
            terms: prices.map((_, lot) => weighted(columns.length + lot, exact(1))),
          },
        ];
        prices.forEach((_, lot) => {
          const isUsed = columns.length + lot;
          const least = comesWhole[lot]
            ? exact(leastIfUsed[lot] as number)
            : half(multiply(exact(leastIfUsed[lot] as number), stocks[lot] as Exact));
          const stock = stocks[lot] as Exact;
          rows.push({
            name: `none of lot ${lot} unless it is used`,
            upper: ZERO,
            terms: [weighted(lot, exact(1)), weighted(isUsed, multiply(stock, exact(-1)))],
          });
          if (least.digits === 0n || compare(least, stock) > 0) return;
          rows.push({
            name: `least of lot ${lot} if it is used`,
            lower: ZERO,
            terms: [weighted(lot, exact(1)), weighted(isUsed, multiply(least, exact(-1)))],
          });
        });
        const switches = prices.map((): ExactColumn => ({ cost: ZERO, lower: ZERO, upper: exact(1) }));
        const model: ExactModel = { columns: [...columns, ...switches], rows };
        const linear = toLinear(model);
        return {
          exact: model,
          linear: {
            rows: linear.rows,
            columns: linear.columns.map((column, index) =>
              comesWhole[index] === false ? column : { ...column, whole: true },
            ),
          },
        };
      },
    ),
);
