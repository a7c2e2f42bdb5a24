import type { FloorBody } from '../../api/contract/blend-request.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';
import { digitsOf, fractionOf } from './rates.ts';
import { given } from './to-product.ts';

export type Floor = FloorBody;

/** The habits of the floor as they are typed; shares are percents. */
export interface FloorDraft {
  /** '', 'frozen', 'all', or 'named' for the lots that stand. */
  readonly boxes: string;
  readonly mostLots: string;
  readonly simplest: string;
  readonly older: string;
  readonly size: string;
}

export function floorDraftOf(floor: Floor, mark: DecimalMark): FloorDraft {
  const percent = (share: number | undefined) => (share === undefined ? '' : withMark(digitsOf(share), mark));
  const { wholeBoxes = '', mostLots, simplestWithin, olderFirstWithin, sizeWithin } = floor;
  return {
    boxes: typeof wholeBoxes === 'string' ? wholeBoxes : 'named',
    mostLots: mostLots === undefined ? '' : String(mostLots),
    simplest: percent(simplestWithin),
    older: percent(olderFirstWithin),
    size: percent(sizeWithin),
  };
}

/** The habits as the service takes them; undefined where a figure cannot be read. */
export function floorOf(draft: FloorDraft, before: Floor, mark: DecimalMark): Floor | undefined {
  let isReadable = true;
  const digits = (typed: string) => {
    const parsed = parseNumber(typed, mark);
    if (parsed.kind === 'number') return parsed.text;
    if (parsed.kind !== 'empty') isReadable = false;
    return undefined;
  };
  const share = (typed: string) => {
    const read = digits(typed);
    return read === undefined ? undefined : fractionOf(read);
  };
  const lots = digits(draft.mostLots);
  const floor = given({
    wholeBoxes:
      draft.boxes === 'named' ? before.wholeBoxes : ((draft.boxes || undefined) as Floor['wholeBoxes']),
    mostLots: lots === undefined ? undefined : Number(lots),
    simplestWithin: share(draft.simplest),
    olderFirstWithin: share(draft.older),
    sizeWithin: share(draft.size),
  }) as Floor;
  return isReadable ? floor : undefined;
}
