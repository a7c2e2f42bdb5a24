import { useEffect, useErrorBoundary, useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Notice } from '../parts/notice.tsx';
import { Waiting } from '../parts/states.tsx';
import { useWords } from '../words/words.ts';
import type { Place } from './place.ts';
import type { SectionView } from './section.ts';
import type { Section } from './sections.ts';
import { SHELL } from './shell-words.ts';

/** A section, fetched when it is first gone to. Where that fails, or the section itself, it is said and can be tried again. */
export function SectionOf({
  section,
  place,
}: {
  readonly section: Pick<Section, 'load'>;
  readonly place: Place;
}) {
  const t = useWords(SHELL);
  const [View, setView] = useState<SectionView>();
  const [failed, setFailed] = useState(false);
  const [caught] = useErrorBoundary((error) => console.error(error));
  useEffect(() => {
    section.load().then(
      (loaded) => setView(() => loaded.default),
      () => setFailed(true),
    );
  }, [section]);
  if (failed || caught !== undefined) {
    return (
      <Notice kind="bad" isUrgent>
        <p>{t.broken}</p>
        <Button onClick={() => location.reload()}>{t.reload}</Button>
      </Notice>
    );
  }
  return View ? <View place={place} /> : <Waiting />;
}
