import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import type { LineLimitsAnswer } from '../../api/contract/line-limits.ts';

type Blend = Extract<BlendAnswer, { outcome: 'blend' }>;
export type Check = Blend['checks'][number];
export type LineLimit = LineLimitsAnswer['lines'][number]['limits'][number];

export interface Standing {
  readonly check: Check;
  /** Share of the bound that is used up: 1 at the bound, more beyond it. */
  readonly used: number;
  /** The seasoning line that brings most of what is counted; none where meat does. */
  readonly pressedBy?: string;
}

/**
 * Limits as they stand in an example batch, those with the least room first. What none of is in the batch stands apart,
 * and what only keeps the arithmetic honest is left out.
 */
export function standings({ checks, lines }: Blend): {
  readonly counted: readonly Standing[];
  readonly absent: readonly Check[];
} {
  const materialOf = new Map(lines.map(({ supplyId, materialId, asked }) => [supplyId, asked && materialId]));
  const shown = checks.filter(({ limit }) => !limit.id.startsWith('mass-balance'));
  const isAbsent = ({ limit, holds, contributions }: Check) =>
    holds && limit.sense === 'max' && contributions.every(({ massKg }) => massKg <= 0);
  return {
    absent: shown.filter(isAbsent),
    counted: shown
      .filter((check) => !isAbsent(check))
      .map((check) => {
        const pressedBy = materialOf.get(check.contributions[0]?.supplyId ?? '');
        return { check, used: usedUp(check), ...(pressedBy !== undefined && { pressedBy }) };
      })
      .sort((one, other) => other.used - one.used),
  };
}

/** A minimum is used up as the value comes down to it; a target that is met has all the room there is. */
function usedUp({ limit: { sense, bound }, value, holds }: Check): number {
  if (sense === 'max') return bound === 0 ? (holds ? 0 : 2) : value / bound;
  if (sense === 'min') return value <= 0 ? 2 : bound / value;
  return holds ? 0 : 2;
}

export type Verdict = 'forbidden' | 'above' | 'reaches' | 'holds';

/** How a line stands to a limit: a range that only reaches beyond it leaves the choice to the blend. */
export function verdictOf({ limit, holds, atMostFraction }: LineLimit, leastFraction: number): Verdict {
  if (holds) return 'holds';
  if (limit.bound === 0) return 'forbidden';
  return leastFraction > atMostFraction ? 'above' : 'reaches';
}

/**
 * Of the law and of the house, the limit that leaves a line the least; that of the house only where it is the tighter.
 * Only limits of which the line brings the most: lowering it is the way to hold them.
 */
export function tightest(limits: readonly LineLimit[]): LineLimit[] {
  const own = limits.filter(({ bringsMost }) => bringsMost);
  const law = own.find(({ limit }) => limit.authority === 'law');
  const house = own.find(({ limit }) => limit.authority === 'house');
  if (!law || !house) return own.slice(0, 1);
  return house.atMostFraction < law.atMostFraction ? [law, house] : [law];
}

const COMPARED = [
  'name',
  'standard',
  'meatBlock',
  'seasoning',
  'rework',
  'targets',
  'process',
  'form',
  'label',
] as const;
export type ComparedPart = (typeof COMPARED)[number];

/** The parts of a product in which two versions of it differ. */
export function differing(
  one: Partial<Record<ComparedPart, unknown>>,
  other: Partial<Record<ComparedPart, unknown>>,
): ComparedPart[] {
  return COMPARED.filter((part) => JSON.stringify(one[part]) !== JSON.stringify(other[part]));
}
