import { useEffect, useRef } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { useConnection } from '../service/connection.ts';
import { useOutbox } from '../service/outbox.ts';
import { useSending } from '../service/sending.ts';
import { useWords } from '../words/words.ts';
import { useDevice } from './device.ts';
import { type Place, usePlace } from './place.ts';
import { useHere } from './plant.ts';
import { SectionOf } from './section-of.tsx';
import { SECTIONS, START } from './sections.ts';
import { SHELL } from './shell-words.ts';

/** What stands around every section: whose plant it is, the way to the other sections, and whether the service answers. */
export function Frame({ onLogOut }: { readonly onLogOut: () => void }) {
  const t = useWords(SHELL);
  const place = usePlace();
  const isReached = useConnection();
  const waiting = useOutbox();
  const isStart = place.section === 'start';
  const section = SECTIONS.find(({ id }) => id === place.section) ?? SECTIONS[0];
  const main = useRef<HTMLElement>(null);
  const at = `${place.section}/${place.parts.join('/')}`;
  const before = useRef(at);
  // Whoever goes somewhere reads on from there; at the start the browser knows better.
  useEffect(() => {
    if (before.current !== at) main.current?.focus();
    before.current = at;
  }, [at]);
  if (!section) return null;
  return (
    <div class="frame">
      <button type="button" class="skip" onClick={() => main.current?.focus()}>
        {t.toContent}
      </button>
      <Head onLogOut={onLogOut} />
      <nav class="parts" aria-label={t.parts}>
        <ul>
          {SECTIONS.map(({ id, drawing }) => (
            <li key={id}>
              <a href={`#/${id}`} aria-current={id === section.id && !isStart ? 'page' : undefined}>
                <svg viewBox="0 0 24 24" aria-hidden="true">
                  <path d={drawing} />
                </svg>
                <span>{t.sections[id]}</span>
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <div class="connection" role="status">
        {!isReached && <p class="lost">{t.lost}</p>}
        {waiting.length > 0 && <p class="lost">{t.waitingToSend(waiting.length)}</p>}
      </div>
      <main id="main" ref={main} tabIndex={-1}>
        {isStart ? (
          <SectionOf key="start" section={START} place={place} />
        ) : (
          <SectionOf key={section.id} section={section} place={placeIn(section.id, place)} />
        )}
      </main>
    </div>
  );
}

const placeIn = (section: string, place: Place): Place =>
  place.section === section ? place : { section, parts: [], query: place.query };

function Head({ onLogOut }: { readonly onLogOut: () => void }) {
  const t = useWords(SHELL);
  const { plant, session } = useHere();
  const device = useDevice();
  const { send } = useSending('log out');
  const other = device.language === 'en' ? 'es' : 'en';
  return (
    <header class="head">
      <p class="plant">
        <strong>{plant.name}</strong> <span>{t.est(plant.establishment)}</span>
      </p>
      <p class="who">
        {session.entrance === 'open' ? <span class="aside">{t.demo}</span> : session.caller?.name}
      </p>
      <Button
        kind="quiet"
        lang={other}
        title={t.languageSays}
        onClick={() => device.set({ language: other })}
      >
        {t.language}
      </Button>
      {session.caller?.via === 'session' && (
        <Button
          kind="quiet"
          onClick={async () => {
            if (await send({ method: 'DELETE', path: '/session' })) onLogOut();
          }}
        >
          {t.logOut}
        </Button>
      )}
    </header>
  );
}
