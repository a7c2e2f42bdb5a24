/** What a plant asks of itself beyond the law, and what it has set aside with a reason. */
export interface HouseRules {
  readonly tighter: readonly TighterLimit[];
  readonly own: readonly OwnLimit[];
  readonly switchedOff: readonly SwitchedOffLimit[];
  /** How sure the plant wants to be of single limits. */
  readonly certainty?: readonly CertainLimit[];
}

export const NO_HOUSE_RULES: HouseRules = { tighter: [], own: [], switchedOff: [] };

/** A limit of the law with a bound further inside it. */
export interface TighterLimit {
  readonly limitId: string;
  /** In the unit of the limit as people read it: 25 for 25 %, 120 for 120 ppm. */
  readonly bound: number;
  readonly reason?: string;
}

/** A limit of the plant's own between two named forms. */
export interface OwnLimit {
  readonly id: string;
  readonly says: string;
  /** Names of forms, such as "salt" and "finished". */
  readonly numerator: string;
  readonly basis: string;
  readonly sense: 'max' | 'min';
  /** In the unit as people read it. */
  readonly bound: number;
  readonly unit: 'percent' | 'ppm';
  /** Products it holds for; without them it holds for all. */
  readonly products?: readonly string[];
  readonly productClasses?: readonly string[];
}

/** A limit that the plant does not hold, with the reason that stands on the sheet. */
export interface SwitchedOffLimit {
  readonly limitId: string;
  readonly reason: string;
  /** Products it is set aside for; without them it is set aside for all. */
  readonly products?: readonly string[];
}

/** A limit, of the law or of the house, that must hold with this probability though the fat of the lots is uncertain. */
export interface CertainLimit {
  readonly limitId: string;
  /** Above 0.5 and below 1: 0.95 for 95 %. */
  readonly confidence: number;
  /** Products it holds for; without them it holds for all that have the limit. */
  readonly products?: readonly string[];
}
