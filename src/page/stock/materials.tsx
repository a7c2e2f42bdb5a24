import { useMemo, useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Tick } from '../parts/choice.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { Nothing } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useTell } from '../parts/told.tsx';
import { useSending } from '../service/sending.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Known } from './lot-facts.ts';
import { MaterialDialog } from './material-dialog.tsx';
import { MATERIAL } from './material-words.ts';
import { materialsFor } from './pick-material.ts';
import type { MaterialAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

const AT_ONCE = 25;

/** What there is to make things of: the tables' materials, which stand, and the plant's own. */
export function Materials({ known, again }: { readonly known: Known; readonly again: () => void }) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const c = useWords(COMMON);
  const may = useMay();
  const [search, setSearch] = useState('');
  const [isOwn, setOwn] = useState(false);
  const [most, setMost] = useState(AT_ONCE);
  const [doing, setDoing] = useState<{ like?: MaterialAnswer; what: 'add' | 'change' | 'withdraw' }>();
  const found = useMemo(
    () =>
      materialsFor(search, known.materials.values(), [], undefined, known.materials.size).filter(
        ({ own }) => own || !isOwn,
      ),
    [search, isOwn, known],
  );
  const onClose = () => setDoing(undefined);
  return (
    <>
      <h1>{w.materials}</h1>
      <div class="stock-finder">
        <TextField type="search" label={c.search} value={search} onValue={setSearch} />
        <Tick label={w.ownOnly} isOn={isOwn} onChange={setOwn} />
        {may('plan') && (
          <Button kind="main" onClick={() => setDoing({ what: 'add' })}>
            {w.addMaterial}
          </Button>
        )}
      </div>
      {found.length === 0 ? (
        <Nothing>{isOwn && search === '' ? w.noOwnMaterial : t.noMaterial(search)}</Nothing>
      ) : (
        <MaterialTable
          materials={found.slice(0, most)}
          onDo={may('plan') ? (like, what) => setDoing({ like, what }) : undefined}
        />
      )}
      {found.length > most && (
        <Button onClick={() => setMost(most + AT_ONCE)}>{t.showMore(found.length - most)}</Button>
      )}
      {doing && doing.what !== 'withdraw' && (
        <MaterialDialog
          like={doing.like && (known.materials.get(doing.like.id) ?? doing.like)}
          isNew={doing.what === 'add'}
          onDone={again}
          onClose={onClose}
        />
      )}
      {doing?.what === 'withdraw' && doing.like && (
        <Withdraw
          path={`/materials/${doing.like.id}`}
          name={doing.like.name}
          version={doing.like.version}
          onDone={again}
          onClose={onClose}
        />
      )}
    </>
  );
}

function MaterialTable({
  materials,
  onDo,
}: {
  readonly materials: readonly MaterialAnswer[];
  readonly onDo: ((material: MaterialAnswer, what: 'add' | 'change' | 'withdraw') => void) | undefined;
}) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const c = useWords(COMMON);
  const say = useSay();
  const show = useShow();
  return (
    <Table
      caption={w.materials}
      rows={materials}
      keyOf={({ id }) => id}
      columns={[
        {
          says: c.material,
          isName: true,
          of: ({ name, own, id }) => (
            <>
              {name} {own && <span class="stock-sign">{w.own}</span>}
              <span class="stock-line aside">{id}</span>
            </>
          ),
        },
        {
          says: t.kind,
          isExtra: true,
          of: ({ kind, species }) =>
            [species, kind]
              .map((text) => text && say(text))
              .filter(Boolean)
              .join(', '),
        },
        { says: c.fat, isNumber: true, of: ({ composition }) => show.percent(composition.fatFraction) },
        {
          says: w.parts.proteinFraction,
          isNumber: true,
          isExtra: true,
          of: ({ composition }) => show.percent(composition.proteinFraction),
        },
        { says: w.allergens, isExtra: true, of: ({ allergens }) => allergens.map(say).join(', ') || '–' },
        ...(onDo
          ? [
              {
                says: w.todo,
                of: (material: MaterialAnswer) => (
                  <div class="row wrap">
                    {material.version === undefined ? (
                      <Button
                        kind="quiet"
                        label={`${w.addLike}: ${material.name}`}
                        onClick={() => onDo(material, 'add')}
                      >
                        {w.addLike}
                      </Button>
                    ) : (
                      <>
                        <Button
                          kind="quiet"
                          label={`${c.change}: ${material.name}`}
                          onClick={() => onDo(material, 'change')}
                        >
                          {c.change}
                        </Button>
                        <Button
                          kind="quiet"
                          label={`${t.withdraw}: ${material.name}`}
                          onClick={() => onDo(material, 'withdraw')}
                        >
                          {t.withdraw}
                        </Button>
                      </>
                    )}
                  </div>
                ),
              },
            ]
          : []),
      ]}
    />
  );
}

/** Takes a material or a price away, once more asked. */
export function Withdraw({
  path,
  name,
  version,
  onDone,
  onClose,
}: {
  readonly path: string;
  readonly name: string;
  readonly version: number | undefined;
  readonly onDone?: () => void;
  readonly onClose: () => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(MATERIAL);
  const tell = useTell();
  const { send, isSending, error } = useSending(`withdraw ${path}`);
  return (
    <Confirm
      title={w.withdrawTitle(name)}
      says={w.withdrawSays}
      does={t.withdraw}
      isBusy={isSending}
      onClose={onClose}
      onYes={async () => {
        const answered = await send({ method: 'DELETE', path, ...(version !== undefined && { version }) });
        if (!answered) return;
        onClose();
        onDone?.();
        tell({ says: w.withdrawnNow(name) });
      }}
    >
      <ProblemNotice error={error} />
    </Confirm>
  );
}
