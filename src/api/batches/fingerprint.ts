import { createHash } from 'node:crypto';
import type { Blend } from '../../formulate/blend.ts';

/** The same for blends that weigh the same of the same supplies into each load. */
export function fingerprintOf({ lines, loads }: Pick<Blend, 'lines' | 'loads'>): string {
  const weighed = lines.map(({ supply, weight }) => [supply.id, weight.text, weight.scale.unit]);
  return createHash('sha256')
    .update(JSON.stringify([loads, weighed]))
    .digest('hex')
    .slice(0, 16);
}
