import { isMeat } from '../batch/material.ts';
import { compare, type Exact, exact, multiply, sum, toNumber, ZERO } from '../exact.ts';
import { lineKg, roundToScale, type WeighedLine } from '../formulate/round.ts';
import { activity } from '../solver/exact-model.ts';
import { isCounted, isRightMix, isWithinCapacity, mixMasses } from './check.ts';
import type { MixProblem, Rate } from './model.ts';

/** Additions that scales can show, with the exact weights of the whole. */
export interface WeighedAdditions {
  readonly lines: readonly WeighedLine[];
  readonly masses: readonly Exact[];
}

/** Divisions by which the heaviest meat lines are tried away from their rounded-down weight. */
const STEPS = [0, 1, 2, 3, 5, -1] as const;
/** Lines of meat that are moved together; a correction seldom needs more. */
const MOST_MOVED = 3;

/**
 * Brings additions onto the plant's scales: the meat a few divisions around what was asked, the fixed seasoning lines
 * as they follow from the meat as weighed, all else rounded down. What is in the mixer stays as it was weighed.
 * @param wanted solutions of the model, each one mass for each column.
 * @returns of the weights tried the cheapest that keep every limit exactly; undefined when none of them does.
 */
export function roundAdditions(
  problem: MixProblem,
  wanted: readonly (readonly number[])[],
): WeighedAdditions | undefined {
  const seen = new Set<string>();
  const tried = wanted
    .flatMap((massesKg) => around(baseLines(problem, massesKg)))
    .filter((lines) => {
      const key = lines.map(({ column, scale, divisions }) => `${column} ${scale.id} ${divisions}`).join();
      return !seen.has(key) && seen.add(key);
    })
    .map((lines) => ({ lines, cost: costOf(lines), kg: totalKg(lines) }))
    .sort((a, b) => compare(a.cost, b.cost) || compare(a.kg, b.kg));
  for (const { lines } of tried) {
    const followed = followMeat(problem, lines);
    const masses = massesOf(problem, followed);
    if (!isWithinCapacity(problem, masses) || !isRightMix(problem, masses)) continue;
    return { lines: followed.filter(({ divisions }) => divisions > 0), masses };
  }
  return undefined;
}

function costOf(lines: readonly WeighedLine[]): Exact {
  return sum(lines.map((line) => multiply(lineKg(line), exact(line.supply.costPerKg))));
}

function totalKg(lines: readonly WeighedLine[]): Exact {
  return sum(lines.map(lineKg));
}

function baseLines({ mix, views, plant }: MixProblem, massesKg: readonly number[]): WeighedLine[] {
  const added = massesKg.map((massKg, column) => (column < mix.length ? 0 : massKg));
  return roundToScale(views[0].supplies, added, 1, plant.scales);
}

/** The lines with their heaviest meat lines some divisions up or down, in every combination. */
function around(lines: readonly WeighedLine[]): WeighedLine[][] {
  const moved = lines
    .filter(({ supply }) => isMeat(supply.material))
    .sort((a, b) => b.wantedKg - a.wantedKg)
    .slice(0, MOST_MOVED);
  return moved.reduce<WeighedLine[][]>(
    (sets, line) =>
      sets.flatMap((set) =>
        STEPS.map((step) =>
          set.map((other) => (other.column === line.column ? stepped(other, step) : other)),
        ),
      ),
    [[...lines]],
  );
}

function stepped(line: WeighedLine, step: number): WeighedLine {
  return { ...line, divisions: Math.min(line.mostDivisions, Math.max(0, line.divisions + step)) };
}

/** Rounds of following; the basis moves with the seasonings themselves, ever less. */
const ROUNDS = 3;

/** Fixed seasoning lines topped up to their rate of the whole as it is weighed. */
function followMeat(problem: MixProblem, start: readonly WeighedLine[]): WeighedLine[] {
  let lines = [...start];
  for (let round = 0; round < ROUNDS; round++) {
    for (const rate of problem.rates) lines = atRate(problem, lines, rate);
  }
  return problem.rates
    .filter((rate) => isCounted(rate, problem))
    .reduce((kept, rate) => notPastRate(problem, kept, rate), lines);
}

function atRate(problem: MixProblem, lines: readonly WeighedLine[], rate: Rate): WeighedLine[] {
  const own = lines.filter(({ supply }) => supply.material.id === rate.materialId);
  const index = lines.indexOf(
    own.find(({ divisions, mostDivisions }) => divisions < mostDivisions) ?? (own.at(-1) as WeighedLine),
  );
  const line = lines[index];
  if (!line) return [...lines];
  const offKg = toNumber(activity(rate.row, massesOf(problem, lines)));
  const count = line.divisions - offKg / toNumber(line.divisionKg);
  const divisions = isCounted(rate, problem) ? Math.floor(count + 1e-9) : Math.round(count);
  return lines.map((other, at) => (at === index ? { ...line, divisions: within(line, divisions) } : other));
}

/** Takes back whole divisions of what is added until the line is not above its rate. */
function notPastRate(problem: MixProblem, start: readonly WeighedLine[], rate: Rate): WeighedLine[] {
  let lines = [...start];
  for (;;) {
    const index = lines.findIndex(
      ({ supply, divisions }) => supply.material.id === rate.materialId && divisions > 0,
    );
    const line = lines[index];
    if (!line || compare(activity(rate.row, massesOf(problem, lines)), ZERO) <= 0) return lines;
    lines = lines.map((other, at) => (at === index ? { ...line, divisions: line.divisions - 1 } : other));
  }
}

function within({ mostDivisions }: WeighedLine, divisions: number): number {
  return Math.min(mostDivisions, Math.max(0, divisions));
}

function massesOf(problem: MixProblem, lines: readonly WeighedLine[]): Exact[] {
  const masses = mixMasses(problem);
  for (const line of lines) masses[line.column] = lineKg(line);
  return masses;
}
