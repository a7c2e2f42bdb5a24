import { useLayoutEffect, useRef, useState } from 'preact/hooks';

/** How wide an element is, in pixels, as long as it is there: a picture of text and weights is laid out for it. */
export function useWidth(): readonly [number, { current: HTMLDivElement | null }] {
  const own = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(640);
  useLayoutEffect(() => {
    const element = own.current;
    if (!element) return;
    const measure = () => setWidth(Math.max(280, Math.floor(element.clientWidth)));
    measure();
    const watching = new ResizeObserver(measure);
    watching.observe(element);
    return () => watching.disconnect();
  }, []);
  return [width, own];
}
