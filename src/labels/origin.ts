import type { Origin } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { Standard } from '../rules/standard.ts';
import { cite, type Market } from './markets/market.ts';
import { type Duty, listed, title } from './names/named.ts';
import type { LabelBatch } from './put-in.ts';

const HOME = 'US';
/** Ingredients whose origin does not count (9 CFR 412.3; from memory, verify); water is that of the plant. */
const NOT_COUNTED: readonly Material['kind'][] = ['spice', 'flavoring', 'water'];

/**
 * Why a batch is no product of the United States, each fault in words; nothing where it is: every lot of meat of animals
 * born, raised and slaughtered there, made there, and so every other ingredient but spices, flavorings and water.
 */
export function notOfUnitedStates({ lines }: LabelBatch, plant: Plant, casing?: Material): string[] {
  const meat = lines.filter(({ supply }) => isMeat(supply.material));
  const others = [...lines.map(({ supply }) => supply.material), ...(casing ? [casing] : [])].filter(
    (material) => !isMeat(material) && !NOT_COUNTED.includes(material.kind),
  );
  return [
    ...(plant.jurisdiction === 'us' ? [] : ['the plant is not in the United States']),
    ...(meat.length === 0 ? ['no meat goes in'] : []),
    ...meat.flatMap(({ supply: { id, lot } }) => {
      if (!lot?.origin) return [`the origin of ${id} is not known`];
      return isHome(lot.origin) ? [] : [`the animals of ${id} ${whereText(lot.origin)}`];
    }),
    ...[...new Set(others)].flatMap(({ name, madeIn }) => {
      if (madeIn === HOME) return [];
      return [madeIn ? `${name} was made in ${countryName(madeIn)}` : `where ${name} was made is not known`];
    }),
  ];
}

function isHome({ bornIn, raisedIn, slaughteredIn }: Origin): boolean {
  return [bornIn, raisedIn, slaughteredIn].every((country) => country === HOME);
}

function whereText({ bornIn, raisedIn, slaughteredIn }: Origin): string {
  const [born, raised, slaughtered] = [bornIn, raisedIn, slaughteredIn].map(countryName);
  return `were born in ${born}, raised in ${raised} and slaughtered in ${slaughtered}`;
}

/** Lines on the origin of minced meat by its species, and what is missing for them. */
export interface OriginLines {
  readonly lines: readonly Duty[];
  readonly cautions: readonly string[];
}

/** Where the animals of minced meat were reared and slaughtered, beef with where they were born. */
export function originLines(
  { origin }: Market,
  product: Product,
  { productClass }: Standard,
  { lines }: LabelBatch,
): OriginLines {
  if (!origin || product.process.cooking !== 'raw' || !productClass.includes('minced')) return NONE;
  const meat = lines.filter(({ supply }) => isMeat(supply.material));
  const unknown = meat.filter(({ supply }) => !supply.lot?.origin).map(({ supply }) => supply.id);
  if (unknown.length > 0) {
    return {
      lines: [],
      cautions: [
        `Minced meat declares where its animals were reared and slaughtered (${cite(origin)}); the origin of ${listed(unknown)} is not known. Enter it with the lot.`,
      ],
    };
  }
  const bySpecies = new Map<string, Origin[]>();
  for (const { supply } of meat) {
    const species = supply.material.species ?? 'meat';
    const known = bySpecies.get(species) ?? [];
    bySpecies.set(species, [...known, ...(supply.lot?.origin ? [supply.lot.origin] : [])]);
  }
  return {
    lines: [...bySpecies].map(([species, origins]) => ({
      text: `${title(species)}: ${originText(species, origins)}`,
      citation: cite(origin),
    })),
    cautions: [],
  };
}

const NONE: OriginLines = { lines: [], cautions: [] };

function originText(species: string, origins: readonly Origin[]): string {
  const countries = (of: (origin: Origin) => string) =>
    listed([...new Set(origins.map(of))].sort().map(countryName));
  const born =
    species === 'beef' || species === 'veal' ? [`born in ${countries(({ bornIn }) => bornIn)}`] : [];
  return [
    ...born,
    `reared in ${countries(({ raisedIn }) => raisedIn)}`,
    `slaughtered in ${countries(({ slaughteredIn }) => slaughteredIn)}`,
  ].join(', ');
}

const COUNTRIES = new Intl.DisplayNames(['en'], { type: 'region' });

function countryName(code: string): string {
  return COUNTRIES.of(code) ?? code;
}
