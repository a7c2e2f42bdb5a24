import { useEffect, useState } from 'preact/hooks';
import { ask, onReach } from './ask.ts';

const PROBE_MS = 3_000;

/** Whether the service answers, as the last request found; while it does not, it is asked every few seconds. */
export function useConnection(): boolean {
  const [isReached, setReached] = useState(true);
  useEffect(() => onReach(setReached), []);
  useEffect(() => {
    const lost = () => setReached(false);
    addEventListener('offline', lost);
    return () => removeEventListener('offline', lost);
  }, []);
  useEffect(() => {
    if (isReached) return;
    const probe = () => void ask({ path: '/health' }).catch(() => undefined);
    const timer = setInterval(probe, PROBE_MS);
    addEventListener('online', probe);
    return () => {
      clearInterval(timer);
      removeEventListener('online', probe);
    };
  }, [isReached]);
  return isReached;
}
