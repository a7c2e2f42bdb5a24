import { atFat } from '../batch/composition.ts';
import { defaultFatSd } from '../batch/fat-certainty.ts';
import type { Supply } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { type Exact, exact, multiply, ratio, subtract, sum, toNumber } from '../exact.ts';

/** What was weighed of one supply into the mixer. */
export interface MixLine {
  readonly supply: Supply;
  /** Exactly as the scale showed it. */
  readonly massKg: Exact;
}

/** Total weight of a mix. */
export function mixKg(lines: readonly MixLine[]): Exact {
  return sum(lines.map(({ massKg }) => massKg));
}

/** Fat of a mix as its lots say it, as a fraction of the whole. @param lines at least one that weighs something. */
export function saidFatFraction(lines: readonly MixLine[]): number {
  return ratio(fatKg(lines), mixKg(lines));
}

/** The least and the most fat that a mix can hold, whatever its meat is: none of the meat, or all of it. */
export function possibleFat(lines: readonly MixLine[]): { readonly least: number; readonly most: number } {
  const total = mixKg(lines);
  const other = fatKg(lines.filter(({ supply }) => !isMeat(supply.material)));
  const meat = mixKg(lines.filter(({ supply }) => isMeat(supply.material)));
  return { least: ratio(other, total), most: ratio(sum([other, meat]), total) };
}

/** Shares are kept to 12 decimals, as every computed share, so that exact sums stay short. */
const DIGITS = 12;

/**
 * The lines of a mix with the fat that its test found. The lots said otherwise, and the difference has to lie in the
 * meat. With the errors of the lots independent of each other, the likeliest way in which they add up to the
 * difference moves each lot's fat in proportion to its variance times its weight: sd² × mass. (It is the mean of
 * jointly normal errors given their sum; Σ m·e = D gives e = D · m·sd² / Σ m²·sd².) So a big untested lot explains
 * nearly all of it and a tested one next to nothing. A lot stays between no fat and all fat; what is then left over
 * goes to the others. Water and protein follow the fat along the line of the trim. The weighted mean is the tested
 * fat to 12 decimals: the heaviest line that is not at an end takes up the rounding of the others.
 * @returns undefined where no fat of the meat makes the mix what was found.
 */
export function testedMix(lines: readonly MixLine[], fatFraction: number): readonly MixLine[] | undefined {
  const moved = movedFats(lines, fatFraction);
  return moved?.map((fat, index) => {
    const { supply, massKg } = lines[index] as MixLine;
    if (fat === supply.composition.fatFraction) return { supply, massKg };
    const { trimLine } = supply.material;
    const composition = atFat({ composition: supply.composition, ...(trimLine && { trimLine }) }, fat);
    return { supply: { ...supply, composition }, massKg };
  });
}

function movedFats(lines: readonly MixLine[], fatFraction: number): number[] | undefined {
  const masses = lines.map(({ massKg }) => toNumber(massKg));
  const fats = lines.map(({ supply }) => supply.composition.fatFraction);
  const wanted = multiply(exact(fatFraction), mixKg(lines));
  let open = lines.flatMap(({ supply }, index) => (isMeat(supply.material) ? [index] : []));
  let last: number | undefined;
  // Every round either ends or leaves a line at its end, so there are no more rounds than lines.
  while (open.length > 0) {
    const missingKg = toNumber(subtract(wanted, totalFat(lines, fats)));
    const pulls = pullsOf(open.map((index) => lines[index] as MixLine));
    const all = open.reduce((total, index, at) => total + (pulls[at] ?? 0) * (masses[index] ?? 0), 0);
    const next = open.map(
      (index, at) => (fats[index] ?? 0) + (all > 0 ? (missingKg * (pulls[at] ?? 0)) / all : 0),
    );
    const beyond = open.filter((_, at) => (next[at] ?? 0) < 0 || (next[at] ?? 0) > 1);
    open.forEach((index, at) => {
      const fat = next[at] ?? 0;
      if (beyond.length === 0) fats[index] = Number(fat.toFixed(DIGITS));
      else if (beyond.includes(index)) fats[index] = fat > 1 ? 1 : 0;
    });
    if (beyond.length === 0) {
      last = open.reduce((heaviest, index) =>
        (masses[index] ?? 0) > (masses[heaviest] ?? 0) ? index : heaviest,
      );
      break;
    }
    open = open.filter((index) => !beyond.includes(index));
  }
  if (last === undefined) return isAs(wanted, totalFat(lines, fats)) ? fats : undefined;
  const others = fats.map((fat, index) => (index === last ? 0 : fat));
  const rest = ratio(subtract(wanted, totalFat(lines, others)), (lines[last] as MixLine).massKg);
  fats[last] = Number(Math.min(1, Math.max(0, rest)).toFixed(DIGITS));
  return fats;
}

/** How far a line gives way: its variance times its weight; by weight alone where nothing is uncertain. */
function pullsOf(lines: readonly MixLine[]): number[] {
  const pulls = lines.map(({ supply, massKg }) => {
    const sd = supply.fat?.sdFraction ?? defaultFatSd(supply.material);
    return sd * sd * toNumber(massKg);
  });
  return pulls.some((pull) => pull > 0) ? pulls : lines.map(({ massKg }) => toNumber(massKg));
}

function fatKg(lines: readonly MixLine[]): Exact {
  return totalFat(
    lines,
    lines.map(({ supply }) => supply.composition.fatFraction),
  );
}

function totalFat(lines: readonly MixLine[], fats: readonly number[]): Exact {
  return sum(lines.map(({ massKg }, index) => multiply(massKg, exact(fats[index] ?? 0))));
}

/** Nothing worth a trillionth of the mix is left over. */
function isAs(wanted: Exact, found: Exact): boolean {
  return Math.abs(toNumber(subtract(wanted, found))) <= 1e-12 * Math.max(1, Math.abs(toNumber(wanted)));
}
