/** English texts and their Spanish, with places in braces for what differs; the first that fits counts. */
export type Told = readonly (readonly [english: string, spanish: string])[];

/** The Spanish of a text; undefined where it, or a part that has to be known, is not in the catalog. Never throws. */
export type Teller = (text: string) => string | undefined;

const PLACE = /\{(\w+)\}/g;

/** Places in braces of a text. */
export function placesIn(text: string): string[] {
  return [...text.matchAll(PLACE)].map(([, name = '']) => name);
}

/** A text with its places filled; one that has no value stays. */
export function filled(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(PLACE, (place, name: string) => String(values[name] ?? place));
}

/** Places that stand for a text of the catalog: with any other filling the pattern does not fit. */
const KNOWN: ReadonlySet<string> = new Set(['what', 'where', 'of', 'as', 'how', 'fault', 'kinds', 'said']);
/** Places that hold a text, told where it is known: what people wrote stays as it is. */
const TOLD: ReadonlySet<string> = new Set(['because', 'form', 'limit', 'remedy', 'state', 'step', 'unit']);
/** Places that hold a list, of which each part is told where it is known. */
const LISTED: ReadonlySet<string> = new Set(['allergens', 'basis', 'hand', 'list', 'lotCount', 'tests']);

/** Places that only such a filling fits. */
const SHAPES: Readonly<Record<string, string>> = {
  ...Object.fromEntries(['lot', 'id', 'name', 'product'].map((place) => [place, '([^:;"]+?)'])),
  ...Object.fromEntries(['line', 'load', 'same', 'again', 'record'].map((place) => [place, '(\\d+)'])),
  ...Object.fromEntries(
    ['mass', 'fullMass'].map((place) => [place, '(-?[\\d.,]+ (?:lb|kg|oz|g|mg)(?: \\([^)]*\\))?)']),
  ),
  bound: '(-?\\d[-+.,\\de]*(?: [^ .,;:]+)?)',
  count: '(\\d[\\d.,]*)',
  one: '(\\S+)',
  path: '(\\S+)',
  said: '(.+?\\.)',
  value: '(-?\\d[\\d.]*(?:e[-+]?\\d+)?)',
};

/** Texts that stand one after the other, and what goes between them in Spanish. */
const JOINTS: readonly (readonly [split: (text: string) => readonly string[], spanish: string])[] = [
  [(text) => text.split(' Or: '), ' O bien: '],
  [(text) => text.split(' And: '), ' Y: '],
  [(text) => text.split('; '), '; '],
  [(text) => text.split(/\. (?=[a-z])/), '. '],
  // Where a sentence ends; without looking behind, which not every browser can.
  [(text) => text.replace(/([.)?]) (?=[A-Z])/g, '$1\0').split('\0'), ' '],
];

/** What no sentence of the service is: it is not looked through for patterns. */
const LONGEST = 3000;
const MOST_REMEMBERED = 4000;

interface Pattern {
  /** Its longest fixed part: a quick way to see that it does not fit. */
  readonly holds: string;
  readonly fits: RegExp;
  readonly names: readonly string[];
  readonly spanish: string;
}

/** @param told with places only in patterns: a phrase whose places its writer fills has no business here. */
export function teller(told: Told): Teller {
  const phrases = new Map([...told].reverse().filter(([english]) => !english.includes('{')));
  const patterns = told.filter(([english]) => english.includes('{')).map(patternOf);
  const remembered = new Map<string, string | undefined>();

  function tell(text: string): string | undefined {
    if (text.length > LONGEST) return undefined;
    if (remembered.has(text)) return remembered.get(text);
    const spanish = found(text);
    if (remembered.size >= MOST_REMEMBERED) remembered.clear();
    remembered.set(text, spanish);
    return spanish;
  }

  /** By parts before patterns, so that no wide pattern takes in the sentences that follow. */
  function found(text: string): string | undefined {
    const small = `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
    return (
      phrases.get(text) ??
      raised(phrases.get(small)) ??
      byParts(text) ??
      byPattern(text) ??
      (small === text ? undefined : raised(byPattern(small))) ??
      listed(text, tell)
    );
  }

  function byPattern(text: string): string | undefined {
    for (const { holds, fits, names, spanish } of patterns) {
      const parts = text.includes(holds) ? fits.exec(text) : null;
      if (!parts) continue;
      const values = names.map((name, index) => [name, filling(name, parts[index + 1] ?? '')] as const);
      if (values.some(([, value]) => value === undefined)) continue;
      const told = contracted(filled(spanish, Object.fromEntries(values) as Record<string, string>));
      return /^\p{Lu}/u.test(text) ? raised(told) : told;
    }
    return undefined;
  }

  function filling(name: string, part: string): string | undefined {
    if (TOLD.has(name)) return tell(part) ?? part;
    if (LISTED.has(name)) return tell(part) ?? listed(part, (one) => tell(one) ?? one) ?? part;
    if (!KNOWN.has(name)) return part;
    // A thing is no sentence: else a wide pattern would take in the sentences that follow.
    return name !== 'said' && part.includes('. ') ? undefined : tell(part);
  }

  function byParts(text: string): string | undefined {
    for (const [split, spanish] of JOINTS) {
      const parts = split(text);
      if (parts.length === 1) continue;
      const told = parts.map(tell);
      if (told.every((part) => part !== undefined)) return told.join(spanish);
    }
    return undefined;
  }

  return tell;
}

/** 'beef, pork and veal', each told; undefined when it is no list or one of them is not known. */
function listed(text: string, tell: Teller): string | undefined {
  const parts = text.split(/(, and |, or |, | and | or )/);
  if (parts.length === 1) return undefined;
  const told = parts.map((part, index) => (index % 2 === 1 ? BETWEEN[part] : tell(part)));
  if (told.some((part) => part === undefined)) return undefined;
  return told
    .join('')
    .replace(/ y (?=h?i)/g, ' e ')
    .replace(/ o (?=h?o)/g, ' u ');
}

const BETWEEN: Readonly<Record<string, string>> = {
  ', ': ', ',
  ' and ': ' y ',
  ', and ': ' y ',
  ' or ': ' o ',
  ', or ': ' o ',
};

function raised(text: string | undefined): string | undefined {
  return text === undefined ? undefined : `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

function contracted(text: string): string {
  return text.replace(/\b(de|a) el (?=\p{Ll})/gu, (_, word: string) => (word === 'a' ? 'al ' : 'del '));
}

function patternOf([english, spanish]: readonly [string, string]): Pattern {
  const parts = english.split(PLACE);
  const fixed = parts.filter((_, index) => index % 2 === 0);
  const pattern = parts
    .map((part, index) =>
      index % 2 === 0 ? part.replace(/[$()*+.?[\\\]^{|}]/g, '\\$&') : (SHAPES[part] ?? '(.+?)'),
    )
    .join('');
  return {
    holds: fixed.reduce((longest, part) => (part.length > longest.length ? part : longest)),
    fits: new RegExp(`^${pattern}$`, 's'),
    names: placesIn(english),
    spanish,
  };
}
