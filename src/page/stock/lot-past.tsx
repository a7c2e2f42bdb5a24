import { useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Read } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useAnswer } from '../service/answers.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { ReasonDialog } from './lot-acts.tsx';
import { LOT } from './lot-words.ts';
import type { FatTestAnswer, MovementAnswer, WholeLotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** Most rows that the service gives at once. */
const MOST = 500;

/** Fat tests of a lot; one that was wrong is withdrawn, and stays to be seen. */
export function LotTests({ lot: { id } }: { readonly lot: WholeLotAnswer }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const c = useWords(COMMON);
  const show = useShow();
  const may = useMay();
  // The lot itself tells of the tests that blends go by alone.
  const reading = useAnswer<{ items: FatTestAnswer[] }>(
    `/tests?lotId=${encodeURIComponent(id)}&limit=${MOST}`,
  );
  const [withdrawing, setWithdrawing] = useState<FatTestAnswer>();
  const tests = reading.body?.items ?? [];
  if (tests.length === 0) return null;
  return (
    <section class="stack">
      <h2>{w.tests}</h2>
      <Table
        caption={w.tests}
        keyOf={({ seq }) => seq}
        rows={tests}
        columns={[
          { says: c.date, of: ({ date }) => show.shortDay(date), isName: true },
          {
            says: c.fat,
            isNumber: true,
            of: ({ fatFraction, withdrawn }) =>
              withdrawn ? <s>{show.percent(fatFraction)}</s> : show.percent(fatFraction),
          },
          { says: t.method, of: ({ method }) => method },
          { says: c.who, of: ({ by }) => by, isExtra: true },
          {
            says: w.standing,
            of: (test) =>
              test.withdrawn
                ? w.withdrawnFor(test.withdrawn.reason)
                : may('work') && (
                    <Button kind="quiet" onClick={() => setWithdrawing(test)}>
                      {t.withdraw}
                    </Button>
                  ),
          },
        ]}
      />
      {withdrawing && (
        <ReasonDialog
          title={w.withdrawTest(show.percent(withdrawing.fatFraction), id)}
          does={t.withdraw}
          isGrave
          path={`/tests/${withdrawing.seq}/withdrawal`}
          told={w.testWithdrawn}
          onClose={() => setWithdrawing(undefined)}
        />
      )}
    </section>
  );
}

const REVERSIBLE: readonly string[] = ['received', 'adjusted', 'discarded', 'sold', 'shipped'];

/** Whether it was booked by hand and still stands. */
export const isReversible = ({ kind, batchId, reverses, reversedBy }: MovementAnswer): boolean =>
  REVERSIBLE.includes(kind) && batchId === undefined && reverses === undefined && reversedBy === undefined;

/** What came to a lot and what left it, the latest first. */
export function LotMovements({ lot: { id } }: { readonly lot: WholeLotAnswer }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const c = useWords(COMMON);
  const show = useShow();
  const may = useMay();
  const reading = useAnswer<{ items: MovementAnswer[] }>(
    `/movements?lotId=${encodeURIComponent(id)}&limit=${MOST}`,
  );
  const [reversing, setReversing] = useState<MovementAnswer>();
  const signed = (massKg: number) => `${massKg > 0 ? '+' : ''}${show.mass(massKg)}`;
  return (
    <section class="stack">
      <h2>{w.movements}</h2>
      <Read of={reading}>
        {({ items }) => (
          <Table
            caption={w.movements}
            keyOf={({ seq }) => seq}
            rows={items.toReversed()}
            columns={[
              { says: t.what, isName: true, of: (movement) => <What of={movement} /> },
              {
                says: c.weight,
                isNumber: true,
                of: ({ mass, reserved }) =>
                  mass.kg !== 0 || reserved.kg === 0
                    ? signed(mass.kg)
                    : `${t.promised} ${signed(reserved.kg)}`,
              },
              {
                says: w.onHandThen,
                isNumber: true,
                isExtra: true,
                of: ({ after }) => show.mass(after.onHand.kg),
              },
              {
                says: w.standing,
                of: (movement) =>
                  movement.reversedBy !== undefined
                    ? w.wasTakenBack
                    : isReversible(movement) &&
                      may('work') && (
                        <Button kind="quiet" onClick={() => setReversing(movement)}>
                          {w.takeBack}
                        </Button>
                      ),
              },
            ]}
          />
        )}
      </Read>
      {reversing && (
        <ReasonDialog
          title={w.takeBackTitle(w.kinds[reversing.kind], signed(reversing.mass.kg))}
          does={w.takeBack}
          isGrave
          path={`/movements/${reversing.seq}/reversal`}
          told={w.takenBack}
          onClose={() => setReversing(undefined)}
        />
      )}
    </section>
  );
}

function What({ of: movement }: { readonly of: MovementAnswer }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const { kind, reverses, batchId, otherLotId, reason, to: whom, document, packs, at, by } = movement;
  return (
    <>
      {reverses === undefined ? w.kinds[kind] : w.tookBack(w.kinds[kind])}
      {batchId !== undefined && (
        <>
          {' '}
          <a href={to('batches', batchId)}>{batchId}</a>
        </>
      )}
      {otherLotId !== undefined && otherLotId !== batchId && (
        <>
          {' '}
          <a href={to('stock', otherLotId)}>{otherLotId}</a>
        </>
      )}
      {packs !== undefined && ` · ${t.packCount(packs)}`}
      {[whom, document, reason, `${show.instant(at)}, ${by}`].filter(Boolean).map((text) => (
        <span key={text} class="stock-line aside">
          {text}
        </span>
      ))}
    </>
  );
}
