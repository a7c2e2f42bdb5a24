import { useEffect, useMemo, useState } from 'preact/hooks';
import { Read } from '../parts/states.tsx';
import { Told } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { onLoginNeeded } from '../service/ask.ts';
import { keep } from '../service/kept.ts';
import { DEVICE_NAME, type Device, DeviceContext, deviceAtFirst } from './device.ts';
import { Entrance } from './entrance.tsx';
import { Frame } from './frame.tsx';
import { HereContext, type PlantAnswer, type SessionAnswer } from './plant.ts';

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
  useEffect(() => onLoginNeeded(() => setOut(true)), []);
  const enter = () => {
    setOut(false);
    session.again();
    plant.again();
  };
  return (
    <Read of={session}>
      {(who) => {
        if (who.caller === undefined) return <Entrance session={who} onEnter={enter} />;
        return (
          <Read of={plant}>
            {(here) => (
              <HereContext.Provider value={{ plant: here, session: who }}>
                <Frame onLogOut={enter} />
                {isOut && <Entrance session={who} onEnter={enter} isAgain />}
              </HereContext.Provider>
            )}
          </Read>
        );
      }}
    </Read>
  );
}
