import type { z } from 'zod';
import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import type { blendRequestSchema } from '../../api/contract/blend-request.ts';
import type { MassUnit } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { type DecimalMark, parseNumber } from '../figures/number.ts';

/** What a person asks of a blend, as typed, and the request that it becomes. */

export type BlendBody = z.input<typeof blendRequestSchema>;
export type Blend = Extract<BlendAnswer, { outcome: 'blend' }>;
export type NoBlend = Extract<BlendAnswer, { outcome: 'no blend' }>;
export type Repair = NonNullable<NoBlend['wayOut']>['repairs'][number];

export const SIZE_BYS = ['total', 'meat', 'finished', 'pieces'] as const;
export type SizeBy = (typeof SIZE_BYS)[number];

export interface Asking {
  readonly productId: string;
  readonly sizeText: string;
  readonly sizeUnit: MassUnit;
  readonly sizeBy: SizeBy;
  /** Empty: today. */
  readonly day: string;
  readonly excluded: readonly string[];
  /** Bounds that are tried, in the unit of their limit, by the limit's id. */
  readonly bounds: Readonly<Record<string, number>>;
  /** Prices that are tried, by lot. */
  readonly prices: Readonly<Record<string, { readonly amount: number; readonly per: 'lb' | 'kg' }>>;
  readonly sure: 'none' | '0.9' | '0.95' | '0.99';
  readonly boxes: 'none' | 'frozen' | 'all';
  readonly older: 'none' | '0.01' | '0.03';
}

export function askingAtFirst(units: 'lb' | 'kg'): Asking {
  return {
    productId: '',
    sizeText: units === 'lb' ? '400' : '200',
    sizeUnit: units,
    sizeBy: 'total',
    day: '',
    excluded: [],
    bounds: {},
    prices: {},
    sure: 'none',
    boxes: 'none',
    older: 'none',
  };
}

/** Whether figures are tried that are not the plant's own: then the blend is no plan. */
export const isTrial = ({ bounds, prices }: Asking): boolean =>
  Object.keys(bounds).length > 0 || Object.keys(prices).length > 0;

export const NOT_TRIED = { bounds: {}, prices: {} } as const;

/** What the size becomes; undefined while it cannot be read. */
export function sizeOf(
  { sizeText, sizeUnit, sizeBy }: Asking,
  mark: DecimalMark,
): BlendBody['batchSize'] | undefined {
  if (sizeBy === 'pieces') {
    const count = parseNumber(sizeText, mark);
    return count.kind === 'number' && Number.isInteger(count.value) && count.value > 0
      ? { pieces: count.value }
      : undefined;
  }
  const mass = parseMass(sizeText, sizeUnit, mark);
  if (mass.kind !== 'mass' || mass.value <= 0) return undefined;
  const size = { value: mass.value, unit: mass.unit };
  if (sizeBy === 'meat') return { meat: size };
  return sizeBy === 'finished' ? { finished: size } : { total: size };
}

/** The request; undefined while product or size are missing. Limits to be sure of are those of fat that the product has. */
export function bodyOf(
  asking: Asking,
  mark: DecimalMark,
  units: 'lb' | 'kg',
  fatLimitIds: readonly string[],
): BlendBody | undefined {
  const batchSize = sizeOf(asking, mark);
  const { productId, day, excluded, bounds, prices } = asking;
  if (!batchSize || productId === '') return undefined;
  const floor = floorOf(asking);
  return {
    product: productId,
    batchSize,
    units,
    ...(day !== '' && { date: day }),
    ...(excluded.length > 0 && { excludeLots: [...excluded] }),
    ...(isTrial(asking) && {
      trial: {
        bounds: Object.entries(bounds).map(([limitId, bound]) => ({ limitId, bound })),
        prices: Object.entries(prices).map(([lotId, cost]) => ({ lotId, cost })),
      },
    }),
    ...(asking.sure !== 'none' && {
      certainty: fatLimitIds.map((limitId) => ({ limitId, confidence: Number(asking.sure) })),
    }),
    ...(floor && { floor }),
  };
}

function floorOf({ boxes, older }: Asking): BlendBody['floor'] | undefined {
  if (boxes === 'none' && older === 'none') return undefined;
  return {
    ...(boxes !== 'none' && { wholeBoxes: boxes, sizeWithin: 0.02 }),
    ...(older !== 'none' && { olderFirstWithin: Number(older) }),
  };
}

/** What the plan of a batch is sent: the same without what is only tried, and with the blend that was seen. */
export function planOf(body: BlendBody, fingerprint: string): unknown {
  const { product, batchSize, date, excludeLots, certainty, floor } = body;
  return {
    product,
    batchSize,
    fingerprint,
    ...(date && { date }),
    ...(excludeLots && { excludeLots }),
    ...(certainty && { certainty }),
    ...(floor && { floor }),
  };
}

/**
 * What is asked once a way out is taken; undefined for one that is not taken here: material has to be bought first, a
 * recipe is changed in its product.
 */
export function withRepair(
  asking: Asking,
  { changes }: Repair,
  units: 'lb' | 'kg',
  massText: (massKg: number) => string,
): Partial<Asking> | undefined {
  let next: Partial<Asking> = {};
  for (const change of changes) {
    if ('to' in change) {
      next = { ...next, bounds: { ...asking.bounds, ...next.bounds, [change.limitId]: change.to } };
    } else if ('sizeToKg' in change) {
      next = {
        ...next,
        sizeText: massText(change.sizeToKg),
        sizeUnit: units,
        ...(asking.sizeBy === 'pieces' && { sizeBy: 'total' as const }),
      };
    } else if ('confidenceTo' in change) {
      next = { ...next, sure: sureAtMost(change.confidenceTo) };
    } else if ('withoutWish' in change) {
      next = {
        ...next,
        ...(change.withoutWish === 'olderFirstWithin'
          ? { older: 'none' as const }
          : { boxes: 'none' as const }),
      };
    } else {
      return undefined;
    }
  }
  return next;
}

function sureAtMost(confidence: number): Asking['sure'] {
  if (confidence >= 0.95) return '0.95';
  return confidence >= 0.9 ? '0.9' : 'none';
}
