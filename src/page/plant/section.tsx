import './plant.css';
import { Tabs } from '../parts/tabs.tsx';
import { to } from '../shell/place.ts';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import { PeopleAndKeys } from './people.tsx';
import { Settings } from './settings.tsx';
import { TheBooks } from './the-books.tsx';
import { ThisDevice } from './this-device.tsx';
import { PLANT } from './words.ts';

const VIEWS = {
  settings: Settings,
  people: PeopleAndKeys,
  device: ThisDevice,
  books: TheBooks,
};
type ViewName = keyof typeof VIEWS;

/** The plant, its people, this device and the service itself. */
export default function Section({ place }: SectionProps) {
  const t = useWords(PLANT);
  const [part = ''] = place.parts;
  const here: ViewName = part in VIEWS ? (part as ViewName) : 'settings';
  const View = VIEWS[here];
  return (
    <div class="plant-section stack">
      <h1>{t.title}</h1>
      <Tabs
        label={t.places}
        tabs={(Object.keys(VIEWS) as ViewName[]).map((view) => ({
          address: view === 'settings' ? to('plant') : to('plant', view),
          says: t.tabs[view],
          isHere: view === here,
        }))}
      />
      <View />
    </div>
  );
}
