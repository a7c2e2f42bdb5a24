import { useEffect, useRef, useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { useConnection } from '../service/connection.ts';
import { isUnsentOnlyHere, useLeavingAsks, useOutbox } from '../service/outbox.ts';
import { useSending } from '../service/sending.ts';
import { useWords } from '../words/words.ts';
import { useDevice } from './device.ts';
import { useFocusKept } from './focus.ts';
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
  useFocusKept(main);
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
        <Unsent />
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

/** What was weighed on this device and is not booked: it waits, for whom, or was refused and must be seen to. */
function Unsent() {
  const t = useWords(SHELL);
  const { session } = useHere();
  const all = useOutbox();
  useLeavingAsks();
  const refused = all.filter(({ refusal }) => refusal);
  const waiting = all.filter(({ refusal }) => !refusal);
  const others = [
    ...new Set(waiting.filter(({ by }) => by.id !== session.caller?.id).map(({ by }) => by.name)),
  ];
  return (
    <>
      {waiting.length > 0 && (
        <p class="lost">
          {t.waitingToSend(waiting.length)}
          {others.length > 0 && ` · ${t.waitsFor(others.join(', '))}`}
          {isUnsentOnlyHere() && ` · ${t.leaveOpen}`}
        </p>
      )}
      {[...new Set(refused.map(({ place }) => place))].map((place) => (
        <p key={place} class="lost">
          <a href={place}>{t.notBooked(refused.filter((one) => one.place === place).length)}</a>
        </p>
      ))}
    </>
  );
}

const placeIn = (section: string, place: Place): Place =>
  place.section === section ? place : { section, parts: [], query: place.query };

function Head({ onLogOut }: { readonly onLogOut: () => void }) {
  const t = useWords(SHELL);
  const { plant, session } = useHere();
  const device = useDevice();
  const { send } = useSending('log out');
  const mine = useOutbox().filter(({ refusal, by }) => !refusal && by.id === session.caller?.id);
  const [isLeaving, setLeaving] = useState(false);
  const logOut = async () => {
    if (await send({ method: 'DELETE', path: '/session' })) onLogOut();
  };
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
        <Button kind="quiet" onClick={() => (mine.length > 0 ? setLeaving(true) : void logOut())}>
          {t.logOut}
        </Button>
      )}
      {isLeaving && (
        <Confirm
          title={t.logOut}
          says={t.logOutUnsent(mine.length)}
          does={t.logOut}
          onYes={() => {
            setLeaving(false);
            void logOut();
          }}
          onClose={() => setLeaving(false)}
        />
      )}
    </header>
  );
}
