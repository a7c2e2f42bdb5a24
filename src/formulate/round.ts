import { carries, RESTRICTED } from '../batch/carries.ts';
import { availableKg, type Supply } from '../batch/lot.ts';
import { isMeat, isRework, type Material } from '../batch/material.ts';
import type { Scale } from '../batch/plant.ts';
import { divisionKg } from '../batch/scale.ts';
import { compare, type Exact, exact, multiply, ratio, toNumber } from '../exact.ts';
import { chooseScale } from './scales.ts';

/** A line of one load on its scale. */
export interface WeighedLine {
  readonly column: number;
  readonly supply: Supply;
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
}

/**
 * How a line may move when it is rounded: meat takes up what keeps sums and limits, what the law counts never
 * goes up, other seasonings go to the nearest division.
 */
export type Rounding = 'free' | 'down' | 'nearest';

/**
 * Meat is free; water, binders and whatever carries a restricted substance go down, rework that brings one too; the
 * rest to the nearest.
 */
export function roundingOf(material: Material): Rounding {
  if (isMeat(material)) return isRework(material) && carries(material, RESTRICTED) ? 'down' : 'free';
  const isCounted = material.kind === 'binder' || material.kind === 'water' || carries(material, RESTRICTED);
  return isCounted ? 'down' : 'nearest';
}

/**
 * Brings the weights of one load onto scales, meat rounded down for now.
 * @param massesKg one for each supply, in the whole batch.
 */
export function roundToScale(
  supplies: readonly Supply[],
  massesKg: readonly number[],
  loads: number,
  scales: readonly Scale[],
): WeighedLine[] {
  return supplies.flatMap((supply, column) => {
    const wantedKg = (massesKg[column] ?? 0) / loads;
    return wantedKg < 1e-9 ? [] : [roundLine(supply, column, wantedKg, loads, scales)];
  });
}

function roundLine(
  supply: Supply,
  column: number,
  wantedKg: number,
  loads: number,
  scales: readonly Scale[],
): WeighedLine {
  const scale = chooseScale(wantedKg, scales);
  const division = divisionKg(scale);
  const count = wantedKg / toNumber(division);
  // Engines answer to about 1e-8 kg: a weight that close to a whole division is meant to be that division.
  const dust = Math.min(0.01, 1e-7 / toNumber(division));
  const divisions = roundingOf(supply.material) === 'nearest' ? Math.round(count) : Math.floor(count + dust);
  const loadStep = multiply(division, exact(loads));
  const mostDivisions = divisionsWithin(availableKg(supply), loadStep);
  const leastDivisions = divisionsReaching(supply.leastKg ?? 0, loadStep);
  return {
    column,
    supply,
    scale,
    divisionKg: division,
    wantedKg,
    divisions: Math.min(Math.max(divisions, leastDivisions), mostDivisions),
    leastDivisions,
    mostDivisions,
  };
}

/** The most whole steps that stay within a mass, decided exactly. */
export function divisionsWithin(massKg: number, step: Exact): number {
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

/** Exact weight of a line in one load. */
export function lineKg({ divisions, divisionKg: division }: WeighedLine): Exact {
  return multiply(exact(divisions), division);
}

/** Exact weights of the whole batch, one for each supply. */
export function batchMasses(lines: readonly WeighedLine[], loads: number, supplies: number): Exact[] {
  const masses: Exact[] = Array.from({ length: supplies }, () => exact(0));
  for (const line of lines) masses[line.column] = multiply(lineKg(line), exact(loads));
  return masses;
}
