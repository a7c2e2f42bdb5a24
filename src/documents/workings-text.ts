import { fixed } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** What the workings of a blend say beyond its limits; the answer of the service fits it. */
export interface Workings {
  readonly currency: string;
  readonly cost: number;
  readonly proof: { readonly says: string };
  readonly certainty: readonly {
    readonly says: string;
    readonly probability: number;
    readonly confidence?: number | undefined;
  }[];
  readonly costOfCertainty?: number | undefined;
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
  readonly nextKg: number;
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
    readonly oneKgMoreSaves?: number | undefined;
  }[];
}

/** Cost, its proof, what limits and lots are worth, how sure the limits are, and the next best blends. */
export function workingsText(blend: Workings): string[] {
  const { currency, proof, certainty, costOfCertainty, choice, worth, nearBest } = blend;
  const money = (amount: number) => `${fixed(amount, 4)} ${currency}`;
  return [
    '',
    `COST ${fixed(blend.cost, 2)} ${currency}`,
    `  ${proof.says}`,
    ...(choice
      ? [
          `  Lots chosen as the floor asked: ${fixed(choice.cost, 2)} ${currency} before rounding; the engine reports none below ${fixed(choice.reportedLeastCost, 2)}.`,
        ]
      : []),
    ...(worth ? worthText(worth, money) : []),
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
        `  ${money(costPerKg)} per kg (${fixed(aboveFraction * 100, 2)} % above the least): ${withInstead.join(', ') || 'nothing else'} in place of ${without.join(', ')}`,
    ),
  ];
}

function worthText({ limits, lines, nextKg, notUsed, used }: WorthText, money: (amount: number) => string) {
  const step = (size: number, unit: string) =>
    unit === 'percent' ? `${size} point` : `${size} ${unit === 'price per kg' ? 'per kg' : unit}`;
  return [
    `  One more kilogram of batch costs ${money(nextKg)}.`,
    ...(limits.length > 0 ? ['', 'LIMITS THAT PRESS ON THE COST'] : []),
    ...limits.map(
      ({ says, step: size, unit, savesPerKg, togetherWith }) =>
        `  ${step(size, unit)} more room saves ${money(savesPerKg)} per kg of batch: ${[says, ...togetherWith.map((other) => `together with: ${other.says}`)].join(' ')}`,
    ),
    ...lines.map(({ materialId, stepPoints, costsPerKg }) =>
      costsPerKg > 0
        ? `  ${stepPoints} point more of ${materialId} costs ${money(costsPerKg)} per kg of batch.`
        : `  ${stepPoints} point more of ${materialId} saves ${money(-costsPerKg)} per kg of batch.`,
    ),
    '',
    'LOTS IN USE, per kg',
    ...indent(
      textTable(
        [left('Lot'), left('Material'), right('price'), left('this blend stays best'), left('one kg more')],
        used.map(({ supplyId, material, costPerKg, bestFromPerKg, bestToPerKg, oneKgMoreSaves }) => [
          supplyId,
          material,
          fixed(costPerKg, 3),
          bestFromPerKg === undefined
            ? ''
            : `${fixed(bestFromPerKg, 3)} ${bestToPerKg === undefined ? 'and any price above' : `to ${fixed(bestToPerKg, 3)}`}`,
          oneKgMoreSaves === undefined ? '' : `saves ${fixed(oneKgMoreSaves, 3)}`,
        ]),
      ),
    ),
    ...(notUsed.length > 0 ? ['', 'LOTS NOT IN USE, per kg'] : []),
    ...(notUsed.length > 0
      ? indent(
          textTable(
            [left('Lot'), left('Material'), right('price'), left('would go in below')],
            notUsed.map(({ supplyId, material, costPerKg, wouldEnterBelowPerKg }) => [
              supplyId,
              material,
              fixed(costPerKg, 3),
              wouldEnterBelowPerKg === undefined ? 'not at any price' : fixed(wouldEnterBelowPerKg, 3),
            ]),
          ),
        )
      : []),
  ];
}

function indent(lines: readonly string[]): string[] {
  return lines.map((line) => `  ${line}`);
}
