import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import type { LineLimitsAnswer } from '../../api/contract/line-limits.ts';
import { parseMass } from '../figures/mass.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import { useWork, type Working } from '../service/answers.ts';
import { useDraft } from '../service/draft.ts';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { forTrial, type Typed } from './to-product.ts';

/** Why nothing is asked of the service yet. */
export type Waits = 'no class' | 'unreadable' | undefined;

export interface Trial {
  readonly waits: Waits;
  readonly work: Working<BlendAnswer>;
  readonly limits: LineLimitsAnswer | undefined;
  /** Of the example batch. */
  readonly size: TypedMass;
  readonly setSize: (size: TypedMass) => void;
}

/** The product as it is typed, tried out with every change: its lines alone, and in an example batch. */
export function useTrial({ product, unreadable }: Typed): Trial {
  const { mark } = useDevice();
  const { plant } = useHere();
  const example = useDraft<{ size: TypedMass }>('example-batch', {
    size: plant.units === 'lb' ? { text: '100', unit: 'lb' } : { text: '50', unit: 'kg' },
  });
  const { size } = example.value;
  const mass = parseMass(size.text, size.unit, mark);
  const isReadable = unreadable.length === 0 && mass.kind === 'mass';
  const waits = product.standard.productClass === '' ? 'no class' : isReadable ? undefined : 'unreadable';
  const trial = waits ? undefined : forTrial(product);
  const total = mass.kind === 'mass' ? { value: mass.value, unit: mass.unit } : undefined;
  const work = useWork<BlendAnswer>(
    '/blends',
    trial && { product: trial, batchSize: { total }, worth: 'none' },
  );
  const limits = useWork<LineLimitsAnswer>('/line-limits', trial && { product: trial });
  return {
    waits,
    work,
    limits: waits || limits.error ? undefined : limits.body,
    size,
    setSize: (next) => example.set({ size: next }),
  };
}
