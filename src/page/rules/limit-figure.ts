import type { LimitAnswer } from '../../api/contract/blend-answer.ts';
import { useShow } from '../figures/show.ts';
import { useWords } from '../words/words.ts';
import { LIMIT_WORDS } from './limit-words.ts';

type Unit = LimitAnswer['unit'];
const DECIMALS: Readonly<Record<Unit, number>> = { percent: 2, ppm: 1, 'to 1': 2, 'price per kg': 2 };

export interface LimitFigures {
  /** A figure in the unit of its limit; rounded unless it is a bound, which stands as it is written. */
  readonly value: (value: number, unit: Unit) => string;
  readonly exactly: (value: number, unit: Unit) => string;
  /** 'at most 156 ppm', 'none', 'must be there'. */
  readonly bound: (limit: Pick<LimitAnswer, 'sense' | 'bound' | 'unit'>) => string;
}

export function useLimitFigures(): LimitFigures {
  const show = useShow();
  const t = useWords(LIMIT_WORDS);
  const withUnit = (digits: string, unit: Unit) =>
    `${digits} ${unit === 'percent' ? '%' : unit === 'to 1' ? t.toOne : 'ppm'}`;
  const exactly = (value: number, unit: Unit) =>
    unit === 'price per kg' ? show.price(value) : withUnit(show.digits(String(value)), unit);
  return {
    value: (value, unit) =>
      unit === 'price per kg' ? show.price(value) : withUnit(show.number(value, DECIMALS[unit]), unit),
    exactly,
    bound: ({ sense, bound, unit }) => {
      if (sense === 'present') return t.mustBe;
      if (sense === 'max' && bound === 0) return t.noneMay;
      const says = { max: t.atMost, min: t.atLeast, target: t.just }[sense];
      return says(exactly(bound, unit));
    },
  };
}
