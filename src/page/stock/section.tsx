import './stock.css';
import { Read } from '../parts/states.tsx';
import { Tabs } from '../parts/tabs.tsx';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import { Lot } from './lot.tsx';
import type { Known } from './lot-facts.ts';
import { Materials } from './materials.tsx';
import { Overview } from './overview.tsx';
import { Prices } from './prices.tsx';
import { useKnown } from './reading.ts';
import { Receive } from './receive.tsx';
import { Sheets } from './sheets.tsx';
import { Ship } from './ship.tsx';
import { STOCK } from './words.ts';

const PLACES = ['', 'receive', 'ship', 'materials', 'prices', 'sheets'] as const;

/** What the plant has: on hand, coming in, going out, and what it is made of and costs. */
export default function Stock({ place }: SectionProps) {
  const t = useWords(STOCK);
  const may = useMay();
  const known = useKnown();
  const at = place.parts[0] ?? '';
  const places = PLACES.filter((name) => may('work') || !(name === 'receive' || name === 'ship'));
  return (
    <div class="stack stock">
      <Tabs
        label={t.places}
        tabs={places.map((name) => ({
          address: name === '' ? to('stock') : to('stock', name),
          says: t.placeNames[name === '' ? 'onHand' : name],
          isHere: name === at,
        }))}
      />
      <Read of={known}>
        {(body) => <Here key={at} at={at} place={place} known={body} again={known.again} />}
      </Read>
    </div>
  );
}

function Here({
  at,
  place,
  known,
  again,
}: {
  readonly at: string;
  readonly place: SectionProps['place'];
  readonly known: Known;
  readonly again: () => void;
}) {
  if (at === '') return <Overview known={known} />;
  if (at === 'receive') return <Receive known={known} />;
  if (at === 'ship') return <Ship known={known} />;
  if (at === 'materials') return <Materials known={known} again={again} />;
  if (at === 'prices') return <Prices known={known} />;
  if (at === 'sheets') return <Sheets onTaken={again} />;
  return <Lot id={at} place={place} known={known} />;
}
