import { parseMass } from '../figures/mass.ts';
import { parseNumber } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { TextField } from '../parts/field.tsx';
import { MassField, NumberField, type TypedMass } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { sendOnce } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { ActDialog } from './act-dialog.tsx';
import { amountOf, type TypedAmount } from './amount.ts';
import { AmountField, emptyAmount } from './amount-field.tsx';
import { LOT } from './lot-words.ts';
import type { BookedAnswer, WholeLotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

export const MOVES = ['adjusted', 'discarded', 'sold', 'shipped'] as const;
export type Move = (typeof MOVES)[number];

interface TypedMove {
  readonly amount: TypedAmount;
  readonly counted: TypedMass;
  readonly countedPacks: string;
  readonly reason: string;
  readonly to: string;
  readonly document: string;
}

/** A lot is counted, or some of it leaves; for a while afterwards it can be taken back with one tap. */
export function MoveLot({
  lot,
  kind,
  version,
  again,
  onClose,
}: {
  readonly lot: WholeLotAnswer;
  readonly kind: Move;
  readonly version: number | undefined;
  readonly again: () => void;
  readonly onClose: () => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const say = useSay();
  const { mark } = useDevice();
  const told = useTellBooked();
  const countedOf = ({ counted, countedPacks }: TypedMove) => {
    if (lot.packs) {
      const parsed = parseNumber(countedPacks, mark);
      return parsed.kind === 'number' ? { countedPacks: parsed.value } : undefined;
    }
    const parsed = parseMass(counted.text, counted.unit, mark);
    return parsed.kind === 'mass' ? { counted: { value: parsed.value, unit: parsed.unit } } : undefined;
  };
  return (
    <ActDialog<TypedMove, BookedAnswer>
      title={w.moveTitles[kind](lot.id)}
      name={`${kind} ${lot.id}`}
      initial={{
        amount: emptyAmount(lot, show.units),
        counted: { text: '', unit: show.units },
        countedPacks: '',
        reason: '',
        to: '',
        document: '',
      }}
      does={w.moves[kind]}
      isGrave={kind === 'discarded'}
      act={(typed) => {
        const much = kind === 'adjusted' ? countedOf(typed) : amountOf(typed.amount, mark);
        if (!much) return undefined;
        const why = kind === 'adjusted' || kind === 'discarded';
        const given = (text: string) => text.trim() || undefined;
        return {
          path: `/lots/${encodeURIComponent(lot.id)}/movements`,
          body: {
            kind,
            ...much,
            ...(why
              ? { reason: given(typed.reason) }
              : { to: given(typed.to), document: given(typed.document) }),
          },
          // Who counts must know what the books say now.
          ...(kind === 'adjusted' && version !== undefined && { version }),
        };
      }}
      onRefused={again}
      onDone={({ movement, cautions }) =>
        told(movement.seq, [
          w.booked(w.kinds[movement.kind], show.mass(Math.abs(movement.mass.kg))),
          ...cautions.map(say),
        ])
      }
      onClose={onClose}
    >
      {({ typed, set, fault }) => (
        <>
          {kind !== 'adjusted' ? (
            <AmountField
              lot={lot}
              value={typed.amount}
              onValue={(amount) => set({ amount })}
              fault={fault(['/mass/value', '/mass', '/packs'], !amountOf(typed.amount, mark))}
            />
          ) : lot.packs ? (
            <NumberField
              label={w.countedPacks}
              hint={t.inTheBooks(String(lot.packs.onHand))}
              error={fault(['/countedPacks'], !countedOf(typed))}
              value={typed.countedPacks}
              onValue={(countedPacks) => set({ countedPacks })}
            />
          ) : (
            <MassField
              label={w.counted}
              hint={t.inTheBooks(show.mass(lot.onHand.kg))}
              error={fault(['/counted/value', '/counted'], !countedOf(typed))}
              value={typed.counted}
              onValue={(counted) => set({ counted })}
            />
          )}
          {kind === 'adjusted' || kind === 'discarded' ? (
            <TextField
              label={w.reason}
              error={fault(['/reason'])}
              value={typed.reason}
              onValue={(reason) => set({ reason })}
            />
          ) : (
            <div class="pair">
              <TextField
                label={w.toWhom}
                isOptional={kind === 'sold'}
                error={fault(['/to'])}
                value={typed.to}
                onValue={(to) => set({ to })}
              />
              <TextField
                label={w.document}
                isOptional={kind === 'sold'}
                error={fault(['/document'])}
                value={typed.document}
                onValue={(document) => set({ document })}
              />
            </div>
          )}
        </>
      )}
    </ActDialog>
  );
}

/** Tells what was booked, with a way to take it back: by a movement of its own, as everything in the books. */
export function useTellBooked(): (seq: number | readonly number[], says: readonly string[]) => void {
  const t = useWords(LOT);
  const say = useSay();
  const tell = useTell();
  return (seq, says) =>
    tell({
      says: says.join(' · '),
      undo: () => {
        const back = async () => {
          for (const one of [seq].flat()) {
            await sendOnce(`undo ${one}`, {
              path: `/movements/${one}/reversal`,
              body: { reason: t.undoReason },
            });
          }
        };
        back().then(
          () => tell({ says: t.takenBack }),
          (error: unknown) => tell({ says: say(String((error as Error).message)) }),
        );
      },
    });
}
