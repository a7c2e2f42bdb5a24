import { MOST_BATCH_KG } from '../formulate/batch-model.ts';
import { formulate } from '../formulate/formulate.ts';
import { fixed, massText, pricePerUnit } from '../units.ts';
import { countedCostPerKg } from './joint-model.ts';
import { type ClosedCandidate, leastCostPerKg, type OpenCandidate } from './open-candidate.ts';
import type { NotMade, UsePlanRequest } from './use-plan.ts';

/** Less than this is a crumb and no batch. */
export const CRUMB_KG = 0.01;

/** Why a product is not in the plan, and what would bring it in. */
export function whyNotMade(candidate: OpenCandidate | ClosedCandidate, request: UsePlanRequest): NotMade {
  const { product } = candidate;
  if ('issues' in candidate) return { product, because: candidate.issues.map(({ message }) => message) };
  return { product, because: whyNot(candidate, request) };
}

function whyNot(candidate: OpenCandidate, request: UsePlanRequest): string[] {
  const { largestKg, leastKg = 0, mostKg = Number.POSITIVE_INFINITY, pricePerKg } = candidate;
  const { units, currency } = request.plant;
  if (largestKg <= CRUMB_KG) return whyNoneAtAll(candidate, request);
  if (largestKg < leastKg) {
    return [
      `What is on hand makes at most ${massText(largestKg, units)} finished within its limits, less than its least of ${massText(leastKg, units)}. Receive more, or lower the least.`,
    ];
  }
  const money = (perKg: number) => `${fixed(pricePerUnit(perKg, units), 2)} ${currency} per ${units}`;
  const amountKg = leastKg > 0 ? leastKg : Math.min(1, largestKg, mostKg);
  const costPerKg = leastCostPerKg(
    candidate,
    amountKg,
    (column) => {
      const supply = candidate.coefficients.supplies[column];
      return supply ? countedCostPerKg(supply, request.lotsAreSunk ?? false) : 0;
    },
    request.engines,
  );
  if (costPerKg !== undefined && costPerKg >= pricePerKg) {
    return [
      `A finished ${units} of it costs at least ${money(costPerKg)} and sells at ${money(pricePerKg)}. Raise its price, or receive cheaper lots.`,
    ];
  }
  return [
    leastKg > 0
      ? `Its least of ${massText(leastKg, units)} would take lots that bring more in the other products. Lower the least, or receive more.`
      : 'Its lots bring more in the other products. Raise its price, or receive more.',
  ];
}

/** Were there as much as one likes of everything, a batch would show which limits cannot hold together. */
function whyNoneAtAll({ product, standard }: OpenCandidate, request: UsePlanRequest): string[] {
  const { date, plant, houseRules, engines } = request;
  const supplies = request.supplies.map(({ mostKg: _, ...supply }) =>
    supply.onHandKg > 0 ? { ...supply, onHandKg: MOST_BATCH_KG } : supply,
  );
  const formulation = formulate({
    product,
    standard,
    supplies,
    size: { by: 'total', massKg: 100 },
    date,
    plant,
    engines,
    ...(houseRules && { houseRules }),
  });
  if (formulation.outcome === 'no blend') return formulation.because.map(({ message }) => message);
  if (formulation.outcome === 'refused') return formulation.issues.map(({ message }) => message);
  return ['No more than a crumb of it can be made of what is on hand. Receive more.'];
}
