import { fractionOfPercent } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { parseNumber } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { DayField, TextField } from '../parts/field.tsx';
import { MassField, NumberField, type TypedMass } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { ActDialog } from './act-dialog.tsx';
import { LOT } from './lot-words.ts';
import { Choices, METHODS } from './receipt-fields.tsx';
import type { WholeLotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** Whatever takes a reason and nothing else: a hold and its end, a test withdrawn, a movement taken back. */
export function ReasonDialog({
  title,
  says,
  does,
  path,
  isGrave = false,
  told,
  onClose,
}: {
  readonly title: string;
  readonly says?: string;
  readonly does: string;
  readonly path: string;
  readonly isGrave?: boolean;
  readonly told: string;
  readonly onClose: () => void;
}) {
  const t = useWords(LOT);
  const tell = useTell();
  return (
    <ActDialog
      title={title}
      name={`reason ${path}`}
      initial={{ reason: '' }}
      does={does}
      isGrave={isGrave}
      act={({ reason }) => ({ path, body: { reason } })}
      onDone={() => tell({ says: told })}
      onClose={onClose}
    >
      {({ typed, set, fault }) => (
        <>
          {says && <p>{says}</p>}
          <TextField
            label={t.reason}
            error={fault(['/reason'])}
            value={typed.reason}
            onValue={(reason) => set({ reason })}
          />
        </>
      )}
    </ActDialog>
  );
}

interface TypedTest {
  readonly fat: string;
  readonly method: string;
  readonly date: string;
  readonly sample: TypedMass;
}

/** A fat test of a lot: from then on blends go by it. */
export function TestLot({ lot, onClose }: { readonly lot: WholeLotAnswer; readonly onClose: () => void }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const tell = useTell();
  const show = useShow();
  const { mark } = useDevice();
  const { today } = useHere().plant;
  return (
    <ActDialog<TypedTest, WholeLotAnswer>
      title={w.testTitle(lot.id)}
      name={`test ${lot.id}`}
      initial={{ fat: '', method: 'NIR', date: today, sample: { text: '', unit: show.units } }}
      does={w.addTest}
      act={({ fat, method, date, sample }) => {
        const parsed = parseNumber(fat, mark);
        const taken = parseMass(sample.text, sample.unit, mark);
        if (parsed.kind !== 'number' || taken.kind === 'wrong' || taken.kind === 'unclear') return undefined;
        return {
          path: `/lots/${encodeURIComponent(lot.id)}/tests`,
          body: {
            fatFraction: fractionOfPercent(parsed.text),
            method,
            ...(date !== '' && { date }),
            ...(taken.kind === 'mass' && { sample: { value: taken.value, unit: taken.unit } }),
          },
        };
      }}
      onDone={() => tell({ says: w.tested(lot.id) })}
      onClose={onClose}
    >
      {({ typed, set, fault }) => (
        <>
          <div class="pair">
            <NumberField
              label={t.fatPercent}
              after="%"
              error={fault(['/fatFraction'], parseNumber(typed.fat, mark).kind !== 'number')}
              value={typed.fat}
              onValue={(fat) => set({ fat })}
            />
            <TextField
              label={t.method}
              list="stock-methods"
              error={fault(['/method'])}
              value={typed.method}
              onValue={(method) => set({ method })}
            />
          </div>
          <div class="pair">
            <DayField
              label={w.sampleDay}
              error={fault(['/date'])}
              value={typed.date}
              onValue={(date) => set({ date })}
            />
            <MassField
              label={w.sample}
              isOptional
              error={fault(['/sample/value', '/sample', '/mass'])}
              value={typed.sample}
              onValue={(sample) => set({ sample })}
            />
          </div>
          <Choices id="stock-methods" values={METHODS} />
        </>
      )}
    </ActDialog>
  );
}
