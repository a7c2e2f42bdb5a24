import { useEffect, useState } from 'preact/hooks';

/** Where in the page somebody is: '#/stock/B50-0306?tab=tests'. The browser's own back and forward work. */
export interface Place {
  /** 'stock', then what is in it. */
  readonly section: string;
  readonly parts: readonly string[];
  readonly query: URLSearchParams;
}

export function placeOf(hash: string): Place {
  const [path = '', query = ''] = hash.replace(/^#?\/?/, '').split('?', 2);
  const [section = '', ...parts] = path.split('/').map(decode);
  return { section, parts: parts.filter((part) => part !== ''), query: new URLSearchParams(query) };
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The address of a place: `to('stock', lot.id)`. */
export function to(section: string, ...parts: readonly (string | number)[]): string {
  return `#/${[section, ...parts].map((part) => encodeURIComponent(String(part))).join('/')}`;
}

/** Goes there. */
export function go(address: string): void {
  location.hash = address;
}

export function usePlace(): Place {
  const [place, setPlace] = useState(() => placeOf(location.hash));
  useEffect(() => {
    const look = () => setPlace(placeOf(location.hash));
    // Whoever went elsewhere before this listened is followed too.
    look();
    addEventListener('hashchange', look);
    return () => removeEventListener('hashchange', look);
  }, []);
  return place;
}
