import { availableKg } from '../batch/lot.ts';
import { isMeat, type Material, type MaterialKind } from '../batch/material.ts';
import type { Scale } from '../batch/plant.ts';
import { compare, type Exact, exact, multiply, ratio, subtract, sum, toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { chooseScale, divisionKg } from './scales.ts';

/** A line of one load on its scale. */
export interface WeighedLine {
  readonly column: number;
  readonly scale: Scale;
  /** Exact kilograms of one division. */
  readonly divisionKg: Exact;
  /** The weight per load that the blend asks for. */
  readonly wantedKg: number;
  /** Whole divisions on the scale. */
  readonly divisions: number;
  /** Fewest and most divisions in a load, by what the lot holds and the plant says. */
  readonly leastDivisions: number;
  readonly mostDivisions: number;
  /** Whether the blend may move this line to keep sums and limits: meat yes, a fixed seasoning no. */
  readonly free: boolean;
}

/** Kinds that the law counts: never rounded up. */
const ROUNDED_DOWN: readonly MaterialKind[] = [
  'cure',
  'cure accelerator',
  'phosphate',
  'antimicrobial',
  'antioxidant',
  'binder',
  'water',
];

export function isRoundedDown({ kind }: Material): boolean {
  return ROUNDED_DOWN.includes(kind);
}

/**
 * Brings the weights of one load onto scales: seasonings to the nearest division, counted substances down,
 * and meat so that the load keeps the asked sum.
 * @param massesKg per supply, in the whole batch. @param counts which columns the asked size counts.
 * @param loadTargetKg what those columns should weigh in one load.
 */
export function roundToScale(
  coefficients: Coefficients,
  massesKg: readonly number[],
  loads: number,
  scales: readonly Scale[],
  counts: (column: number) => boolean,
  loadTargetKg: number,
): WeighedLine[] {
  const lines = massesKg.flatMap((massKg, column) => {
    const line = startLine(coefficients, column, massKg / loads, loads, scales);
    return line ? [line] : [];
  });
  return fillUp(lines, (line) => counts(line.column), loadTargetKg);
}

function startLine(
  { supplies }: Coefficients,
  column: number,
  wantedKg: number,
  loads: number,
  scales: readonly Scale[],
): WeighedLine | undefined {
  const supply = supplies[column];
  if (!supply || wantedKg < 1e-9) return undefined;
  const scale = chooseScale(wantedKg, scales);
  const division = divisionKg(scale);
  const count = wantedKg / toNumber(division);
  // Engines answer to about 1e-8 kg: a weight that close to a whole division is meant to be that division.
  const dust = Math.min(0.01, 1e-7 / toNumber(division));
  const free = isMeat(supply.material);
  const down = free || isRoundedDown(supply.material);
  const divisions = down ? Math.floor(count + dust) : Math.round(count);
  const loadStep = multiply(division, exact(loads));
  const mostDivisions = divisionsWithin(availableKg(supply), loadStep);
  const leastDivisions = divisionsReaching(supply.leastKg ?? 0, loadStep);
  return {
    column,
    scale,
    divisionKg: division,
    wantedKg,
    divisions: Math.min(Math.max(divisions, leastDivisions), mostDivisions),
    leastDivisions,
    mostDivisions,
    free,
  };
}

/** The most whole steps that stay within a mass, decided exactly. */
function divisionsWithin(massKg: number, step: Exact): number {
  if (!Number.isFinite(massKg)) return Number.POSITIVE_INFINITY;
  const near = Math.floor(ratio(exact(massKg), step));
  const over = (count: number) => compare(multiply(exact(count), step), exact(massKg)) > 0;
  return over(near) ? near - 1 : over(near + 1) ? near : near + 1;
}

/** The fewest whole steps that reach a mass. */
function divisionsReaching(massKg: number, step: Exact): number {
  const within = divisionsWithin(massKg, step);
  return compare(multiply(exact(within), step), exact(massKg)) < 0 ? within + 1 : within;
}

/** Gives the weight that rounding took away back to the free lines that lost most, coarse scales first. */
function fillUp(
  lines: readonly WeighedLine[],
  counted: (line: WeighedLine) => boolean,
  loadTargetKg: number,
): WeighedLine[] {
  const filled = [...lines];
  let missingKg = toNumber(
    subtract(exact(loadTargetKg), sum(filled.filter(counted).map((line) => lineKg(line)))),
  );
  for (let guard = 0; guard < 2 * lines.length + 2; guard++) {
    const next = filled
      .map((line, index) => ({ line, index, stepKg: toNumber(line.divisionKg) }))
      .filter(({ line }) => line.free && counted(line) && line.divisions < line.mostDivisions)
      .filter(({ stepKg }) => missingKg >= stepKg / 2)
      .sort((a, b) => b.stepKg - a.stepKg || lost(b.line) - lost(a.line))[0];
    if (!next) break;
    filled[next.index] = { ...next.line, divisions: next.line.divisions + 1 };
    missingKg -= next.stepKg;
  }
  return filled;
}

function lost(line: WeighedLine): number {
  return line.wantedKg - toNumber(lineKg(line));
}

/** Exact weight of a line in one load. */
export function lineKg({ divisions, divisionKg: division }: WeighedLine): Exact {
  return multiply(exact(divisions), division);
}

/** Exact weights of the whole batch, one per supply. */
export function batchMasses(lines: readonly WeighedLine[], loads: number, supplies: number): Exact[] {
  const masses: Exact[] = Array.from({ length: supplies }, () => exact(0));
  for (const line of lines) masses[line.column] = multiply(lineKg(line), exact(loads));
  return masses;
}
