import { useEffect, useState } from 'preact/hooks';
import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import { useWork, type Working } from '../service/answers.ts';
import type { Blend, BlendBody } from './asking.ts';

/** How long somebody must rest before more is worked out than the blend itself. */
const REST_MS = 250;

export interface BlendWorking extends Working<BlendAnswer> {
  /** What limits and lots are worth, once it is worked out for the blend that is shown. */
  readonly worth?: NonNullable<Blend['worth']>;
}

/**
 * The blend of what is asked, followed while it is typed: first the blend alone, quickly; once somebody rests, what its
 * limits and lots are worth.
 */
export function useBlend(body: BlendBody | undefined): BlendWorking {
  const quick = useWork<BlendAnswer>('/blends', body && { ...body, worth: 'none' });
  const rested = useRested(body);
  const whole = useWork<BlendAnswer>('/blends', rested);
  const worth = sameBlend(quick.body, whole.body) ? whole.body.worth : undefined;
  return { ...quick, ...(worth && { worth }) };
}

function sameBlend(shown: BlendAnswer | undefined, worked: BlendAnswer | undefined): worked is Blend {
  return (
    shown?.outcome === 'blend' &&
    worked?.outcome === 'blend' &&
    shown.fingerprint === worked.fingerprint &&
    shown.cost === worked.cost
  );
}

/** What is asked, once it has not changed for a moment. */
function useRested(body: BlendBody | undefined): BlendBody | undefined {
  const text = JSON.stringify(body);
  const [rested, setRested] = useState<string | undefined>(undefined);
  useEffect(() => {
    const timer = setTimeout(() => setRested(text), REST_MS);
    return () => clearTimeout(timer);
  }, [text]);
  return rested === text ? body : undefined;
}
