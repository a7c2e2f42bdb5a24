import { add, sum, toNumber } from '../exact.ts';
import type { Attempt } from './attempt.ts';
import { otherProductCautions } from './cautions.ts';
import type { Correction, CorrectionRequest, Fit } from './correction.ts';
import { additionLines, additions, right, takenOut } from './describe.ts';
import { findIssues, impossibleTest } from './issues.ts';
import { jobFor, whyOutOfPlace } from './job.ts';
import { attemptSurely } from './surely.ts';
import { takeOut } from './take-out.ts';
import type { MixLine } from './tested-mix.ts';
import { whyNotBroughtBack, whyNotWeighed } from './why.ts';

/**
 * The least-cost additions that bring a load in the mixer back after its fat tested off: within the mixer and what is
 * on hand, seasoning topped up in step, every limit checked exactly on the whole as the scales show it. Nothing is
 * ever taken out of a line. Or that the load is right as it is; or that it cannot be brought back, why, how much of
 * the mix to take out so that the rest can, and which other products of the plant the whole mix fits.
 *
 * With a confidence asked, every limit has to hold at the fat that was found and at both of its likely ends, z
 * standard deviations of the test away: a most of fat is then safe from a test that read too low, a least of fat from
 * one that read too high, each with that probability. What is added counts with the deviation of its own fat.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function correct(request: CorrectionRequest): Correction {
  const inMixer = merged(request.inMixer);
  const issues = findIssues(request, inMixer);
  if (issues.length > 0) return { outcome: 'refused', issues };
  const prepared = jobFor(request, request, inMixer);
  if (!prepared.ok) return { outcome: 'refused', issues: prepared.issues };
  const { job, applied, leftOut } = prepared;
  const tried = attemptSurely(job, inMixer, request.engines);
  if (!tried) return { outcome: 'refused', issues: [impossibleTest(request, inMixer)] };
  const { problem } = tried;
  const outOfPlace = whyOutOfPlace(job, inMixer);
  const found: Attempt = outOfPlace.length > 0 ? { kind: 'none' } : tried.found;
  if (found.kind === 'right') return { outcome: 'right as it is', ...right(problem, inMixer, applied) };
  if (found.kind === 'additions') {
    return { outcome: 'additions', ...additions(problem, inMixer, applied, leftOut, found) };
  }
  const why =
    outOfPlace.length > 0
      ? { because: outOfPlace }
      : found.kind === 'not weighable'
        ? { because: [whyNotWeighed()] }
        : whyNotBroughtBack(problem, request.plant.units, request.engines);
  const out = outOfPlace.length > 0 ? undefined : takeOut(job, problem, inMixer, request.engines);
  return {
    outcome: 'cannot be brought back',
    ...right(problem, inMixer, applied),
    ...why,
    ...(out && { takeOut: takenOut(out, applied, leftOut) }),
    fits: fitsOf(request, inMixer),
    leftOut,
  };
}

/** Two weighings of one supply are one line. */
function merged(lines: readonly MixLine[]): MixLine[] {
  const bySupply = new Map<string, MixLine>();
  for (const { supply, massKg } of lines) {
    const known = bySupply.get(supply.id);
    bySupply.set(supply.id, { supply, massKg: known ? add(known.massKg, massKg) : massKg });
  }
  return [...bySupply.values()];
}

/** Other products that the whole mix can become, the cheapest way first. */
function fitsOf(request: CorrectionRequest, inMixer: readonly MixLine[]): Fit[] {
  const fits = (request.others ?? []).flatMap((other): Fit[] => {
    const prepared = jobFor(request, other, inMixer);
    if (!prepared.ok || whyOutOfPlace(prepared.job, inMixer).length > 0) return [];
    const found: Attempt = attemptSurely(prepared.job, inMixer, request.engines)?.found ?? { kind: 'none' };
    if (found.kind === 'none' || found.kind === 'not weighable') return [];
    const lines = found.kind === 'additions' ? additionLines(found.lines) : [];
    return [
      {
        productId: other.product.id,
        productName: other.product.name,
        outcome: found.kind === 'right' ? 'right as it is' : 'additions',
        lines,
        totalKg: toNumber(sum(found.masses)),
        cost: lines.reduce((total, { cost }) => total + cost, 0),
        cautions: otherProductCautions(other.product, inMixer, lines),
      },
    ];
  });
  return fits.sort((a, b) => a.cost - b.cost || (a.productId < b.productId ? -1 : 1));
}
