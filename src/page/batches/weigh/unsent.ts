import { useRef } from 'preact/hooks';
import { useOutbox, type Waiting } from '../../service/outbox.ts';
import { useHere } from '../../shell/plant.ts';
import type { Batch } from '../batch.ts';
import { notArrived, type PutOut, type Weighing } from './spots.ts';

/** How long a weighing that was sent counts though no reading shows it: longer than two readings are apart. */
const SHOWN_MS = 10_000;

export const subjectOf = (batchId: string): string => `batch ${batchId}`;

/**
 * Weighings of this device: those that wait to be sent or were just sent and are not in the batch as it was last read,
 * those that were refused, and those that cannot be sent because somebody else did them.
 */
export function useUnsent(batch: Batch): {
  readonly unsent: readonly PutOut[];
  readonly refused: readonly Waiting[];
  readonly ofOthers: readonly Waiting[];
} {
  const { session } = useHere();
  const waiting = useOutbox(subjectOf(batch.id));
  const known = useRef(new Map<string, PutOut & { goneAt?: number }>());
  const now = Date.now();
  for (const { key, body, refusal, seenAt, by } of waiting) {
    if (refusal) known.current.delete(key);
    else if (!known.current.has(key)) {
      known.current.set(key, { key, body: body as Weighing, seenAt, by: by.name });
    }
  }
  for (const [key, one] of known.current) {
    if (waiting.some((each) => each.key === key)) continue;
    if (one.goneAt === undefined) known.current.set(key, { ...one, goneAt: now });
    else if (now - one.goneAt > SHOWN_MS) known.current.delete(key);
  }
  const unsent = notArrived(batch, [...known.current.values()]);
  // What arrived has had its day: taken back later it must not count as on its way again.
  for (const [key, { goneAt }] of known.current) {
    if (goneAt !== undefined && !unsent.some((one) => one.key === key)) known.current.delete(key);
  }
  return {
    unsent,
    refused: waiting.filter(({ refusal }) => refusal),
    ofOthers: waiting.filter(
      ({ key, refusal, by }) =>
        !refusal && by.id !== session.caller?.id && unsent.some((one) => one.key === key),
    ),
  };
}
