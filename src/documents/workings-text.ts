import { fixed, pricePerUnit } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** What the workings of a blend say beyond its limits; the answer of the service fits it. */
export interface Workings {
  readonly currency: string;
  readonly units: 'lb' | 'kg';
  readonly cost: number;
  readonly proof: { readonly says: string };
  readonly certainty: readonly {
    readonly says: string;
    readonly probability: number;
    readonly confidence?: number | undefined;
  }[];
  readonly costOfCertainty?: number | undefined;
  readonly costOfOlderFirst?: number | undefined;
  readonly choice?: { readonly cost: number; readonly reportedLeastCost: number } | undefined;
  readonly worth?: WorthText | undefined;
  readonly nearBest?:
    | readonly {
        readonly costPerKg: number;
        readonly aboveFraction: number;
        readonly without: readonly string[];
        readonly withInstead: readonly string[];
      }[]
    | undefined;
}

interface WorthText {
  readonly limits: readonly {
    readonly says: string;
    readonly step: number;
    readonly unit: string;
    readonly savesPerKg: number;
    readonly togetherWith: readonly { readonly says: string }[];
  }[];
  readonly lines: readonly {
    readonly materialId: string;
    readonly stepPoints: number;
    readonly costsPerKg: number;
  }[];
  readonly nextUnit?: { readonly of: string; readonly costs: number } | undefined;
  readonly notUsed: readonly {
    readonly supplyId: string;
    readonly material: string;
    readonly costPerKg: number;
    readonly wouldEnterBelowPerKg?: number | undefined;
  }[];
  readonly used: readonly {
    readonly supplyId: string;
    readonly material: string;
    readonly costPerKg: number;
    readonly bestFromPerKg?: number | undefined;
    readonly bestToPerKg?: number | undefined;
    readonly oneUnitMoreSaves?: number | undefined;
  }[];
}

/** Cost, its proof, what limits and lots are worth, how sure the limits are, and the next best blends. */
export function workingsText(blend: Workings): string[] {
  const { currency, units, proof, certainty, costOfCertainty, choice, worth, nearBest } = blend;
  const price: Price = (perKg) => fixed(pricePerUnit(perKg, units), 4);
  const money: Price = (perKg) => `${price(perKg)} ${currency} per ${units}`;
  return [
    '',
    `COST ${fixed(blend.cost, 2)} ${currency}`,
    `  ${proof.says}`,
    ...(blend.costOfOlderFirst === undefined
      ? []
      : [`  Using older lots first costs ${fixed(blend.costOfOlderFirst, 2)} ${currency} of it.`]),
    ...(choice
      ? [
          `  Lots chosen as the floor asked: ${fixed(choice.cost, 2)} ${currency} before rounding; the engine reports none below ${fixed(choice.reportedLeastCost, 2)}.`,
        ]
      : []),
    ...(worth ? worthText(worth, money, price, { units, currency }) : []),
    ...(certainty.length > 0 ? ['', 'HOW SURE, as far as the fat of the lots is known'] : []),
    ...certainty.map(({ says, probability, confidence }) => {
      const asked = confidence === undefined ? '' : `, ${fixed(confidence * 100, 1)} % asked`;
      return `  ${fixed(probability * 100, 1)} %${asked}: ${says}`;
    }),
    ...(costOfCertainty === undefined
      ? []
      : [`  Being as sure as asked costs ${fixed(costOfCertainty, 2)} ${currency}.`]),
    ...(nearBest && nearBest.length > 0 ? ['', 'THE NEXT BEST BLENDS'] : []),
    ...(nearBest ?? []).map(
      ({ costPerKg, aboveFraction, without, withInstead }) =>
        `  ${money(costPerKg)} (${fixed(Math.max(0, aboveFraction) * 100, 2)} % more): ${withInstead.join(', ') || 'nothing else'} in place of ${without.join(', ')}`,
    ),
  ];
}

/** A price per kilogram in the unit that is shown. */
type Price = (perKg: number) => string;

function worthText(
  { limits, lines, nextUnit, notUsed, used }: WorthText,
  money: Price,
  price: Price,
  { units, currency }: Pick<Workings, 'units' | 'currency'>,
) {
  const step = (size: number, unit: string) =>
    unit === 'percent' ? `${size} point` : `${size} ${unit === 'price per kg' ? 'per kg' : unit}`;
  return [
    ...(nextUnit
      ? [`  One ${units} more (${nextUnit.of}) costs ${fixed(nextUnit.costs, 4)} ${currency}.`]
      : []),
    ...(limits.length > 0 ? ['', 'LIMITS THAT PRESS ON THE COST'] : []),
    ...limits.map(
      ({ says, step: size, unit, savesPerKg, togetherWith }) =>
        `  ${step(size, unit)} more room saves ${money(savesPerKg)} of batch: ${[says, ...togetherWith.map((other) => `together with: ${other.says}`)].join(' ')}`,
    ),
    ...lines.map(({ materialId, stepPoints, costsPerKg }) =>
      costsPerKg > 0
        ? `  ${stepPoints} point more of ${materialId} costs ${money(costsPerKg)} of batch.`
        : `  ${stepPoints} point more of ${materialId} saves ${money(-costsPerKg)} of batch.`,
    ),
    '',
    `LOTS AND INGREDIENTS IN USE, prices per ${units}`,
    ...indent(
      textTable(
        [
          left('Lot'),
          left('Material'),
          right('price'),
          left('this blend stays best'),
          left(`one ${units} more`),
        ],
        used.map(({ supplyId, material, costPerKg, bestFromPerKg, bestToPerKg, oneUnitMoreSaves }) => [
          supplyId,
          material,
          price(costPerKg),
          bestFromPerKg === undefined
            ? ''
            : `${price(bestFromPerKg)} ${bestToPerKg === undefined ? 'and any price above' : `to ${price(bestToPerKg)}`}`,
          oneUnitMoreSaves === undefined ? '' : `saves ${fixed(oneUnitMoreSaves, 4)}`,
        ]),
      ),
    ),
    ...(used.every(({ bestFromPerKg }) => bestFromPerKg === undefined)
      ? ['  With a confidence asked the blend shifts a little with every price.']
      : []),
    ...(notUsed.length > 0 ? ['', `NOT IN USE, prices per ${units}`] : []),
    ...(notUsed.length > 0
      ? indent(
          textTable(
            [left('Lot'), left('Material'), right('price'), left('would go in below')],
            notUsed.map(({ supplyId, material, costPerKg, wouldEnterBelowPerKg }) => [
              supplyId,
              material,
              price(costPerKg),
              wouldEnterBelowPerKg === undefined ? 'not at any price' : price(wouldEnterBelowPerKg),
            ]),
          ),
        )
      : []),
  ];
}

function indent(lines: readonly string[]): string[] {
  return lines.map((line) => `  ${line}`);
}
