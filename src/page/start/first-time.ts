import { useEffect } from 'preact/hooks';
import { keep, kept } from '../service/kept.ts';
import { to } from '../shell/place.ts';
import type { SessionAnswer } from '../shell/plant.ts';

/** Whether this device has been asked how to start. */
const SEEN = 'start seen';

export function startSeen(): void {
  keep(SEEN, true);
}

/** Whoever opens a demonstration for the first time on this device, and has gone nowhere yet, is shown how to start. */
export function useFirstTime(session: SessionAnswer | undefined): void {
  const isOpen = session?.entrance === 'open' && session.caller !== undefined;
  useEffect(() => {
    const isNowhere = /^#?\/?$/.test(location.hash);
    if (isOpen && isNowhere && !kept<boolean>(SEEN)) location.replace(to('start'));
  }, [isOpen]);
}
