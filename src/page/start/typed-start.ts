import type { DecimalMark } from '../figures/number.ts';
import { withMark } from '../figures/number.ts';
import type { TypedMass } from '../parts/number-field.tsx';
import type { PlantSettings } from '../plant/plant-types.ts';
import { plantSettings, type TypedPlant, type TypedScale } from '../plant/typed-plant.ts';
import type { Market } from '../plant/words.ts';

/** The first run as it is typed, what is assumed where nothing was, and the request that it becomes. */

export const STEPS = ['plant', 'scales', 'people', 'with', 'lots'] as const;
export type Step = (typeof STEPS)[number];

export interface TypedLot {
  readonly materialId?: string;
  readonly mass: TypedMass;
  readonly price: TypedMass;
  /** Lean percent by a test or by the supplier's paper. */
  readonly lean: string;
  /** The lot that it became. */
  readonly lotId?: string;
}

export interface TypedStart {
  /** What was typed of the plant; the rest is assumed. */
  readonly plant: Partial<TypedPlant>;
  /** Name of the first admin. The password is kept nowhere. */
  readonly person: string;
  readonly keeps: 'all' | 'products';
  readonly products?: readonly string[];
  /** The class of a recipe in the market of the plant, by the id of the product. */
  readonly classes: Readonly<Record<string, string>>;
  readonly lots: readonly TypedLot[];
  /** The step to go on with. */
  readonly at: Step;
  readonly isBegun: boolean;
}

export const NOTHING_TYPED: TypedStart = {
  plant: {},
  person: '',
  keeps: 'products',
  classes: {},
  lots: [],
  at: 'plant',
  isBegun: false,
};

interface MarketStart {
  readonly currency: string;
  readonly units: 'lb' | 'kg';
  readonly paper: 'letter' | 'a4';
}

const OF_MARKET: Readonly<Record<Market, MarketStart>> = {
  us: { currency: 'USD', units: 'lb', paper: 'letter' },
  ca: { currency: 'CAD', units: 'kg', paper: 'letter' },
  gb: { currency: 'GBP', units: 'kg', paper: 'a4' },
  eu: { currency: 'EUR', units: 'kg', paper: 'a4' },
  anz: { currency: 'AUD', units: 'kg', paper: 'a4' },
  codex: { currency: 'USD', units: 'kg', paper: 'a4' },
};

const MEMBERS = 'AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK'.split(' ');

/** The market that a browser's language points to: 'en-CA' is Canada. Without a region it is the United States,
 * and for Mexico too: many a floor there speaks its Spanish. */
export function marketOfLanguage(tag: string): Market {
  const region = /-([A-Z]{2})\b/.exec(tag)?.[1];
  if (region === undefined || region === 'US' || region === 'MX') return 'us';
  if (region === 'CA') return 'ca';
  if (region === 'GB') return 'gb';
  if (region === 'AU' || region === 'NZ') return 'anz';
  return MEMBERS.includes(region) ? 'eu' : 'codex';
}

/** Scales as plants usually have them; names, divisions and capacities are common practice and meant to be changed. */
export function usualScales(
  units: 'lb' | 'kg',
  names: Readonly<Record<'floor' | 'bench' | 'gram', string>>,
  mark: DecimalMark,
): TypedScale[] {
  const scale = (
    id: 'floor' | 'bench' | 'gram',
    unit: TypedScale['unit'],
    division: string,
    capacity: string,
  ) => ({
    id: '',
    name: names[id],
    unit,
    division: withMark(division, mark),
    capacity,
  });
  return units === 'lb'
    ? [
        scale('floor', 'lb', '0.1', '500'),
        scale('bench', 'lb', '0.01', '30'),
        scale('gram', 'g', '1', '5000'),
      ]
    : [
        scale('floor', 'kg', '0.05', '300'),
        scale('bench', 'kg', '0.005', '15'),
        scale('gram', 'g', '1', '5000'),
      ];
}

export interface Assumed {
  /** Language tag of the browser. */
  readonly tag: string;
  readonly timeZone: string;
  readonly language: 'en' | 'es';
  readonly mark: DecimalMark;
  readonly scaleNames: Readonly<Record<'floor' | 'bench' | 'gram', string>>;
}

/** The plant with what is assumed where nothing was typed: a market brings its currency, units and paper along. */
export function wholePlant(typed: Partial<TypedPlant>, assumed: Assumed): TypedPlant {
  const jurisdiction = typed.jurisdiction ?? marketOfLanguage(assumed.tag);
  const { currency, units: usual, paper } = OF_MARKET[jurisdiction as Market] ?? OF_MARKET.us;
  const units = typed.units ?? usual;
  return {
    name: '',
    establishment: '',
    address: '',
    jurisdiction,
    currency,
    units,
    timeZone: assumed.timeZone,
    mixer: { text: units === 'lb' ? '200' : '100', unit: units },
    scales: usualScales(units, assumed.scaleNames, assumed.mark),
    paper,
    language: assumed.language,
    labelStock: '',
    priceCode: 'none',
    ...typed,
  };
}

export interface BeginningBody {
  readonly plant: PlantSettings;
  readonly keeps:
    | 'all'
    | { readonly products: readonly { readonly id: string; readonly productClass?: string }[] };
  readonly admin?: { readonly name: string; readonly password: string };
}

/** @param products ids to keep. @param password of the first admin; undefined where there is an admin already. */
export function beginningBody(
  { keeps, classes, person }: TypedStart,
  plant: TypedPlant,
  products: readonly string[],
  password: string | undefined,
  mark: DecimalMark,
): BeginningBody {
  return {
    plant: plantSettings(plant, mark),
    keeps:
      keeps === 'all'
        ? 'all'
        : {
            products: products.map((id) => {
              const productClass = classes[id];
              return { id, ...(productClass && { productClass }) };
            }),
          },
    ...(password !== undefined && { admin: { name: person, password } }),
  };
}
