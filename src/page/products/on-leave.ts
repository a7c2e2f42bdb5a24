import { useEffect, useRef } from 'preact/hooks';

/** Tells once, on leaving, what is to be told then. */
export function useOnLeave(leave: () => void): void {
  const latest = useRef(leave);
  latest.current = leave;
  useEffect(() => () => latest.current(), []);
}
