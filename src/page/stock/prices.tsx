import { useState } from 'preact/hooks';
import { fixed, pricePerUnit } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { withMark } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { MassField, type TypedMass } from '../parts/number-field.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { useDevice } from '../shell/device.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { ActDialog } from './act-dialog.tsx';
import type { Known } from './lot-facts.ts';
import { MaterialField } from './material-field.tsx';
import { MATERIAL } from './material-words.ts';
import { Withdraw } from './materials.tsx';
import type { PriceAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/** What is bought without lots: water, spices, casings, each at its price. */
export function Prices({ known }: { readonly known: Known }) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const c = useWords(COMMON);
  const show = useShow();
  const may = useMay();
  const reading = useAnswer<{ items: PriceAnswer[] }>('/prices');
  const [doing, setDoing] = useState<{ price?: PriceAnswer; isWithdrawal?: true }>();
  const onClose = () => setDoing(undefined);
  return (
    <>
      <h1>{w.prices}</h1>
      <p class="hint">{w.pricesHint}</p>
      {may('plan') && (
        <div class="row">
          <Button kind="main" onClick={() => setDoing({})}>
            {w.addPrice}
          </Button>
        </div>
      )}
      <Read of={reading}>
        {({ items }) =>
          items.length === 0 ? (
            <Nothing>{w.noPrice}</Nothing>
          ) : (
            <Table
              caption={w.prices}
              rows={items.toSorted((a, b) => a.material.localeCompare(b.material))}
              keyOf={({ materialId }) => materialId}
              columns={[
                { says: c.material, of: ({ material }) => material, isName: true },
                { says: c.price, of: ({ costPerKg }) => show.price(costPerKg), isNumber: true },
                ...(may('plan')
                  ? [
                      {
                        says: w.todo,
                        of: (price: PriceAnswer) => (
                          <div class="row wrap">
                            <Button
                              kind="quiet"
                              label={`${c.change}: ${price.material}`}
                              onClick={() => setDoing({ price })}
                            >
                              {c.change}
                            </Button>
                            <Button
                              kind="quiet"
                              label={`${t.withdraw}: ${price.material}`}
                              onClick={() => setDoing({ price, isWithdrawal: true })}
                            >
                              {t.withdraw}
                            </Button>
                          </div>
                        ),
                      },
                    ]
                  : []),
              ]}
            />
          )
        }
      </Read>
      {doing && !doing.isWithdrawal && (
        <PriceDialog
          price={
            doing.price && reading.body?.items.find((each) => each.materialId === doing.price?.materialId)
          }
          known={known}
          again={reading.again}
          onClose={onClose}
        />
      )}
      {doing?.isWithdrawal && doing.price && (
        <Withdraw
          path={`/prices/${doing.price.materialId}`}
          name={doing.price.material}
          version={doing.price.version}
          onClose={onClose}
        />
      )}
    </>
  );
}

function PriceDialog({
  price,
  known,
  again,
  onClose,
}: {
  readonly price: PriceAnswer | undefined;
  readonly known: Known;
  readonly again: () => void;
  readonly onClose: () => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const tell = useTell();
  const show = useShow();
  const { mark } = useDevice();
  const text = price
    ? withMark(String(Number(fixed(pricePerUnit(price.costPerKg, show.units), 4))), mark)
    : '';
  return (
    <ActDialog<{ materialId: string; cost: TypedMass }, PriceAnswer>
      title={price?.material ?? w.addPrice}
      name={`price ${price?.materialId ?? ''}`}
      initial={{ materialId: price?.materialId ?? '', cost: { text, unit: show.units } }}
      does={t.saveChange}
      act={({ materialId, cost }) => {
        const parsed = parseMass(cost.text, cost.unit, mark);
        if (materialId === '' || parsed.kind !== 'mass') return undefined;
        return {
          method: 'PUT',
          path: `/prices/${materialId}`,
          body: { cost: { amount: parsed.value, per: parsed.unit } },
          ...(price && { version: price.version }),
        };
      }}
      onRefused={again}
      onDone={(written) => tell({ says: t.changed(written.material) })}
      onClose={onClose}
    >
      {({ typed, set, fault }) => (
        <>
          {!price && (
            <MaterialField
              known={known}
              lots={[]}
              value={typed.materialId}
              onValue={(materialId) => set({ materialId })}
              error={fault(['/materialId'], typed.materialId === '')}
            />
          )}
          <MassField
            label={t.price}
            isPer
            before={show.money(0, 0).replace('0', '')}
            hint={price && t.inTheBooks(show.price(price.costPerKg))}
            error={fault(
              ['/cost/amount', '/cost'],
              parseMass(typed.cost.text, typed.cost.unit, mark).kind !== 'mass',
            )}
            value={typed.cost}
            onValue={(cost) => set({ cost })}
          />
        </>
      )}
    </ActDialog>
  );
}
