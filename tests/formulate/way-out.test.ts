import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Formulation, Repair, WayOut } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { prepare, problemOf } from '../../src/formulate/prepare.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { workOut } from '../../src/formulate/work-out.ts';
import { conflictOf } from '../../src/solver/conflict.ts';
import type { Group } from '../../src/solver/groups.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { DEMO, demoProductJson, demoRequest, pounds } from '../helpers/demo-requests.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';

const beefWith = (targets: object[]) => ({
  ...demoProductJson('ground-beef-80-20'),
  targets,
  label: { storage: 'keep refrigerated' },
});

function stuck(
  request: FormulationRequest,
): Extract<Formulation, { outcome: 'no blend' }> & { wayOut: WayOut } {
  const formulation = workOut(request);
  if (formulation.outcome !== 'no blend' || !formulation.wayOut) throw new Error(formulation.outcome);
  return { ...formulation, wayOut: formulation.wayOut };
}

const kinds = (repairs: readonly Repair[]) => [...new Set(repairs.map(({ kind }) => kind))];

describe('a fat target below what any lot has', () => {
  const request = demoRequest({
    product: beefWith([{ measure: 'fat', max: 0.03 }]),
    batchSize: { total: pounds(500) },
  });
  const { proven, wayOut } = stuck(request);

  it('is proven to have no blend, and names the target alone: no lot is that lean, whatever the size', () => {
    expect(proven).toBe(true);
    expect(wayOut.conflict.map(({ kind, limitId }) => limitId ?? kind)).toEqual(['house-fat-max']);
  });

  it('offers the least change of the target: the fat of the leanest lots on hand, rounded outward', () => {
    // The leanest lot on hand is 4.8 % fat (B95-1121, tested) with 480 lb; the rest of 500 lb is 90 % lean.
    const [target] = wayOut.repairs.filter(({ kind }) => kind === 'target');
    expect(target?.changes).toEqual([{ limitId: 'house-fat-max', from: 3, to: 5, unit: 'percent' }]);
  });

  it('offers to buy leaner trim of the tables, and never to relax the law', () => {
    expect(kinds(wayOut.repairs)).toEqual(['target', 'buy']);
    for (const { changes } of wayOut.repairs) {
      for (const change of changes) expect(JSON.stringify(change)).not.toContain('us-');
    }
  });
});

describe('a price target against a fat target', () => {
  const { wayOut } = stuck(
    demoRequest({
      product: beefWith([
        { measure: 'fat', max: 0.12 },
        { measure: 'cost per kg', max: 6.9 },
      ]),
      batchSize: { total: pounds(500) },
    }),
  );

  it('names both and offers each of them', () => {
    const ids = wayOut.conflict.flatMap(({ limitId }) => limitId ?? []);
    expect(ids).toEqual(expect.arrayContaining(['house-fat-max', 'house-cost-per-kg-max']));
    const targets = wayOut.repairs.filter(({ kind }) => kind === 'target');
    expect(
      targets.flatMap(({ changes }) =>
        changes.flatMap((change) => ('limitId' in change ? change.limitId : [])),
      ),
    ).toEqual(expect.arrayContaining(['house-fat-max', 'house-cost-per-kg-max']));
  });
});

describe('targets that are only tried', () => {
  const trial: FormulationRequest = {
    ...demoRequest({
      product: beefWith([
        { measure: 'fat', min: 0.18, max: 0.2 },
        { measure: 'protein', min: 0.15 },
      ]),
      batchSize: { total: pounds(500) },
    }),
    insteadOf: [{ limitId: 'house-protein-min', bound: 0.195 }],
  };
  const lessFat = stuck(trial).wayOut.repairs.find(({ changes }) =>
    changes.some((change) => 'to' in change && change.limitId === 'house-fat-min'),
  );
  const costWith = (insteadOf: FormulationRequest['insteadOf']) => {
    const formulation = workOut({ ...trial, ...(insteadOf && { insteadOf }) });
    if (formulation.outcome !== 'blend') throw new Error(formulation.outcome);
    return formulation.blend.cost / formulation.blend.batchKg;
  };

  it('stay tried in a way out: it costs what it says once it is taken, and not what it would cost without them', () => {
    const [change] = lessFat?.changes ?? [];
    if (!change || !('to' in change)) throw new Error('less fat is no way out');
    const bounds = [{ limitId: change.limitId, bound: change.to / 100 }];
    expect(lessFat?.costPerKg).toBeCloseTo(costWith([...bounds, ...(trial.insteadOf ?? [])]), 9);
    expect(lessFat?.costPerKg).toBeGreaterThan(costWith(bounds) * 1.05);
  });
});

describe('a rate of cure above the law', () => {
  const product = demoProductJson('smoked-sausage');
  for (const line of product.seasoning) if (line.materialId === 'curing-salt-6.25') line.fraction = 0.0026;
  const { wayOut } = stuck(demoRequest({ product, batchSize: { total: pounds(300) } }));

  it('is named with the law it breaks, and the rate is what can change', () => {
    expect(wayOut.conflict.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['law', 'line']));
    // 156 ppm / 6.25 % = 0.2496 %, three digits down: 0.249 % (9 CFR 424.21(c), decision on the ounces of the rule).
    expect(wayOut.repairs).toHaveLength(1);
    expect(wayOut.repairs[0]).toMatchObject({
      kind: 'rate',
      changes: [{ materialId: 'curing-salt-6.25', rateFrom: 0.0026, rateTo: 0.00249 }],
    });
  });
});

describe('a batch larger than the lots', () => {
  it('offers a smaller one that nearly uses them up', () => {
    const lots = DEMO.lots.filter(({ id }) => ['B85-1119', 'B73-1120'].includes(id)).map(({ id }) => id);
    const others = DEMO.lots.map(({ id }) => id).filter((id) => !lots.includes(id));
    const { wayOut } = stuck(
      demoRequest({ product: 'ground-beef-80-20', batchSize: { total: pounds(2000) }, excludeLots: others }),
    );
    const smaller = wayOut.repairs.find(({ kind }) => kind === 'smaller batch');
    const [change] = smaller?.changes ?? [];
    if (!change || !('sizeToKg' in change)) throw new Error('no smaller batch is offered');
    // 840 lb of 15 % and 720 lb of 27.8 % fat: x = 840 (20 − 15.2)/(27.8 − 20) and so on; well above 1,000 lb.
    expect(change.sizeToKg).toBeGreaterThan(1000 * 0.45359237);
    expect(change.sizeToKg).toBeLessThan(1560 * 0.45359237);
    expect(wayOut.conflict.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['stock', 'size']));
  });
});

describe('wishes and confidence that cannot be had', () => {
  it('offers to open a box or to let the size go a little', () => {
    const { wayOut, because } = stuck(
      demoRequest({
        product: 'ground-beef-80-20',
        batchSize: { total: pounds(500) },
        floor: { wholeBoxes: 'all' },
      }),
    );
    expect(because.map(({ message }) => message).join()).toMatch(
      /A blend exists, but none was found with whole boxes/,
    );
    expect(kinds(wayOut.repairs)).toEqual(['wish']);
    expect(wayOut.repairs.flatMap(({ changes }) => changes)).toEqual(
      expect.arrayContaining([{ withoutWish: 'wholeBoxes' }, { sizeWithin: 0.05 }]),
    );
  });

  it('offers the highest usual confidence that both ends of a narrow window allow', () => {
    const { wayOut, because } = stuck(
      demoRequest({
        product: beefWith([{ measure: 'fat', min: 0.19, max: 0.2 }]),
        batchSize: { total: pounds(500) },
        certainty: [
          { limitId: 'house-fat-max', confidence: 0.99 },
          { limitId: 'house-fat-min', confidence: 0.99 },
        ],
      }),
    );
    expect(because.map(({ message }) => message).join()).toMatch(
      /not with the confidence asked of house-fat-m/,
    );
    const confidence = wayOut.repairs.filter(({ kind }) => kind === 'confidence');
    expect(confidence.length).toBeGreaterThan(0);
    for (const { changes } of confidence) {
      for (const change of changes) {
        if (!('confidenceTo' in change)) throw new Error('another change');
        expect(change.confidenceTo).toBeLessThan(0.99);
        expect(change.confidenceTo).toBeGreaterThan(0.5);
      }
    }
  });

  it('says how many lots would do, and takes back a least amount of a lot if it is used', () => {
    const few = stuck(
      demoRequest({
        product: 'ground-beef-80-20',
        batchSize: { total: pounds(500) },
        floor: { mostLots: 1 },
      }),
    );
    expect(few.wayOut.repairs).toEqual([
      expect.objectContaining({ kind: 'wish', changes: [{ mostLots: 2 }] }),
    ]);
    const lotOf = (id: string, materialId: string) => ({
      id,
      materialId,
      onHand: pounds(200),
      cost: { amount: 2, per: 'lb' },
    });
    const least = stuck(
      demoRequest({
        product: 'ground-beef-80-20',
        batchSize: { total: pounds(100) },
        lots: [lotOf('A', 'beef-trim-73'), lotOf('B', 'beef-trim-90')],
        use: [
          { lotId: 'A', leastIfUsed: pounds(90) },
          { lotId: 'B', leastIfUsed: pounds(90) },
        ],
      }),
    );
    expect(least.wayOut.repairs.map(({ changes }) => changes)).toEqual([
      [{ withoutLeastOf: 'A' }, { withoutLeastOf: 'B' }],
    ]);
  });

  it('names the boxes when it is the boxes, though the lots end below the size asked', () => {
    const lot = {
      id: 'L1',
      materialId: 'beef-trim-80',
      onHand: pounds(98),
      cost: { amount: 2, per: 'lb' },
      box: pounds(30),
      measuredFat: { fatFraction: 0.19, method: 'NIR' },
    };
    const { proven, because, wayOut } = stuck(
      demoRequest({
        product: 'ground-beef-80-20',
        batchSize: { total: pounds(100) },
        lots: [lot],
        floor: { wholeBoxes: 'all', sizeWithin: 0.05 },
      }),
    );
    expect(proven).toBe(false);
    expect(because[0]?.message).toMatch(/none was found with whole boxes of L1/);
    expect(wayOut.repairs.map(({ changes }) => changes)).toContainEqual([{ withoutWish: 'wholeBoxes' }]);
  });

  it('offers to take a demand back', () => {
    const { wayOut } = stuck(
      demoRequest({
        product: 'ground-beef-80-20',
        batchSize: { total: pounds(500) },
        use: [{ lotId: 'B50-1118', min: pounds(400) }],
      }),
    );
    expect(wayOut.repairs).toContainEqual(
      expect.objectContaining({ kind: 'demand', changes: [{ withoutLeastOf: 'B50-1118' }] }),
    );
  });
});

describe('every repair', () => {
  // Requests of all kinds that have no blend: windows of fat and protein nobody can meet, prices, sizes.
  const arbitraryBody = fc.record({
    product: fc
      .tuple(
        fc.constantFrom('ground-beef-80-20', 'smoked-sausage', 'fresh-pork-sausage', 'bratwurst'),
        fc.integer({ min: 1, max: 45 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: 10, max: 21 }),
        fc.integer({ min: 15, max: 70 }),
      )
      .map(([id, fat, width, protein, cost]) => ({
        ...demoProductJson(id),
        label: { storage: 'keep refrigerated' },
        targets: [
          { measure: 'fat', min: fat / 100, max: (fat + width) / 100 },
          { measure: 'protein', min: protein / 100 },
          { measure: 'cost per kg', max: cost / 10 },
        ],
      })),
    batchSize: fc.integer({ min: 50, max: 3000 }).map((value) => ({ total: pounds(value) })),
  });

  it('leads to a blend when it is made, and what fights is named only where HiGHS finds no point', {
    timeout: 120_000,
  }, () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(arbitraryBody, (body) => {
        const request = demoRequest(body);
        const formulation = workOut(request);
        if (formulation.outcome !== 'no blend') return;
        seen['no blend'] = (seen['no blend'] ?? 0) + 1;
        if (formulation.proven) seen.proven = (seen.proven ?? 0) + 1;
        const { repairs, conflict } = formulation.wayOut ?? { repairs: [], conflict: [] };
        for (const repair of repairs) {
          seen[repair.kind] = (seen[repair.kind] ?? 0) + 1;
          const again = formulate(repaired(request, repair));
          expect([repair.says, again.outcome]).toEqual([repair.says, 'blend']);
          if (again.outcome === 'blend') expect(again.blend.checks.every(({ holds }) => holds)).toBe(true);
        }
        if (conflict.length > 0) expectEmpty(request);
      }),
      { seed: 4127, numRuns: 60 },
    );
    console.log(`ways out: ${JSON.stringify(seen)}`);
    expect(seen['no blend']).toBeGreaterThan(20);
  });

  /** The request with a change made, as a person would make it. */
  function repaired(request: FormulationRequest, { changes }: Repair): FormulationRequest {
    let changed = request;
    for (const change of changes) changed = withChange(changed, change);
    return changed;
  }

  function withChange(changed: FormulationRequest, change: Repair['changes'][number]): FormulationRequest {
    if ('unit' in change) {
      const bound = change.unit === 'percent' ? change.to / 100 : change.to;
      return {
        ...changed,
        insteadOf: [
          ...(changed.insteadOf ?? []),
          { limitId: change.limitId, bound: Number(bound.toPrecision(12)) },
        ],
      };
    }
    if ('buyMaterialId' in change) {
      const material = DEMO.materials.get(change.buyMaterialId);
      if (!material) throw new Error(change.buyMaterialId);
      const bought = {
        id: 'bought',
        material,
        composition: material.composition,
        costPerKg: change.costPerKg ?? 0,
        onHandKg: change.massKg,
      };
      return { ...changed, supplies: [...changed.supplies, bought] };
    }
    if ('sizeToKg' in change) return { ...changed, size: { by: 'total', massKg: change.sizeToKg } };
    if ('rateTo' in change) {
      const seasoning = changed.product.seasoning.map((line) =>
        line.materialId === change.materialId
          ? { ...line, minFraction: change.rateTo, maxFraction: change.rateTo }
          : line,
      );
      return { ...changed, product: { ...changed.product, seasoning } };
    }
    throw new Error(`no such change here: ${JSON.stringify(change)}`);
  }

  function expectEmpty(request: FormulationRequest): void {
    const prepared = prepare(request);
    if (!prepared.ok) throw new Error('the request is refused');
    const { model } = problemOf(request, prepared.ready);
    expect(solveWithHighs({ columns: model.columns, rows: model.rows }).status).toBe('infeasible');
  }
});

describe('a conflicting set of rows', () => {
  const FREE = (row: number) => ({ row, lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY });

  const row = (coefficients: readonly number[], lower: number, upper: number): Row => ({
    name: 'row',
    lower,
    upper,
    terms: coefficients.map((coefficient, column) => ({ column, coefficient })),
  });

  it('keeps the two ends of one column apart', () => {
    // At least 10 of a column of which 30 are there, at most 27 % of it: dropping the demand leaves the stock.
    const model: LinearModel = {
      columns: [{ cost: 0, lower: 10, upper: 30 }],
      rows: [row([1], 40, 40)],
    };
    const groups: Group[] = [
      { rows: [], ends: [{ column: 0, end: 'upper', to: 1e6 }] },
      { rows: [], ends: [{ column: 0, end: 'lower', to: 0 }] },
      { rows: [{ row: 0, lower: 0.04, upper: Number.POSITIVE_INFINITY }], ends: [] },
    ];
    expect(conflictOf(model, groups, ENGINES)).toEqual([0, 2]);
  });

  it('is none when there is a point', () => {
    const model: LinearModel = { columns: [{ cost: 1, lower: 0, upper: 9 }], rows: [row([1], 2, 3)] };
    expect(conflictOf(model, [{ rows: [FREE(0)], ends: [] }], ENGINES)).toBeUndefined();
  });

  /** All sets of so many of the first rows. */
  function subsets(rows: number, size: number): number[][] {
    if (size === 0) return [[]];
    return Array.from({ length: rows }, (_, last) => last).flatMap((last) =>
      subsets(last, size - 1).map((others) => [...others, last]),
    );
  }

  it('has no point by itself, has one without any of its parts, and no fewer rows do (random models)', () => {
    const integer = fc.integer({ min: -4, max: 4 });
    const arbitraryModel = fc.record({
      columns: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 4 }),
      rows: fc.array(
        fc.tuple(fc.array(integer, { minLength: 4, maxLength: 4 }), integer, fc.integer({ min: 0, max: 3 })),
        {
          minLength: 3,
          maxLength: 9,
        },
      ),
    });
    let found = 0;
    fc.assert(
      fc.property(arbitraryModel, ({ columns, rows }) => {
        const model: LinearModel = {
          columns: columns.map((upper) => ({ cost: 0, lower: 0, upper })),
          rows: rows.map(([coefficients, lower, width]) =>
            row(coefficients.slice(0, columns.length), lower * 2, lower * 2 + width),
          ),
        };
        const groups: Group[] = model.rows.map((_, index) => ({ rows: [FREE(index)], ends: [] }));
        const conflict = conflictOf(model, groups, ENGINES);
        const withRows = (kept: readonly number[]) =>
          solveWithHighs({
            columns: model.columns,
            rows: model.rows.filter((_, index) => kept.includes(index)),
          }).status;
        if (!conflict) {
          expect(withRows(model.rows.map((_, index) => index))).toBe('optimal');
          return;
        }
        found++;
        expect(withRows(conflict)).toBe('infeasible');
        for (const part of conflict)
          expect(withRows(conflict.filter((other) => other !== part))).toBe('optimal');
        // Every smaller set has a point: there is no conflict of fewer rows.
        for (const smaller of subsets(model.rows.length, conflict.length - 1)) {
          expect(withRows(smaller)).toBe('optimal');
        }
      }),
      { seed: 991, numRuns: 300 },
    );
    expect(found).toBeGreaterThan(50);
  });

  it('of hundreds of groups has no point by itself and has one without any of its parts', () => {
    const sizes: number[] = [];
    for (const lots of [90, 300]) {
      for (const [least, most, ofStock] of [
        [0.3, 0.2, 0.5],
        [0.55, 0.6, 0.5],
        [0.1, 0.2, 1.2],
        [0.4, 0.42, 0.97],
      ] as const) {
        const fat = Array.from({ length: lots }, (_, index) => 0.05 + 0.5 * (((index * 37) % 101) / 101));
        const stocks = fat.map((_, index) => 10 + ((index * 53) % 31));
        const sizeKg = ofStock * stocks.reduce((a, b) => a + b, 0);
        const lean = fat.map((each) => each - least);
        const rows = [
          row(
            fat.map(() => 1),
            sizeKg,
            sizeKg,
          ),
          row(lean, 0, Number.POSITIVE_INFINITY),
          row(
            fat.map((each) => each - most),
            Number.NEGATIVE_INFINITY,
            0,
          ),
        ];
        const model: LinearModel = { columns: stocks.map((upper) => ({ cost: 0, lower: 0, upper })), rows };
        const groups: Group[] = [
          ...stocks.map((_, column): Group => ({ rows: [], ends: [{ column, end: 'upper', to: 1e6 }] })),
          { rows: [{ row: 0, lower: 0.001 * sizeKg, upper: Number.POSITIVE_INFINITY }], ends: [] },
          { rows: [FREE(1)], ends: [] },
          { rows: [FREE(2)], ends: [] },
        ];
        const conflict = conflictOf(model, groups, ENGINES);
        if (!conflict) throw new Error(`${lots} lots between ${least} and ${most} have a blend`);
        sizes.push(conflict.length);
        const holding = (kept: readonly number[]) => {
          const freed = groups.filter((_, index) => !kept.includes(index));
          const isFreed = (column: number) => freed.some(({ ends }) => ends[0]?.column === column);
          return solveWithHighs({
            columns: model.columns.map((each, index) => (isFreed(index) ? { ...each, upper: 1e6 } : each)),
            rows: rows.map((each, index) => {
              const wide = freed.flatMap((group) => group.rows).find((free) => free.row === index);
              return wide ? { ...each, lower: wide.lower, upper: wide.upper } : each;
            }),
          }).status;
        };
        expect(holding(conflict)).toBe('infeasible');
        // A few of many lots stand for all.
        for (const part of [...conflict.slice(0, 6), ...conflict.slice(-3)]) {
          expect(holding(conflict.filter((other) => other !== part))).toBe('optimal');
        }
      }
    }
    expect(Math.min(...sizes)).toBeLessThan(4);
    expect(Math.max(...sizes)).toBeGreaterThan(50);
  });
});
