import { performance } from 'node:perf_hooks';
import { exact } from '../src/exact.ts';
import { batchModel } from '../src/formulate/batch-model.ts';
import { chanceRows } from '../src/formulate/certainty.ts';
import { chooseLots } from '../src/formulate/choose-lots.ts';
import { formulate } from '../src/formulate/formulate.ts';
import { houseLimits } from '../src/formulate/house-limits.ts';
import { prepare, problemOf } from '../src/formulate/prepare.ts';
import { workOut } from '../src/formulate/work-out.ts';
import { checkLimits } from '../src/rules/check.ts';
import { Coefficients } from '../src/rules/coefficients.ts';
import { FORMS } from '../src/rules/forms.ts';
import { solveWithChance } from '../src/solver/chance.ts';
import { loadEngines } from '../src/solver/engines/load.ts';
import type { Engine } from '../src/solver/model.ts';
import { solve } from '../src/solver/solve.ts';
import { books } from './books.ts';
import { exchange } from './exchange.ts';
import { pageInBrowser } from './page.ts';
import { requestOf } from './plants.ts';
import { print, quantile, timeTogether } from './timing.ts';

/**
 * What a blend costs on top of its engine, what it takes to say why there is none, how many planes a margin takes, whole boxes to the proven optimum, and
 * memory over ten thousand solves; then a plant's books as years are added (YEARS, 1 by default), and its spreadsheets in and out; at last the page in a browser. One JSON object per line. Run as: node --expose-gc --import tsx bench/bench.ts
 */

const { engines } = await loadEngines();
const highs = engines.find(({ name }) => name === 'highs') as Engine;

for (const lots of [8, 20, 60, 200, 600]) blendOverEngine(lots);
for (const lots of [60, 200, 600]) waysOut(lots);
for (const lots of [8, 20, 60]) planesOfMargins(lots);
for (const lots of [10, 20, 30, 40]) wholeBoxes(lots);
memory();
await books(Number(process.env.YEARS ?? 1));
await exchange(Number(process.env.YEARS ?? 1));
await pageInBrowser(Number(process.env.YEARS ?? 1));

/** Times of one call, and the ratio of the whole blend call to the raw call of HiGHS on its model. */
function blendOverEngine(lots: number): void {
  const request = requestOf(lots, engines);
  const { product, standard, supplies } = request;
  const outcome = formulate(request);
  if (outcome.outcome !== 'blend') throw new Error(`the bench of ${lots} lots has no blend`);

  const limits = [...standard.limits, ...houseLimits(product, standard)];
  const coefficients = new Coefficients(supplies, product.process);
  const buildModel = (of: Coefficients) =>
    batchModel(of, product, limits, { form: FORMS.formula, massKg: 200, isLeast: false });
  const model = buildModel(coefficients);
  const masses = supplies.map(
    (supply) => outcome.blend.lines.find((line) => line.supply === supply)?.exactMassKg ?? exact(0),
  );

  const timings = timeTogether({
    ...Object.fromEntries(
      engines
        .filter(({ suits }) => suits(model))
        .map(({ name, solve: ask }) => [`engine ${name}`, () => ask(model)]),
    ),
    solve: () => solve(model, engines),
    'build model': () => buildModel(new Coefficients(supplies, product.process)),
    'exact check': () => checkLimits(limits, coefficients, masses),
    formulate: () => formulate(request),
    'formulate with prices': () => formulate({ ...request, withPrices: true }),
  });
  for (const [name, { medianUs, p95Us, n }] of Object.entries(timings)) {
    print(`${name}, median`, medianUs, 'µs', { lots, n });
    print(`${name}, 95th percentile`, p95Us, 'µs', { lots, n });
  }
  const engine = timings['engine highs'];
  for (const name of ['solve', 'formulate', 'formulate with prices', 'exact check']) {
    const timing = timings[name];
    if (!timing || !engine) throw new Error(`${name} was not timed`);
    print(`${name} over HiGHS alone, medians`, timing.medianUs / engine.medianUs, 'ratio', {
      lots,
      n: timing.n,
    });
  }
}

/** A fat target beyond what protein and water leave: what fights, and every way out tried in full. */
function waysOut(lots: number): void {
  const request = requestOf(lots, engines);
  const targets = [
    { measure: 'fat', min: 0.4, max: 0.42 },
    { measure: 'protein', min: 0.16 },
  ] as const;
  const tookMs = Array.from({ length: 5 }, () => {
    const start = performance.now();
    const { outcome } = workOut({ ...request, product: { ...request.product, targets } });
    if (outcome !== 'no blend') throw new Error(`the bench of ${lots} lots has a blend it should not have`);
    return performance.now() - start;
  });
  print('no blend with its ways out, median', quantile(tookMs, 0.5), 'ms', { lots, n: tookMs.length });
}

/** Solves it takes until every margin is met, over confidences and sizes. */
function planesOfMargins(lots: number): void {
  const solves: number[] = [];
  const tookMs: number[] = [];
  for (const confidence of [0.8, 0.9, 0.95, 0.99]) {
    for (const massKg of [80, 140, 200, 260, 320]) {
      const request = { ...requestOf(lots, engines), size: { by: 'total', massKg } as const };
      // Both ends of the fat window: what is on hand must be spread over lots to meet them.
      const certainty = ['house-fat-min', 'house-fat-max'].map((limitId) => ({ limitId, confidence }));
      const prepared = prepare({ ...request, certainty });
      if (!prepared.ok) throw new Error('the bench is refused');
      const { model, coefficients } = problemOf(request, prepared.ready);
      const chances = chanceRows(prepared.ready.certain, model, coefficients);
      const start = performance.now();
      const found = solveWithChance(model.exact, chances, engines);
      if (found.outcome.status !== 'optimal') continue;
      tookMs.push(performance.now() - start);
      solves.push(found.solves);
    }
  }
  const n = solves.length;
  print('solves until a margin is met, median', quantile(solves, 0.5), 'count', { lots, n });
  print('solves until a margin is met, most', Math.max(...solves), 'count', { lots, n });
  print('margin met, median', quantile(tookMs, 0.5), 'ms', { lots, n });
}

/** Lots in whole boxes of 10 kg, at most eight of them, to the optimum that the engine reports as proven. */
function wholeBoxes(lots: number): void {
  const tookMs: number[] = [];
  let proven = 0;
  let none = 0;
  for (const massKg of [160, 180, 200, 220, 240, 260, 280, 300]) {
    const request = { ...requestOf(lots, engines), size: { by: 'total', massKg } as const };
    const prepared = prepare(request);
    if (!prepared.ok) throw new Error('the bench is refused');
    const { ready } = prepared;
    const { model, coefficients, size } = problemOf(request, ready);
    const wholes = ready.usable.flatMap(({ lot }) => lot?.id ?? []);
    const start = performance.now();
    const wishes = { wholeBoxes: wholes, mostLots: 8, sizeWithin: 0.01 };
    const chosen = chooseLots(model, coefficients, size, wishes, engines);
    tookMs.push(performance.now() - start);
    if (!chosen) none++;
    else if (chosen.cost - chosen.reportedLeastCost <= 1e-6 * chosen.cost) proven++;
  }
  const n = tookMs.length;
  print('whole boxes, median', quantile(tookMs, 0.5), 'ms', { lots, n });
  print('whole boxes, longest', Math.max(...tookMs), 'ms', { lots, n });
  print('whole boxes, optimum reported as proven', proven, 'count', { lots, n, none });
}

/** Memory of the process over ten thousand solves by HiGHS, the second half against the first. */
function memory(): void {
  const request = requestOf(20, engines);
  const prepared = prepare(request);
  if (!prepared.ok) throw new Error('the bench is refused');
  const { model } = problemOf(request, prepared.ready);
  const run = (count: number) => {
    for (let call = 0; call < count; call++) solve(model, [highs]);
    globalThis.gc?.();
    return process.memoryUsage().rss / 2 ** 20;
  };
  const half = run(5000);
  const whole = run(5000);
  print('memory after 5,000 solves', half, 'MB', { n: 5000 });
  print('memory grown over 5,000 more', whole - half, 'MB', { n: 5000 });
}
