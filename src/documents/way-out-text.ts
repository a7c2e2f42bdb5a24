import { fixed, pricePerUnit } from '../units.ts';

/** What a text of it reads of an answer without a blend. */
export interface Stuck {
  readonly currency: string;
  readonly units: 'lb' | 'kg';
  readonly because: readonly { readonly message: string }[];
  readonly proven: boolean;
  readonly wayOut?:
    | {
        readonly conflict: readonly { readonly says: string }[];
        readonly repairs: readonly { readonly says: string; readonly costPerKg?: number | undefined }[];
      }
    | undefined;
}

/** Why there is no blend, what cannot hold together and what would help, for a terminal. */
export function wayOutText({ currency, units, because, proven, wayOut }: Stuck): string {
  const conflict = wayOut?.conflict ?? [];
  const repairs = wayOut?.repairs ?? [];
  return [
    `NO BLEND${proven ? ' (proven: none exists)' : ''}`,
    ...because.map(({ message }) => message),
    ...(conflict.length > 0 ? ['', 'These cannot all hold; at least one has to give:'] : []),
    ...conflict.map(({ says }) => `  - ${says}`),
    ...(repairs.length > 0 ? ['', 'Any one of these leads to a blend:'] : []),
    ...repairs.map(({ says, costPerKg }) => {
      const price = costPerKg === undefined ? '' : fixed(pricePerUnit(costPerKg, units), 4);
      const cost = price === '' ? '' : ` It then costs ${price} ${currency} per ${units}.`;
      return `  - ${says}${cost}`;
    }),
  ].join('\n');
}
