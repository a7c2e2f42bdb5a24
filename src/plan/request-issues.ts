import type { Candidate, PlanIssue, UsePlanRequest } from './use-plan.ts';

/** What is wrong with the request itself, before any product is looked at. */
export function requestIssues({ candidates, withinFraction = 0 }: UsePlanRequest): PlanIssue[] {
  if (candidates.length === 0) {
    return [
      {
        code: 'no-product',
        path: ['products'],
        message: 'No product is named. Name at least one, with what a kilogram of it sells for.',
      },
    ];
  }
  const within: PlanIssue[] =
    withinFraction >= 0 && withinFraction <= 1
      ? []
      : [
          {
            code: 'wrong-amount',
            path: ['withinFraction'],
            message: `${withinFraction} is no share of the margin. Write a fraction from 0 to 1, such as 0.05.`,
          },
        ];
  const before = new Set<string>();
  const ofCandidates = candidates.flatMap((candidate, index) => {
    const { id } = candidate.product;
    const issues = candidateIssues(candidate, index);
    if (before.has(id)) {
      issues.push({
        code: 'repeated-product',
        path: ['products', index, 'product'],
        message: `"${id}" stands twice. Keep one entry for each product.`,
      });
    }
    before.add(id);
    return issues;
  });
  return [...within, ...ofCandidates];
}

function candidateIssues({ pricePerKg, leastKg, mostKg }: Candidate, index: number): PlanIssue[] {
  const issues: PlanIssue[] = [];
  const wrong = (field: string, message: string) =>
    issues.push({ code: 'wrong-amount', path: ['products', index, field], message });
  if (!(pricePerKg > 0 && Number.isFinite(pricePerKg))) {
    issues.push({
      code: 'no-price',
      path: ['products', index, 'price'],
      message: `${pricePerKg} is no selling price. Give what a finished kilogram or pound sells for, above 0.`,
    });
  }
  for (const [field, massKg] of [
    ['least', leastKg],
    ['most', mostKg],
  ] as const) {
    if (massKg !== undefined && !(massKg > 0 && Number.isFinite(massKg)))
      wrong(field, `${massKg} kg is no amount to make. Write more than 0, or leave it out.`);
  }
  if (leastKg !== undefined && mostKg !== undefined && leastKg > mostKg)
    wrong('least', `${leastKg} kg is above most, ${mostKg} kg. Lower least or raise most.`);
  return issues;
}
