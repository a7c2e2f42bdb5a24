import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Read } from '../parts/states.tsx';
import { Told } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { onLoginNeeded } from '../service/ask.ts';
import { keep } from '../service/kept.ts';
import { useFirstTime } from '../start/first-time.ts';
import { DEVICE_NAME, type Device, DeviceContext, deviceAtFirst } from './device.ts';
import { Entrance, LoginAgain } from './entrance.tsx';
import { Frame } from './frame.tsx';
import { HereContext, type PlantAnswer, type SessionAnswer } from './plant.ts';

/** Who is in, as the tabs of this browser tell one another. */
const WHO = 'who is here';

/** The whole page: the device's settings, who is here, and the frame around the section that is looked at. */
export function App() {
  const device = useOwnDevice();
  return (
    <DeviceContext.Provider value={device}>
      <Told>
        <Inside />
      </Told>
    </DeviceContext.Provider>
  );
}

function useOwnDevice(): Device {
  const [settings, setSettings] = useState(deviceAtFirst);
  useEffect(() => {
    document.documentElement.lang = settings.language;
    document.documentElement.dataset.look = settings.look;
  }, [settings]);
  return useMemo(
    () => ({
      ...settings,
      set: (change) =>
        setSettings((before) => {
          const next = { ...before, ...change };
          keep(DEVICE_NAME, next);
          return next;
        }),
    }),
    [settings],
  );
}

function Inside() {
  const session = useAnswer<SessionAnswer>('/session');
  const plant = useAnswer<PlantAnswer>('/plant');
  const [isOut, setOut] = useState(false);
  /** Whoever was let in: when their session ends, what they were doing stays where it is. */
  const last = useRef<SessionAnswer | undefined>(undefined);
  /** The answer that somebody has logged out of; the next one is no longer theirs. */
  const left = useRef<SessionAnswer | undefined>(undefined);
  useEffect(() => onLoginNeeded(() => setOut(true)), []);
  useFirstTime(session.body);
  const { body } = session;
  useEffect(() => {
    if (body?.caller) setOut(false);
    if (body) keep(WHO, body.caller?.id ?? '');
  }, [body]);
  // Another tab of this browser has let somebody else in, or out: what is done here would carry their name.
  useEffect(() => {
    const look = ({ key }: StorageEvent) => key?.endsWith(WHO) && session.again();
    addEventListener('storage', look);
    return () => removeEventListener('storage', look);
  }, [session.again]);
  const enter = () => {
    setOut(false);
    session.again();
    plant.again();
  };
  return (
    <Read of={session}>
      {(now) => {
        if (now.caller && now !== left.current) last.current = now;
        const who = last.current;
        if (!who) return <Entrance session={now} onEnter={enter} />;
        return (
          <Read of={plant}>
            {(here) => (
              <HereContext.Provider value={{ plant: here, session: who }}>
                <Frame
                  onLogOut={() => {
                    left.current = now;
                    last.current = undefined;
                    enter();
                  }}
                />
                {(isOut || !now.caller) && <LoginAgain name={who.caller?.name ?? ''} onEnter={enter} />}
              </HereContext.Provider>
            )}
          </Read>
        );
      }}
    </Read>
  );
}
