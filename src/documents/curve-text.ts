import { fixed, inUnit, pricePerUnit } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** What a text of it reads of a cost curve. */
export type Curve =
  | {
      readonly outcome: 'curve';
      readonly along: {
        readonly limitId?: string | undefined;
        readonly supplyId?: string | undefined;
        readonly unit: string;
      };
      readonly currency: string;
      readonly units: 'lb' | 'kg';
      readonly today: number;
      readonly corners: boolean;
      readonly feasible: { readonly from: number; readonly to: number };
      readonly points: readonly {
        readonly at: number;
        readonly costPerKg: number;
        readonly blend: readonly { readonly supplyId: string; readonly kg: number }[];
      }[];
    }
  | { readonly outcome: 'no blend'; readonly message: string };

/** Most lots named at one point. */
const MOST_NAMED = 6;

/** The least cost along a bound or a price, as a table of its corners. */
export function curveText(curve: Curve): string {
  if (curve.outcome === 'no blend') return curve.message;
  const { along, today, corners, points, feasible, currency, units } = curve;
  const what = along.limitId ?? along.supplyId ?? 'the lean point';
  const table = textTable(
    [right(along.unit), right(`${currency} per ${units}`), left(`blend (${units})`)],
    points.map(({ at, costPerKg, blend }) => {
      const heaviest = [...blend].sort((a, b) => b.kg - a.kg);
      const named = heaviest
        .slice(0, MOST_NAMED)
        .map(({ supplyId, kg }) => `${supplyId} ${fixed(inUnit(kg, units), 1)}`);
      const rest = heaviest.length - named.length;
      return [
        fixed(at, 3),
        fixed(pricePerUnit(costPerKg, units), 4),
        `${named.join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`,
      ];
    }),
  );
  return [
    `LEAST COST ALONG ${what}, before rounding to the scales`,
    `Today at ${fixed(today, 3)}. A blend exists from ${fixed(feasible.from, 3)} to ${fixed(feasible.to, 3)}.`,
    corners
      ? 'Between one line and the next the cost is straight: every corner is here.'
      : 'Samples: between them the cost bends.',
    ...table,
  ].join('\n');
}
